import { isoText } from '../core/serial-date';
import { figure, type Finding } from './finding';
import type { Role } from './headings';
import type { FoundTable, TableLine } from './found-tables';

/** 1955: numbers below are days from sowing or the like, not dates. */
const FIRST_DATE = 20000;

const steps: readonly { role: Role; words: string }[] = [
  { role: 'sown', words: 'sown' },
  { role: 'planted', words: 'planted out' },
  { role: 'firstCut', words: 'first cut' },
  { role: 'clear', words: 'cleared' },
];

function datesOutOfOrder(line: TableLine, sheet: string): Finding[] {
  const dated = steps.flatMap(({ role, words }) => {
    const serial = line.number(role);
    return serial !== undefined && serial > FIRST_DATE ? [{ role, words, serial }] : [];
  });
  for (let i = 1; i < dated.length; i++) {
    const [before, after] = [dated[i - 1], dated[i]];
    if (!before || !after || after.serial >= before.serial) continue;
    return [
      {
        level: 'watch',
        what: `${line.called}: ${after.words} on ${isoText(after.serial)}, before it was ${before.words} on ${isoText(before.serial)}.`,
        sheet,
        address: line.address(after.role),
        why: 'Dates that run backwards make every later date and the plan of the week wrong.',
        remedy: `Correct the date of one of the two; a year typed wrong is the usual reason.`,
      },
    ];
  }
  return [];
}

const areaOf = (line: TableLine): number | undefined => {
  const [length, width] = [line.number('length'), line.number('width')];
  return (
    line.number('area') ??
    (length !== undefined && width !== undefined ? length * width : undefined)
  );
};

/** Beds without a crop: the fish feed them, and nothing takes the nutrients up. */
function unplanted(table: FoundTable): Finding[] {
  if (!table.roles.has('crop')) return [];
  const beds = table.lines.filter((line) => (areaOf(line) ?? 0) > 0);
  const empty = beds.filter((line) => line.cell('crop') === undefined);
  const first = empty[0];
  if (!first) return [];
  const total = beds.reduce((sum, line) => sum + (areaOf(line) ?? 0), 0);
  const idle = empty.reduce((sum, line) => sum + (areaOf(line) ?? 0), 0);
  return [
    {
      level: idle > total / 4 ? 'watch' : 'note',
      what: `${empty.length} of ${beds.length} beds ${empty.length === 1 ? 'has' : 'have'} no crop: ${figure(idle)} of ${figure(total)} m².`,
      sheet: table.sheet,
      address: first.address('crop'),
      why: 'What the plants do not take up stays in the water, and an empty bed earns nothing.',
      remedy:
        'Plant them from the nursery, or sow for them this week; feed less as long as they stand empty.',
    },
  ];
}

/** Beds that get less light than their crop wants at least. */
function inTheDark(table: FoundTable): Finding[] {
  if (!table.roles.has('lightShare')) return [];
  const share = (line: TableLine): number => line.number('lightShare') ?? 1;
  const dark = table.lines.filter((line) => share(line) < 1).sort((a, b) => share(a) - share(b));
  const [darkest] = dark;
  if (!darkest) return [];
  const others = dark.length - 1;
  return [
    {
      level: 'note',
      what: `${darkest.called} (${darkest.text('crop') ?? 'its crop'}) gets ${figure(100 * share(darkest))} % of the least light that it wants${others > 0 ? `; ${others} more ${others === 1 ? 'bed gets' : 'beds get'} less than that least` : ''}.`,
      sheet: table.sheet,
      address: darkest.address('lightShare'),
      why: 'It grows slowly and thin however warm it is, and nitrate gathers in the leaves.',
      remedy:
        'Wash the cover, take the cloth off, add lamps, or grow what wants less in those months.',
    },
  ];
}

/** Dates out of order, unplanted area and want of light in every table of beds. */
export const bedRules = (table: FoundTable): Finding[] =>
  table.roles.has('bed') || table.roles.has('sown')
    ? [
        ...table.lines.flatMap((line) => datesOutOfOrder(line, table.sheet)),
        ...unplanted(table),
        ...inTheDark(table),
      ]
    : [];
