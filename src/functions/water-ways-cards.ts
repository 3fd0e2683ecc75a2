import { nameKey } from '../core/nearest-name';
import {
  drainFlow,
  fittingLosses,
  operatingFlow,
  pipeSpeed,
  pipeVolume,
  PLASTIC_MANNING,
  settledShare,
  type Settler,
  settlers,
  sumpVolume,
  MAX_PIPE_SPEED,
} from '../core/water-ways';
import { card, type Source, type ValueCard } from './card';
import { choice, type NameBook, nameOrNumber, number } from './parameter';
import { roughnessTables, volumeBalance } from './water-sources';

const subject = 'Flow and pumps';

const MAX_FLOW = 1e9;
const bore = number('bore', 'inside width of the pipe', { unit: 'mm', above: 0, max: 3000 });
const filled = (usual: number) =>
  number('filled', 'depth of the water as a share of the bore', {
    unit: 'share',
    min: 0.01,
    max: 1,
    default: usual,
  });
const litres = <const N extends string>(name: N, meaning: string) =>
  number(name, meaning, { unit: 'L', min: 0, max: 1e9 });

const wet = {
  A: '(bore / 1000)^2 * (theta - SIN(theta)) / 8',
  theta: '2 * ACOS(1 - 2 * filled)',
} as const;
const wetSymbols = {
  A: 'section of the water, m²',
  theta: 'angle over which water stands, as radians',
};

const pump = card({
  id: 'FLOW.PUMP',
  subject,
  summary: 'Flow that a pump gives where its curve meets lift and friction',
  searchWords: [
    'pump curve',
    'system curve',
    'operating point',
    'duty point',
    'real flow',
    'shut-off head',
    'gph at head',
  ],
  parameters: [
    number('shutoff', 'greatest lift of the pump, where nothing flows', {
      unit: 'm',
      above: 0,
      max: 1000,
    }),
    number('flow_most', 'flow of the pump without any lift', {
      unit: 'L/h',
      above: 0,
      max: MAX_FLOW,
    }),
    number('lift', 'height from water to water', { unit: 'm', min: 0, max: 1000 }),
    number('loss', 'head that pipe and fittings cost (FLOW.HEADLOSS)', {
      unit: 'm',
      min: 0,
      max: 1000,
      default: 0,
    }),
    number('at', 'the flow at which they cost it', {
      unit: 'L/h',
      above: 0,
      max: MAX_FLOW,
      optional: true,
      defaultText: 'the flow without any lift',
    }),
    choice(
      'curve',
      'how the curve of the pump falls',
      { curved: ['parabola', 'quadratic'], straight: ['line', 'linear'] },
      { default: 'curved' },
    ),
  ],
  result: { kind: 'number', unit: 'L/h', meaning: 'flow' },
  method:
    'The pump holds shutoff x (1 - (flow / flow_most)²), or a straight line; the way costs lift + loss x (flow / at)². The flow is where the two are the same.',
  formula: {
    Q: 'IF(shutoff <= lift, NO_ANSWER(), SWITCH(curve, "curved", SQRT((shutoff - lift) / (shutoff / flow_most^2 + b)), "straight", 2 * (shutoff - lift) / (s + SQRT(s^2 + 4 * b * (shutoff - lift)))))',
    s: 'shutoff / flow_most',
    b: 'loss / IF(at = "", flow_most, at)^2',
  },
  symbols: {
    s: 'fall of a straight curve, m for each L/h',
    b: 'friction, m for each square of L/h',
  },
  sources: [
    {
      author: 'Cengel & Cimbala',
      year: '',
      title: 'Fluid Mechanics, exercise on a pump and its system',
      where: 'parabolas of pump and system (the statement was seen, the result is arithmetic)',
      evidence: 'read',
    },
    volumeBalance,
  ],
  validity:
    'Two figures stand for the curve; the maker’s own curve is better where it bends. Friction grows with somewhat less than the square: give the loss at a flow near the answer, and once more at the answer. A clogged screen or slime in the pipe takes a fifth of the flow in a year (common practice).',
  dangers: ['electricity', 'sulphide'],
  examples: [
    {
      args: [7.46, '12.8328 L/min', 3.52, 0.0261, '1 L/min'],
      result: 445.8,
      tolerance: 0.5,
      says: 'A textbook exercise: 7.46 - 0.0453 Q² against 3.52 + 0.0261 Q² meet at 7.43 L/min',
    },
    {
      args: [3.5, 14000, 1.5, 0.57, 7800],
      result: 8570.8,
      tolerance: 0.1,
      says: 'A pump of 14 000 L/h and 3.5 m, 1.5 m of lift and a pipe that costs 0.57 m at 7800 L/h',
    },
  ],
  seeAlso: ['FLOW.HEADLOSS', 'FLOW.FITTINGS', 'FLOW.WATTS'],
  compute: (shutoff, most, lift, loss, at, curve) =>
    operatingFlow({ shutoff, most, curve }, lift, loss, at ?? most),
});

