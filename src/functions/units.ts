import { wrongValue } from '../core/errors';
import { type Commas, numberText } from './number-text';
import { converted } from './unit-converter';

/** What a unit measures, in a word that fits "takes …". */
interface UnitFact {
  /** The name that mathjs knows it by; none where only a bare number is taken. */
  readonly formula?: string;
  readonly measures: string;
  /** An example for the error sentence. */
  readonly example: string;
  /** Spellings of the trade that mathjs does not know, or knows as something else. */
  readonly spellings?: Readonly<Record<string, readonly [factor: number, formula: string]>>;
}

const temperature: UnitFact = {
  formula: 'degC',
  measures: 'a temperature',
  example: '"78 degF"',
  spellings: {
    f: [1, 'degF'],
    degf: [1, 'degF'],
    c: [1, 'degC'],
    degc: [1, 'degC'],
  },
};
const flow: UnitFact['spellings'] = {
  gph: [1, 'gallon/hour'],
  gpm: [1, 'gallon/minute'],
  lph: [1, 'litre/hour'],
  lpm: [1, 'litre/minute'],
  'l/h': [1, 'litre/hour'],
  'l/min': [1, 'litre/minute'],
  cfm: [1, 'ft^3/minute'],
  'm3/h': [1, 'm^3/hour'],
};
const concentration: UnitFact['spellings'] = {
  ppm: [1, 'mg/litre'],
  'mg/l': [1, 'mg/litre'],
  'g/l': [1, 'g/litre'],
  'ug/l': [0.001, 'mg/litre'],
  ppb: [0.001, 'mg/litre'],
};
const area: UnitFact['spellings'] = {
  sqft: [1, 'ft^2'],
  'sq ft': [1, 'ft^2'],
  ha: [10000, 'm^2'],
  // mathjs has the acre rounded.
  acre: [4046.8564224, 'm^2'],
  acres: [4046.8564224, 'm^2'],
};
const mass: UnitFact['spellings'] = { pound: [1, 'lb'], pounds: [1, 'lb'], lbs: [1, 'lb'] };
const massPerDay: UnitFact['spellings'] = {
  'lb/day': [1, 'lb/day'],
  'lbs/day': [1, 'lb/day'],
  'g/d': [1, 'g/day'],
};

