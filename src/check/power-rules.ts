import { figure, type Finding } from './finding';
import { labelled, type Labelled } from './labels';
import type { OpenSheet } from './open-sheet';

/** Money typed and money reckoned further apart than this are two answers. */
const APART = 1.5;

const withUnit = ({ value, unit }: Labelled): string => `${figure(value)} ${unit}`.trim();
const at = ({ sheet, address }: Labelled) => ({ sheet, address });

/** What is there to run the air when the mains fail, against what must run and for how long. */
function standby(sheets: readonly OpenSheet[]): Finding[] {
  const must = labelled(sheets, /^must run when the mains fail\b/i);
  if (!must || must.value <= 0) return [];
  const hours = labelled(sheets, /^outage to last through\b/i);
  const battery = labelled(sheets, /^battery that is there\b/i);
  const lasts = labelled(sheets, /^(it|the battery) lasts\b/i);
  const generator = labelled(sheets, /^generator that is there\b/i);
  const [batteryFor, generatorFor] = [
    labelled(sheets, /^battery for it\b/i),
    labelled(sheets, /^or a generator\b/i),
  ];
  const enough = [
    batteryFor && `a battery of ${withUnit(batteryFor)}`,
    generatorFor && `a generator of ${withUnit(generatorFor)}`,
  ].filter((words) => words !== undefined);
  const remedy = `Have ${enough.join(' or ') || 'stand-by power for it'} connected by a licensed electrician, with an alarm, and try both out.`;
  if (!battery && !generator) {
    return [
      {
        level: 'note',
        what: `Nothing is typed that gives ${withUnit(must)} when the mains fail.`,
        ...at(must),
        why: 'Without air the fish live for the minutes that the tanks show.',
        remedy,
      },
    ];
  }
  if (generator && generatorFor && generator.value >= generatorFor.value) return [];
  if (lasts && hours && lasts.value >= hours.value) return [];
  if (battery && lasts && hours) {
    return [
      {
        level: 'watch',
        what: `The battery lasts ${figure(lasts.value)} of the ${figure(hours.value)} hours of the outage.`,
        ...at(battery),
        why: 'Then the air stops while nobody may be there.',
        remedy,
      },
    ];
  }
  return generator && generatorFor
    ? [
        {
          level: 'watch',
          what: `The generator gives ${withUnit(generator)}; what must run asks for ${withUnit(generatorFor)} to start.`,
          ...at(generator),
          why: 'Motors start with several times their power: it stalls, and the air stops.',
          remedy,
        },
      ]
    : [];
}

/** The heater against the coldest month, and the fuel against what is known of the house. */
function heat(sheets: readonly OpenSheet[]): Finding[] {
  const needed = labelled(sheets, /^heater for the coldest month/i);
  const there = labelled(sheets, /^heater that is there\b/i);
  const price = labelled(sheets, /^price of the fuel\b/i);
  const cost = labelled(sheets, /^cost of the house.s heat\b/i);
  const findings: Finding[] = [];
  if (needed && needed.value > 0 && !there) {
    findings.push({
      level: 'note',
      what: `The coldest month asks for a heater of ${withUnit(needed)}; none is typed.`,
      ...at(needed),
      why: 'Whether the house stays warm enough is not known.',
      remedy: 'Type the power of the heater that is there, or lower the warmth that is kept.',
    });
  }
  if (needed && there && there.value < needed.value) {
    findings.push({
      level: 'watch',
      what: `The heater gives ${withUnit(there)}; the nights of the coldest month ask for ${withUnit(needed)}.`,
      ...at(there),
      why: 'The house falls below the temperature that it is to keep, and a cold snap asks for more.',
      remedy:
        'A larger heater fitted by a licensed trade, a second film or curtain, or less warmth.',
    });
  }
  if (price && price.value > 0 && !cost) {
    findings.push({
      level: 'watch',
      what: 'A price of fuel is typed, and no heat is reckoned.',
      ...at(price),
      why: 'Air of the house, its cover or temperatures of the months are missing: the cost stays open.',
      remedy: 'Type them on the Site sheet.',
    });
  }
  return findings;
}

/** Money typed for a year of something against what the plan reckons for it. */
function typedAgainst(
  typed: Labelled | undefined,
  reckoned: Labelled | undefined,
  what: string,
): Finding[] {
  if (!typed || !reckoned || typed.value <= 0 || reckoned.value <= 0) return [];
  const year = 12 * typed.value;
  const ratio = year / reckoned.value;
  if (ratio <= APART && ratio >= 1 / APART) return [];
  return [
    {
      level: 'note',
      what: `${what}: ${figure(year)} a year by the costs a month, ${figure(reckoned.value)} by what runs.`,
      ...at(typed),
      why: 'One of the two is wrong, and the balance of the farm rests on it.',
      remedy: 'Take the last bills, and correct the hours, the prices or the cost a month.',
    },
  ];
}

function money(sheets: readonly OpenSheet[]): Finding[] {
  const price = labelled(sheets, /^price of a kwh\b/i);
  const energy = labelled(sheets, /^energy a year\b/i);
  return [
    ...(price && price.value > 0 && energy?.value === 0
      ? [
          {
            level: 'watch' as const,
            what: 'A price of a kWh is typed, and nothing is said to run.',
            ...at(price),
            why: 'Pumps and air of a farm with fish always draw power: the cost would be nought.',
            remedy: 'Type tanks, pipes and hours, so that what runs is known.',
          },
        ]
      : []),
    ...typedAgainst(
      labelled(sheets, /^electricity$/i),
      labelled(sheets, /^cost a year$/i),
      'Electricity',
    ),
    ...typedAgainst(
      labelled(sheets, /^heating$/i),
      labelled(sheets, /^cost of the house.s heat\b/i),
      'Heating',
    ),
  ];
}

/** Power in an outage, heat and their cost, by the labels that stand beside the figures. */
export const powerRules = (sheets: readonly OpenSheet[]): Finding[] => [
  ...standby(sheets),
  ...heat(sheets),
  ...money(sheets),
];