const count = <const N extends string>(name: N, meaning: string) =>
  number(name, meaning, { min: 0, max: 10000, whole: true, default: 0 });

const fittings = card({
  id: 'FLOW.FITTINGS',
  subject,
  summary: 'Loss coefficient of all the fittings of a pipe, for FLOW.HEADLOSS',
  searchWords: ['elbow', 'bend', 'tee', 'valve', 'minor loss', 'K value', 'plumbing'],
  parameters: [
    number('elbows', 'elbows of 90 degrees', { min: 0, max: 10000, whole: true }),
    count('bends', 'bends of 45 degrees'),
    count('tees_through', 'tees, water straight through'),
    count('tees_branch', 'tees, water round the corner'),
    count('valves', 'ball valves, open'),
    count('check_valves', 'check valves'),
    count('inlets', 'inlets with a sharp edge'),
    count('outlets', 'outlets into a tank'),
  ],
  result: { kind: 'number', unit: '', meaning: 'sum of the loss coefficients (K)' },
  method: 'Each fitting times its coefficient, summed.',
  formula: {
    K: Object.entries(fittingLosses)
      .map(([name, loss]) => `${loss} * ${name}`)
      .join(' + '),
  },
  sources: [roughnessTables],
  validity:
    'Textbook coefficients, of a range the greater: elbow 0.9 (threaded 0.9 to 1.5), 45 degrees 0.4, tee 0.9 and 2, open ball valve 0.05, swing check valve 2 to 2.5, sharp inlet 0.5, outlet 1. A valve that is half shut costs many times as much.',
  dangers: ['electricity'],
  examples: [
    {
      args: [5, 0, 0, 0, 0, 0, 1, 1],
      result: 6,
      says: 'Five elbows, an inlet and an outlet',
    },
    {
      args: [3, 2, 1, 1, 1, 1],
      result: 8.95,
      says: 'Three elbows, two bends, two tees, a valve and a check valve',
    },
  ],
  seeAlso: ['FLOW.HEADLOSS', 'FLOW.PUMP'],
  compute: (...counts) =>
    Object.values(fittingLosses).reduce((sum, loss, i) => sum + loss * (counts[i] as number), 0),
});

const plumbingCode: Source = {
  author: 'Plumbing-Heating-Cooling Contractors',
  year: 2009,
  title: 'National Standard Plumbing Code, appendix K',
  where:
    'quarter depth against half: flow 0.274, velocity 0.701; three quarters 1.13; scouring at 0.61 m/s',
  evidence: 'read',
};
const manning: Source = {
  author: 'Manning',
  year: 1891,
  title: 'flow in open channels',
  where: 'a full pipe of half a foot, n 0.02, 5 %: 0.82 ft³/s (examination item)',
  evidence: 'read',
};

const drain = card({
  id: 'FLOW.DRAIN',
  subject,
  summary: 'Flow that a return or drain carries by gravity',
  searchWords: [
    'gravity return',
    'drain size',
    'drain pipe',
    'overflow',
    'slope',
    'fall of the pipe',
    'standpipe',
    'Manning',
  ],
  parameters: [
    bore,
    number('slope', 'fall of the pipe, m for each m', { unit: 'share', above: 0, max: 1 }),
    filled(0.5),
    number('manning', 'roughness of the wall (Manning’s n)', {
      min: 0.005,
      max: 0.2,
      default: PLASTIC_MANNING,
      defaultText: '0.011, clean plastic',
    }),
  ],
  result: { kind: 'number', unit: 'L/h', meaning: 'flow' },
  method:
    'Manning: section times the hydraulic radius to the power of two thirds times the root of the slope, over n. Half full is how drains are sized: air must pass above the water.',
  formula: {
    Q: '3600000 * A * r_h^(2 / 3) * SQRT(slope) / manning',
    r_h: 'A / (bore / 1000 * theta / 2)',
    ...wet,
  },
  symbols: { ...wetSymbols, r_h: 'hydraulic radius, m' },
  sources: [manning, plumbingCode],
  validity:
    'A long, straight, clean pipe. Take half of it once roots and slime are in (common practice), size an overflow for the whole flow of the pump with its screen half blocked, and let several beds on one drain empty one after the other.',
  dangers: ['sulphide'],
  examples: [
    {
      args: ['0.5 ft', 0.05, 1, 0.02],
      result: 83520,
      tolerance: 1080,
      says: 'A full pipe of half a foot, n 0.02, at 5 %: 23.2 L/s (examination item: 0.82 ft³/s)',
    },
    {
      args: [50, 0.01],
      result: 1730,
      tolerance: 20,
      says: 'A 50 mm return at 1 %, half full: 1.7 m³/h',
    },
  ],
  seeAlso: ['FLOW.SPEED', 'FLOW.HEADLOSS', 'FLOOD.MINUTES'],
  compute: drainFlow,
});