const facts = {
  g: { formula: 'g', measures: 'a weight', example: '"1.1 lb"', spellings: mass },
  kg: { formula: 'kg', measures: 'a weight', example: '"25 lb"', spellings: mass },
  'kg/month': { measures: 'kilograms a month', example: '120' },
  'g/day': {
    formula: 'g/day',
    measures: 'a weight a day',
    example: '"2 lb/day"',
    spellings: massPerDay,
  },
  'g/m2/day': { formula: 'g/(m^2 day)', measures: 'a weight on an area a day', example: '45' },
  L: { formula: 'litre', measures: 'a volume', example: '"1100 gal"' },
  m3: { formula: 'm^3', measures: 'a volume', example: '"5000 ft3"' },
  'L/h': { formula: 'litre/hour', measures: 'a flow', example: '"500 gph"', spellings: flow },
  'm3/h': { formula: 'm^3/hour', measures: 'a flow', example: '"800 cfm"', spellings: flow },
  'L/day': { formula: 'litre/day', measures: 'a volume a day', example: '"50 gal/day"' },
  'g/h': { formula: 'g/hour', measures: 'a weight an hour', example: '"0.5 lb/hour"' },
  'kg/h': { formula: 'kg/hour', measures: 'a weight an hour', example: '"5 lb/hour"' },
  m2: { formula: 'm^2', measures: 'an area', example: '"320 ft2"', spellings: area },
  'm2/m3': { formula: 'm^2/m^3', measures: 'a surface in a volume', example: '300' },
  m: { formula: 'm', measures: 'a length', example: '"12 ft"' },
  cm: { formula: 'cm', measures: 'a length', example: '"6 in"' },
  mm: { formula: 'mm', measures: 'a length', example: '"2 in"' },
  degC: temperature,
  'degC day': { measures: 'warmth over days', example: '12' },
  'mg/L': {
    formula: 'mg/litre',
    measures: 'a concentration',
    example: '"2 ppm"',
    spellings: concentration,
  },
  // 17.848 and 50.04 mg/L as CaCO3: molar mass of CaCO3 (100.09) and of CaO (56.08).
  'mg/L as CaCO3': {
    formula: 'mg/litre',
    measures: 'an alkalinity',
    example: '"8 dKH"',
    spellings: {
      ...concentration,
      dkh: [17.848, 'mg/litre'],
      dgh: [17.848, 'mg/litre'],
      'meq/l': [50.04, 'mg/litre'],
    },
  },
  'g/kg': {
    formula: 'g/kg',
    measures: 'a salinity',
    example: '"3 ppt"',
    spellings: { ppt: [1, 'g/kg'], psu: [1, 'g/kg'], 'g/l': [1, 'g/kg'] },
  },
  'kg/m3': {
    formula: 'kg/m^3',
    measures: 'a density',
    example: '"0.5 lb/gal"',
    spellings: { 'g/l': [1, 'kg/m^3'], 'kg/1000l': [1, 'kg/m^3'], 'lb/gal': [1, 'lb/gallon'] },
  },
  'g/g': {
    measures: 'a weight for each weight of feed',
    example: '0.5 or "50 %"',
    spellings: { '%': [0.01, ''], percent: [0.01, ''], 'kg/kg': [1, ''], 'lb/lb': [1, ''] },
  },
  'mg/L/h': { measures: 'a fall of oxygen an hour', example: '2' },
  ppm: {
    measures: 'a part of the air in millionths',
    example: '420 or "0.2 %"',
    spellings: { '%': [10000, ''], percent: [10000, ''] },
  },
  'g/m3': { formula: 'g/m^3', measures: 'a weight in a volume', example: '17' },
  day: { formula: 'day', measures: 'a time', example: '"3 weeks"' },
  week: { formula: 'week', measures: 'a time', example: '"70 days"' },
  h: { formula: 'hour', measures: 'a time', example: '"30 min"' },
  min: { formula: 'minute', measures: 'a time', example: '"0.5 h"' },
  degrees: { formula: 'deg', measures: 'an angle', example: '-34.5' },
  share: {
    measures: 'a share from 0 to 1',
    example: '0.6 or "60 %"',
    spellings: { '%': [0.01, ''], percent: [0.01, ''] },
  },
  'm/s': { formula: 'm/s', measures: 'a speed', example: '"2 ft/s"' },
  'm/h': { formula: 'm/hour', measures: 'a speed', example: '"4 ft/hour"' },
  W: { formula: 'W', measures: 'a power', example: '"0.5 hp"' },
  kWh: { formula: 'kWh', measures: 'an amount of energy', example: '12' },
  // 1 Btu (IT) = 1055.05585262 J, 1 ft = 0.3048 m, 1 degF = 5/9 K.
  'W/m2/K': {
    formula: 'W/(m^2 K)',
    measures: 'a heat loss rate',
    example: '"1.1 Btu/h/ft2/degF"',
    spellings: {
      'btu/h/ft2/degf': [5.678263341, ''],
      'btu/h/ft2/f': [5.678263341, ''],
      'btu/hr/ft2/f': [5.678263341, ''],
      'btu/hr/ft2/degf': [5.678263341, ''],
    },
  },
  kPa: { formula: 'kPa', measures: 'a pressure', example: '"12 mbar"' },
  'MJ/m2/day': { formula: 'MJ/(m^2 day)', measures: 'an amount of sunshine', example: '18' },
  'W/m2': { formula: 'W/m^2', measures: 'a strength of sunshine', example: '900' },
  'mol/m2/day': { measures: 'an amount of light', example: '17' },
  'umol/m2/s': { measures: 'a brightness', example: '200' },
  'g/m2/day TAN': { formula: 'g/(m^2 day)', measures: 'a nitrification rate', example: '0.45' },
  '1/h': { measures: 'times an hour', example: '1' },
  'plants/m2': {
    formula: 'm^-2',
    measures: 'plants on an area',
    example: '"2 /ft2"',
    spellings: { '/ft2': [1, 'ft^-2'], '/m2': [1, 'm^-2'] },
  },
  fish: { measures: 'a number of fish', example: '640' },
  plants: { measures: 'a number of plants', example: '200' },
  seeds: { measures: 'a number of seeds', example: '278' },
  trays: { measures: 'a number of trays', example: '4' },
  money: { measures: 'an amount of money', example: '3.50' },
  pH: { measures: 'a pH', example: '7.2' },
  '': { measures: 'a number', example: '1' },
} satisfies Record<string, UnitFact>;

export type UnitId = keyof typeof facts;

export const unitFact = (unit: UnitId): UnitFact => facts[unit];

/**
 * Reads "78 degF", "25,5 °C", "1,100 gal", "60 %" or plain "7.5" as a number in `unit`.
 * Throws a sentence where the text is no number, may be either of two, or its unit measures something else.
 */
export function readNumberText(
  text: string,
  unit: UnitId,
  name: string,
  commas: Commas = 'ask',
): number {
  const fact = unitFact(unit);
  const takes = `${name} takes ${fact.measures}, such as ${fact.example}; got "${text}"`;
  const found = numberText(text, commas);
  if (!found) throw wrongValue(takes);
  const [value, orElse] = found.values;
  if (orElse !== undefined) {
    const unitText = found.rest && ` ${found.rest}`;
    throw wrongValue(
      `${name}: "${text}" may be ${value} or ${orElse}; write "${value}${unitText}" or "${orElse}${unitText}"`,
    );
  }
  const written = found.rest.replaceAll('²', '2').replaceAll('³', '3').replaceAll('°', 'deg');
  if (!written || written === unit) return value;
  const [factor, from] = fact.spellings?.[written.toLowerCase()] ?? [
    1,
    written.replace(/\b([a-zA-Z]+)([23])\b/g, '$1^$2'),
  ];
  if (from === '') return value * factor;
  if (fact.formula === undefined) throw wrongValue(takes);
  // A unit in capitals is tried as it stands first: Mg is a thousand times kg.
  for (const spelling of [from, from.toLowerCase()]) {
    try {
      // What the last binary digits make of 2 ppm or 1 kg is not part of the answer.
      return Number(converted(value * factor, spelling, fact.formula).toPrecision(15));
    } catch {
      continue;
    }
  }
  throw wrongValue(takes);
}
