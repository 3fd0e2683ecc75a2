import { builtUp, makeUp } from '../core/water-balance';
import { card, type ValueCard } from './card';
import { waterVolume } from './common-parameters';
import { number } from './parameter';
import { volumeBalance } from './water-sources';

const subject = 'Water and heat';
const perDay = <const N extends string>(name: N, meaning: string) =>
  number(name, meaning, { unit: 'L/day', min: 0, max: 1e8, default: 0 });

const balance = card({
  id: 'WATER.BALANCE',
  subject,
  summary: 'Make-up water that a farm needs a day',
  searchWords: ['top up', 'water use', 'replace water', 'water supply', 'evaporation', 'well'],
  parameters: [
    number('crops', 'water that the crops take up (WATER.USE)', {
      unit: 'L/day',
      min: 0,
      max: 1e8,
    }),
    perDay('evaporation', 'water that evaporates from open tanks (WATER.USE with 1.05)'),
    perDay('discharge', 'water that leaves with solids, leaks and splashes'),
    perDay('rain', 'rain that runs in'),
  ],
  result: {
    kind: 'number',
    unit: 'L/day',
    meaning: 'make-up; negative where rain brings more than is lost',
  },
  method: 'What leaves, less the rain.',
  formula: { makeup: 'crops + evaporation + discharge - rain' },
  sources: [volumeBalance],
  validity:
    'Means of a week or more. FAO Technical Paper 589 gives 1 to 3 % of the water a day in all, a raft farm at Baltimore lost 1 % (Love, Uhl & Genello 2015).',
  dangers: ['chlorine'],
  examples: [
    {
      args: [960],
      result: 960,
      says: '240 m² of crops at 4 mm a day: 960 L, which is 1.6 % of 60 m³',
    },
    { args: [960, 60, 250, 120], result: 1150, says: 'With tanks, sludge and rain' },
  ],
  seeAlso: ['WATER.USE', 'WATER.BUILDUP'],
  compute: makeUp,
});

const buildUp = card({
  id: 'WATER.BUILDUP',
  subject,
  summary: 'Hardness, salt or sodium in the water after months of make-up',
  searchWords: [
    'hard water',
    'hardness',
    'salt builds up',
    'sodium',
    'chloride',
    'accumulation',
    'source water',
    'water exchange',
  ],
  parameters: [
    waterVolume,
    number('from', 'level in the farm’s water now', { unit: 'mg/L', min: 0, max: 100000 }),
    number('makeup', 'make-up water a day (WATER.BALANCE)', { unit: 'L/day', min: 0, max: 1e8 }),
    number('brings', 'level in the make-up water', { unit: 'mg/L', min: 0, max: 100000 }),
    number('discharge', 'water that leaves as water, with sludge and leaks', {
      unit: 'L/day',
      min: 0,
      max: 1e8,
    }),
    number('days', 'days from now', { unit: 'day', min: 0, max: 36500 }),
    number('added', 'what feed or doses bring beside it', {
      unit: 'g/day',
      min: 0,
      max: 1e8,
      default: 0,
    }),
  ],
  result: { kind: 'number', unit: 'mg/L', meaning: 'level after those days' },
  method:
    'What evaporates leaves its salts behind: the level goes along an exponential to where the discharge carries out as much as comes in.',
  formula: {
    C: 'IF(discharge = 0, from + comes * days / volume, steady + (from - steady) * EXP(0 - discharge * days / volume))',
    steady: 'comes / discharge',
    comes: 'makeup * brings + 1000 * added',
  },
  symbols: {
    steady: 'level that it comes to in the end, mg/L',
    comes: 'what comes in, mg/day',
  },
  sources: [volumeBalance],
  validity:
    'For what neither plants nor air take out: sodium, chloride, and of hardness what plants leave. Chlorine does not build up, but what enters with it kills at once (DOSE.DECHLOR).',
  caution:
    'Leafy crops suffer above 50 to 70 mg/L of sodium (recalled). Have the source water analysed before the farm is built.',
  dangers: ['chlorine'],
  examples: [
    {
      args: [60000, 20, 1200, 20, 300, 365],
      result: 70.327,
      tolerance: 0.001,
      says: 'Sodium of 20 mg/L in 1200 L a day of which 300 leave as water: 70 mg/L after a year, 80 in the end',
    },
    {
      args: [60000, 20, 1200, 20, 0, 365],
      result: 166,
      says: 'Without any discharge: 166 mg/L, and it goes on rising',
    },
  ],
  seeAlso: ['WATER.BALANCE', 'DOSE.DECHLOR'],
  compute: (volume, from, makeup, brings, discharge, days, added) =>
    builtUp({ volume, from, makeup, brings, discharge, days, added }),
});

export const waterBalanceCards: readonly ValueCard[] = [balance, buildUp];