const speed = card({
  id: 'FLOW.SPEED',
  subject,
  summary: 'Speed of the water in a pipe, a drain or a round tank',
  searchWords: [
    'velocity',
    'self-cleaning',
    'scouring',
    'surface loading',
    'overflow rate',
    'upflow',
  ],
  parameters: [number('flow', 'flow', { unit: 'L/h', min: 0, max: MAX_FLOW }), bore, filled(1)],
  result: { kind: 'number', unit: 'm/s', meaning: 'mean speed' },
  method: 'Flow over the section that the water fills.',
  formula: {
    v: `IF(A < flow / ${3.6e6 * MAX_PIPE_SPEED}, NO_ANSWER(), flow / 3600000 / A)`,
    ...wet,
  },
  symbols: wetSymbols,
  sources: [volumeBalance, plumbingCode],
  validity:
    'Solids stay behind below about 0.6 m/s (plumbing code: 0.61). Pressure pipes from a pump: 1 to 1.5 m/s is usual (common practice). More than 20 m/s is #NUM!: a slip of bore or flow.',
  examples: [
    {
      args: [7800, 55],
      result: 0.912,
      tolerance: 0.0005,
      says: '7800 L/h in a pipe of 55 mm: 0.9 m/s',
    },
    {
      args: [3000, 1200],
      result: 0.000737,
      tolerance: 0.000001,
      says: '3 m³/h rising in a settler of 1.2 m: 2.65 m an hour',
    },
  ],
  seeAlso: ['FLOW.DRAIN', 'SOLIDS.SETTLED'],
  compute: pipeSpeed,
});

const pipe = card({
  id: 'PIPE.VOLUME',
  subject,
  summary: 'Water that stands in a full pipe',
  searchWords: ['drain back', 'content of a pipe', 'sump', 'power cut'],
  parameters: [bore, number('length', 'length of the pipe', { unit: 'm', min: 0, max: 100000 })],
  result: { kind: 'number', unit: 'L', meaning: 'water' },
  method: 'Section times length.',
  formula: { water: 'PI() / 4 * (bore / 1000)^2 * length * 1000' },
  sources: [volumeBalance],
  validity: 'The inside width counts, not the name of the pipe.',
  examples: [
    { args: [50, 25], result: 49.1, tolerance: 0.1, says: '25 m of 50 mm pipe' },
    { args: ['2 in', '100 ft'], result: 61.8, tolerance: 0.05, says: '100 feet of two inches' },
  ],
  seeAlso: ['SUMP.VOLUME'],
  compute: pipeVolume,
});

const sump = card({
  id: 'SUMP.VOLUME',
  subject,
  summary: 'Water that a sump must be able to hold',
  searchWords: [
    'sump size',
    'overflow',
    'drain back',
    'power cut',
    'pump runs dry',
    'flooded floor',
    'sump overflows',
  ],
  parameters: [
    litres('drain_back', 'water that runs back from pipes when the pump stops (PIPE.VOLUME)'),
    litres('flooded', 'water of the beds that may empty at once (FLOOD.VOLUME)'),
    litres('submerged', 'water that must stay so that the pump does not suck air'),
    number('evaporation', 'water that is lost until somebody tops up', {
      unit: 'L',
      min: 0,
      max: 1e9,
      default: 0,
    }),
    number('spare', 'reserve on top', { unit: 'share', min: 0, max: 5, default: 0 }),
  ],
  result: { kind: 'number', unit: 'L', meaning: 'water up to the rim' },
  method:
    'What comes back when the power fails, what the beds give at once, what the pump needs above its inlet, and what is lost between two fillings; with the reserve.',
  formula: { sump: '(drain_back + flooded + submerged + evaporation) * (1 + spare)' },
  sources: [volumeBalance],
  validity:
    'A sump below everything that drains into it. Leave a tenth at least (common practice), and a check valve does not count: it leaks one day.',
  dangers: ['weight', 'sulphide', 'electricity'],
  examples: [
    {
      args: [49.1, 400, 150],
      result: 599.1,
      says: '25 m of 50 mm pipe, two beds of 200 L, 150 L over the pump: 599 L',
    },
    {
      args: [49.1, 400, 150, 60, 0.1],
      result: 725.01,
      says: 'The same with a day’s evaporation and a tenth over',
    },
  ],
  seeAlso: ['PIPE.VOLUME', 'FLOOD.VOLUME'],
  compute: sumpVolume,
});

