import { unionisedShare } from '../core/ammonia';
import { figure, type Finding, type Level } from './finding';
import type { Role } from './headings';
import type { FoundTable, TableLine } from './found-tables';
import type { FoundLimits } from './water-limits-found';

/** Of the figure that harms: from so many times it on, fish are in danger of dying. Common practice, no source. */
const DEADLY = 10;
const NITRITE_DANGER = 5;
/** Alkalinity below which pH falls fast; usual practice. */
const ALKALINITY = 40;

interface Slip {
  readonly role: Role;
  readonly wrong: (value: number) => boolean;
  readonly why: string;
  readonly remedy: (value: number) => string;
}

const slips: readonly Slip[] = [
  {
    role: 'ph',
    wrong: (value) => value > 14,
    why: 'pH ends at 14; a point was left out.',
    remedy: (value) => `Type ${figure(value / 10)} if that was read.`,
  },
  {
    role: 'ph',
    wrong: (value) => value > 0 && (value < 4 || (value > 10 && value <= 14)),
    why: 'No fish lives in such water; the meter may be out of calibration, or another reading went into this column.',
    remedy: () => 'Measure again with a calibrated meter and correct the line.',
  },
  {
    role: 'temperature',
    wrong: (value) => value > 45,
    why: 'No tank is that warm; degrees Fahrenheit in a column of degrees Celsius look like this.',
    remedy: (value) =>
      `Type ${figure(((value - 32) * 5) / 9)}, or text with its unit such as "${figure(value)} degF".`,
  },
  {
    role: 'oxygen',
    wrong: (value) => value > 20,
    why: 'Water holds no more than about 15 mg/L; a share of saturation in per cent looks like this.',
    remedy: () => 'Type mg/L; the share goes into a column of its own.',
  },
];

function slipFindings(line: TableLine, sheet: string): Finding[] {
  return slips.flatMap(({ role, wrong, why, remedy }) => {
    const value = line.number(role);
    if (value === undefined || !wrong(value)) return [];
    const name = role === 'ph' ? 'pH' : role;
    return [
      {
        level: 'watch' as const,
        what: `${line.called}: ${name} of ${figure(value)}.`,
        sheet,
        address: line.address(role),
        why,
        remedy: remedy(value),
      },
    ];
  });
}

function ammonia(line: TableLine, sheet: string, limits: FoundLimits): Finding[] {
  const [tan, ph, water] = [line.number('tan'), line.number('ph'), line.number('temperature')];
  const known =
    tan !== undefined &&
    ph !== undefined &&
    water !== undefined &&
    ph > 0 &&
    ph <= 14 &&
    water < 50;
  const unionised = known ? tan * unionisedShare(ph, water, 0) : line.number('unionised');
  const harmful = limits.unionised_most;
  if (unionised === undefined || unionised < harmful) return [];
  return [
    {
      level: unionised >= DEADLY * harmful ? 'danger' : 'watch',
      what: `${line.called}: ${figure(unionised)} mg/L of un-ionised ammonia-N.`,
      sheet,
      address: line.address(line.cell('unionised') === undefined ? 'tan' : 'unionised'),
      why: `From about ${harmful} mg/L it harms ${limits.whose}: gills first, many times that kills; more pH and warmth make more of it.`,
      remedy:
        'Stop feeding until it is down, change part of the water with water free of chlorine, give air, look at the filter; add no base while it stands high.',
    },
  ];
}

interface Bound {
  readonly role: Role;
  readonly level: (value: number) => Level | undefined;
  readonly what: string;
  readonly why: string;
  readonly remedy: string;
}

const boundsOf = ({
  oxygen_least: aim,
  oxygen_critical: low,
  nitrite_most: nitrite,
  whose,
}: FoundLimits): readonly Bound[] => [
  {
    role: 'oxygen',
    level: (value) => (value < low ? 'danger' : value < aim ? 'watch' : undefined),
    what: 'mg/L of oxygen',
    why: `For ${whose} ${aim} mg/L or more is wanted; under ${low} they are in danger, and the filter's bacteria stop.`,
    remedy:
      'Give air at once, stop feeding, look at pumps and screens; thin out the tank if it comes back.',
  },
  {
    role: 'nitrite',
    level: (value) =>
      value > NITRITE_DANGER * nitrite ? 'danger' : value > nitrite ? 'watch' : undefined,
    what: 'mg/L of nitrite-N',
    why: `Above ${nitrite} mg/L it keeps the blood of ${whose} from carrying oxygen; chloride in the water keeps it out of the gills of most fish.`,
    remedy:
      'Feed less and look at the filter; GILL.DOSE.SALT says how much salt protects the fish meanwhile.',
  },
  {
    role: 'alkalinity',
    level: (value) => (value < ALKALINITY ? 'watch' : undefined),
    what: 'mg/L as CaCO3 of alkalinity',
    why: `Under about ${ALKALINITY} mg/L the acid from nitrifying pulls pH down within days (usual practice).`,
    remedy:
      'GILL.DOSE.BASE says how much base lifts it; dissolve it apart, add it slowly, goggles and gloves on.',
  },
];

function boundFindings(line: TableLine, sheet: string, limits: FoundLimits): Finding[] {
  return boundsOf(limits).flatMap(({ role, level, what, why, remedy }) => {
    const value = line.number(role);
    const found = value === undefined ? undefined : level(value);
    if (value === undefined || found === undefined) return [];
    return [
      {
        level: found,
        what: `${line.called}: ${figure(value)} ${what}.`,
        sheet,
        address: line.address(role),
        why,
        remedy,
      },
    ];
  });
}

/** Ammonia, oxygen, nitrite, alkalinity and slips of unit in every log of water tests. */
export const waterRules = (table: FoundTable, limits: FoundLimits): Finding[] =>
  table.roles.has('ph')
    ? table.lines.flatMap((line) => {
        const slipped = slipFindings(line, table.sheet);
        const wrong = new Set(slipped.map((finding) => finding.address));
        const sound = boundFindings(line, table.sheet, limits).filter(
          (finding) => !wrong.has(finding.address),
        );
        return [
          ...slipped,
          ...(slipped.length > 0 ? [] : ammonia(line, table.sheet, limits)),
          ...sound,
        ];
      })
    : [];