const settlerBook: NameBook<Settler> = {
  what: 'settler',
  listedBy: 'the page of GILL.SOLIDS.SETTLED',
  names: settlers.map((row) => row.name),
  find: (name) =>
    settlers.find((row) =>
      [row.name, ...row.spellings].some((spelling) => nameKey(spelling) === nameKey(name)),
    ),
};

const settled = card({
  id: 'SOLIDS.SETTLED',
  subject: 'Filter',
  summary: 'Share of the solids that a settler takes out in a pass',
  searchWords: [
    'clarifier',
    'settling tank',
    'swirl filter',
    'radial flow',
    'sludge',
    'solids removal',
    'TSS',
    'cloudy water',
    'surface loading',
  ],
  parameters: [
    number('flow', 'flow through the settler', { unit: 'L/h', above: 0, max: 1e8 }),
    number('area', 'surface of the settler', { unit: 'm2', above: 0, max: 1e6 }),
    nameOrNumber('settler', 'kind of settler, or the speed at which the solids sink', settlerBook, {
      unit: 'm/h',
      above: 0,
      max: 1000,
      default: 'swirl separator',
      words: Object.fromEntries(settlers.map((row) => [row.name, row.spellings])),
      of: (row) => row.settling,
    }),
    number(
      'tanks',
      'mixed tanks in a row that it works like: 1 the worst basin, 8 a very good one',
      {
        min: 1,
        max: 20,
        whole: true,
        default: 1,
      },
    ),
  ],
  result: { kind: 'number', unit: 'share', meaning: 'share of the suspended solids' },
  method:
    'Hazen: 1 - (1 + settling speed / surface load / tanks) to the power of -tanks, the surface load being flow over area.',
  formula: {
    share: '1 - (1 + vs / v_0 / tanks)^(0 - tanks)',
    vs: `IF(ISNUMBER(settler), settler, SWITCH(settler, ${settlers.map((row) => `"${row.name}", ${row.settling}`).join(', ')}, NA()))`,
    v_0: 'flow / 1000 / area',
  },
  symbols: { vs: 'speed at which the solids sink, m/h', v_0: 'surface load, m/h' },
  sources: [
    {
      author: 'Hazen',
      year: 1904,
      title: 'On sedimentation, Trans. ASCE 53:45',
      where: 'basins as mixed tanks in a row',
      evidence: 'memory',
    },
    {
      author: 'Davidson & Summerfelt',
      year: 2005,
      title: 'Solids removal from a coldwater recirculating system, Aquacultural Engineering 33:47',
      where: '11 m/h: radial-flow settler 78 %, swirl separator 37 % of the suspended solids',
      evidence: 'memory',
    },
  ],
  validity:
    'The two named settlers are laid through one trial at 11 m/h; plan with 5 m/h and less (settling basins 1 to 2.7). A drum screen of 60 µm takes 30 to 80 %, the more the dirtier the water (recalled). What is caught must leave the loop within a day.',
  dangers: ['sulphide'],
  examples: [
    {
      args: [11000, 1, 'radial-flow settler'],
      result: 0.78,
      tolerance: 0.001,
      says: 'A radial-flow settler at 11 m/h: 78 % (Davidson & Summerfelt 2005, recalled)',
    },
    {
      args: [7800, 2.6],
      result: 0.6829,
      tolerance: 0.0001,
      says: '7800 L/h through a swirl separator of 2.6 m²: 3 m/h, two thirds',
    },
  ],
  seeAlso: ['LOAD.SOLIDS', 'FLOW.SPEED'],
  compute: settledShare,
});

export const waterWayCards: readonly ValueCard[] = [pump, fittings, drain, speed, pipe, sump];
export const settlingCards: readonly ValueCard[] = [settled];
