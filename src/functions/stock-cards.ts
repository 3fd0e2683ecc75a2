import { GillError, wrongValue } from '../core/errors';
import {
  fishToStock,
  forecast,
  MIN_BATCH_WEIGHT,
  MONTH,
  rotation,
  SOLID_FISH,
  stockDensity,
  stockLimit,
  YEAR,
} from '../core/stocking';
import { card, type Source, type SpillCard, spillCard, type ValueCard } from './card';
import { water as waterNow } from './common-parameters';
import {
  coefficient,
  conversion,
  density,
  fish,
  growingWeight,
  MAX_FISH,
  MAX_GRAMS,
  MAX_LITRES,
  species,
  survival,
  volume,
  weight,
} from './fish-parameters';
import { fao589, iwamaTautz, plainArithmetic, speciesFigures, uviTrial } from './fish-sources';
import { plainAppetite, plainFeedRate } from './feed-cards';
import { coefficientOf, daysThatGrow, plainDays, plainGrown } from './growth-cards';
import { nameOrNumber, number, series } from './parameter';
import { formulaText } from './formula-text';
import { ifGiven, numberOrFigure } from './plain';
import { plainFact, plainFeedRateSum, speciesTable } from './species-table';

const densityLevels: Source = {
  ...fao589,
  where: 'stocking 20 kg in 1000 L at most, 10 to 15 to begin with',
  evidence: 'memory',
};
const densityPractice: Source = {
  author: 'Usage of the trade',
  year: '',
  title: 'aerated commercial tanks carry about 60 kg/m³ at harvest (61.5 to 70.7 in the UVI trial)',
  evidence: 'common practice',
};
const densityCaution =
  'More than about 20 kg/m³ needs continuous aeration and oxygen measured every day.';

const limit = card({
  id: 'STOCK.LIMIT',
  subject: 'Stock',
  summary: 'Most fish of a weight that a tank may hold',
  searchWords: [
    'stocking density',
    'how many fish',
    'carrying capacity',
    'overcrowded',
    'stocking rate',
    'gallons',
    'litres',
    'IBC tote',
  ],
  parameters: [volume, weight, density],
  result: { kind: 'number', unit: 'fish', meaning: 'whole fish' },
  method:
    'Volume times density, divided by the weight, rounded down. Two levels are in use: about 20 kg/m³ with simple aeration, about 60 in aerated commercial tanks. Left out, the lower one holds: too low costs yield, too high costs the fish when the air fails. A species name stands for its level in aerated commercial tanks.',
  formula: {
    fish: 'INT(ROUND(volume * level / weight, 6))',
    level: 'IF(ISNUMBER(density), density, density.density_aerated)',
  },
  symbols: { level: 'weight of fish that the water may carry, kg/m³' },
  sources: [densityLevels, densityPractice, uviTrial],
  validity: 'Weight at harvest, not at stocking: the tank must carry what the fish become.',
  caution: densityCaution,
  dangers: ['air', 'weight'],
  examples: [
    {
      args: [1000, 500],
      result: 40,
      says: '20 kg of 500 g fish in 1000 L: the design guide of FAO Technical Paper 589',
    },
    {
      args: [7800, 585, 'Nile tilapia'],
      result: 800,
      says: 'About 800 grown fish stand in an aerated tank of 7.8 m³ (common practice, no source)',
    },
    {
      args: ['1100 gal', '1 lb', 60],
      result: 550,
      says: '1100 US gallons with strong aeration: 550 fish of one pound',
    },
  ],
  seeAlso: ['STOCK.DENSITY', 'STOCK.START'],
  compute: stockLimit,
});

const densityNow = card({
  id: 'STOCK.DENSITY',
  subject: 'Stock',
  summary: 'Weight of fish in each cubic metre of a tank',
  searchWords: [
    'stocking density',
    'biomass',
    'overcrowded',
    'stocking rate',
    'grading',
    'splitting',
    'when to split',
  ],
  parameters: [fish, weight, volume],
  result: { kind: 'number', unit: 'kg/m3', meaning: 'kg of fish in a cubic metre' },
  method: 'Fish times mean weight, divided by the volume (g/L and kg/m³ are the same).',
  formula: {
    density: `IF(held > ${SOLID_FISH}, NO_ANSWER(), held)`,
    held: 'fish * weight / volume',
  },
  symbols: { held: 'what it comes to, kg/m³' },
  sources: [plainArithmetic],
  validity:
    'Any tank; the volume is that of the water, not of the vessel. More than 1000 kg/m³ would be more fish than water: #NUM!, mostly a volume in m³ or a weight in kg.',
  caution: densityCaution,
  dangers: ['air', 'wounds'],
  examples: [
    {
      args: [590, 813.8, 7800],
      result: 61.56,
      tolerance: 0.01,
      says: '590 tilapia of 814 g in 7.8 m³: the harvest density of the UVI trial (Rakocy and others 2004)',
    },
    { args: [640, 235, 7800], result: 19.28205128205128, says: '640 fish of 235 g in 7800 L' },
  ],
  seeAlso: ['STOCK.LIMIT'],
  compute: stockDensity,
});

const start = card({
  id: 'STOCK.START',
  subject: 'Stock',
  summary: 'Fish to stock so that enough are left at harvest',
  searchWords: ['mortality', 'fingerlings', 'losses', 'deaths', 'dead fish', 'survival rate'],
  parameters: [
    number('harvest', 'fish wanted at harvest', { unit: 'fish', min: 0, max: MAX_FISH }),
    survival,
  ],
  result: { kind: 'number', unit: 'fish', meaning: 'whole fish to stock' },
  method: 'Fish wanted divided by the share that lives from stocking to harvest, rounded up.',
  formula: { fish: 'ROUNDUP(ROUND(harvest / survival, 6), 0)' },
  sources: [{ ...uviTrial, where: 'abstract: survival 98.3 % and 89.9 %' }, plainArithmetic],
  validity: 'Losses of every kind from stocking to harvest, fish culled at grading included.',
  dangers: ['permit', 'quarantine'],
  examples: [
    {
      args: [590, 0.983],
      result: 601,
      says: '590 tilapia at harvest when 98.3 % live (UVI trial): 601, about 77 for each of 7.8 m³',
    },
    { args: [608, '95 %'], result: 640, says: 'Exactly 640, with no fish too many from rounding' },
  ],
  seeAlso: ['STOCK.LIMIT', 'STOCK.ROTATION'],
  compute: fishToStock,
});

const weekly = {
  survival: number('survival', 'share of the fish that live, over all the weeks together', {
    unit: 'share',
    above: 0,
    max: 1,
    default: 1,
    defaultText: '1, no losses',
  }),
  volume: number('volume', 'water in the tank', {
    unit: 'L',
    above: 0,
    max: MAX_LITRES,
    optional: true,
    defaultText: 'no density is shown',
  }),
  water: series('water', 'water temperature: one for all weeks, or one for each week', {
    unit: 'degC',
    min: -2,
    max: 50,
  }),
};

/** Ten years. */
const MAX_WEEKS = 520;

/** Formula for the water of the week that begins at row `row`; a reference may hold one value or a range. */
function plainWeekWater(text: string, weeks: string, row: number): string {
  if (Number.isFinite(Number(text))) return text;
  const given = `ROWS(${text})*COLUMNS(${text})`;
  const nthValue = `INDEX(${text},MIN(${row + 1},${weeks},${given}))`;
  const enough = `OR(${given}=1,${given}>=${weeks})`;
  return `IF(AND(${enough},ISNUMBER(${nthValue}),${nthValue}>=-2,${nthValue}<=50),${nthValue},VALUE("water must be one temperature, or one for each week, each between -2 and 50 °C"))`;
}

/** The other figures of a week stand whatever its tank would hold. */
function densityOrError(fish: number, grams: number, litres: number): number | GillError {
  try {
    return stockDensity(fish, grams, litres);
  } catch (thrown) {
    if (thrown instanceof GillError) return thrown;
    throw thrown;
  }
}

const weekByWeek = spillCard({
  id: 'STOCK.FORECAST',
  subject: 'Stock',
  summary: 'A tank week by week: fish, weight, biomass, density and feed',
  searchWords: [
    'projection',
    'growth plan',
    'feed plan',
    'biomass',
    'grading',
    'splitting',
    'when to split',
  ],
  parameters: [
    fish,
    growingWeight,
    number('weeks', 'weeks to look ahead', { unit: 'week', whole: true, min: 1, max: MAX_WEEKS }),
    weekly.water,
    species,
    weekly.survival,
    weekly.volume,
    coefficient,
    conversion,
  ],
  columns: [
    { name: 'week', unit: '', kind: 'number' },
    { name: 'fish', unit: 'fish', kind: 'number' },
    { name: 'mean weight', unit: 'g', kind: 'number' },
    { name: 'biomass', unit: 'kg', kind: 'number' },
    { name: 'density', unit: 'kg/m3', kind: 'number' },
    { name: 'feed', unit: 'g/day', kind: 'number' },
  ],
  method:
    "Week 0 is now; each further row is the state after that week. Fish are lost evenly, so that the survival is reached in the last week (they are not rounded). Weight grows as in GROWTH.WEIGHT in each week's water. Feed is that of FEED.DAY, with the same coefficient and conversion, for the week that begins at the row; the last row takes the last week's water.",
  formula:
    'N_k = fish * survival^(k / weeks); W_k = (W_before^(1/3) + coefficient / 1000 * temperature * 7)^3; density = N_k * W_k / volume; feed = N_k * W_k * rate',
  inPieces:
    'Each row goes on from the weight in the row above, in the water of its own week; growth and feed of a row are the formulas of GROWTH.WEIGHT and FEED.RATE.',
  symbols: {
    k: 'number of the week',
    N_k: 'fish after that week',
    W_k: 'mean weight after that week, g',
    W_before: 'mean weight a week before, g',
    temperature: 'the temperature that counts for growth in the water of that week, °C',
    rate: 'rate of FEED.RATE for that weight, water, coefficient and conversion',
  },
  sources: [iwamaTautz, speciesFigures],
  validity:
    'Weekly temperatures: as many as weeks, or more. Weigh a sample every few weeks and start again from it.',
  caution: densityCaution,
  dangers: ['air'],
  examples: [
    {
      args: [640, 235, 2, 28, null, null, 7800],
      result: [
        [0, 640, 235, 150.4, 19.28, 3895],
        [1, 640, 260.5, 166.7, 21.37, 4133],
        [2, 640, 287.8, 184.2, 23.61, 4465],
      ],
      tolerance: 0.5,
      says: '640 tilapia of 235 g in 7800 L at 28 °C: what they weigh and eat in two weeks',
    },
    {
      args: [601, 79.2, 24, 28, 'Nile tilapia', 0.983, 7800, 1.072],
      result: [[0, 601, 79.2, 47.6, 6.1, 1750.9]],
      tolerance: 0.5,
      says: 'One tank of the UVI trial (Rakocy and others 2004): its last row shows 591 fish of 814 g, 61.6 kg/m³',
    },
  ],
  seeAlso: ['GROWTH.WEIGHT', 'FEED.DAY', 'STOCK.ROTATION'],
  spill: (count, grams, weeks, waters, kind, alive, litres, own, converts) => {
    if (waters.length > 1 && waters.length < weeks) {
      throw wrongValue(
        `water has ${waters.length} values for ${weeks} weeks; give one temperature, or one for each week`,
      );
    }
    return forecast({ fish: count, weight: grams }, weeks, waters, alive, kind, {
      coefficient: coefficientOf(kind, own),
      conversion: converts,
    }).map((row) => [
      row.week,
      row.fish,
      row.weight,
      row.biomass,
      litres === undefined ? '' : densityOrError(row.fish, row.weight, litres),
      row.feed,
    ]);
  },
  plainCell: (a, row, column, address) => {
    const fishThen = address(row, 1);
    const grams = address(row, 2);
    const week = (at: number): string => plainWeekWater(a.water, a.weeks, at);
    const cells = [
      () => String(row),
      () => `${a.fish}*${a.survival}^(${row}/${a.weeks})`,
      () =>
        row === 0
          ? a.weight
          : plainGrown(address(row - 1, 2), '7', { ...a, water: `(${week(row - 1)})` }),
      () => `${fishThen}*${grams}/1000`,
      () =>
        ifGiven(
          a.volume,
          formulaText(densityNow, {
            arguments: { fish: fishThen, weight: grams, volume: a.volume ?? '' },
          }),
          '""',
        ),
      () =>
        `${fishThen}*${grams}*${plainFeedRate({ ...a, weight: grams, water: `(${week(row)})` })}`,
    ];
    const formula = cells[column]?.() ?? '""';
    return row === 0 ? formula : `IF(${row}>${a.weeks},"",${formula})`;
  },
});

const MAX_TANKS = 52;

const rotationParameters = [
  number('harvest_kg_month', 'fish to harvest', { unit: 'kg/month', above: 0, max: 1e7 }),
  number('harvest_weight', 'mean weight at harvest', { unit: 'g', above: 0, max: MAX_GRAMS }),
  number('start_weight', 'mean weight at stocking', {
    unit: 'g',
    min: MIN_BATCH_WEIGHT,
    max: MAX_GRAMS,
  }),
  waterNow,
  species,
  number('survival', 'share of the fish that live from stocking to harvest', {
    unit: 'share',
    above: 0,
    max: 1,
    default: 0.95,
  }),
  nameOrNumber(
    'density',
    'weight of fish in the water at harvest; a species stands for what it takes in an aerated commercial tank',
    speciesTable.book,
    {
      unit: 'kg/m3',
      above: 0,
      max: 500,
      optional: true,
      defaultText: "the species' level in an aerated commercial tank",
      of: (row) => row.facts.density_aerated[0],
    },
  ),
  number('tanks', 'batches that grow at the same time, each in its own tank', {
    whole: true,
    min: 1,
    max: MAX_TANKS,
    default: 4,
  }),
] as const;

/** Tanks stocked in turn at even intervals, from the `days` that a batch grows. */
export const rotationSteps = {
  parameters: rotationParameters,
  formula: {
    interval: 'days / tanks',
    weeks_between: 'interval / 7',
    stocked: 'ROUNDUP(ROUND(harvested / survival, 6), 0)',
    harvested: `ROUNDUP(ROUND(harvest_kg_month * interval * 1000 / (${MONTH} * harvest_weight), 6), 0)`,
    batch: 'harvested * harvest_weight / 1000',
    litres: 'batch / density * 1000',
    fingerlings: `stocked * ${YEAR} / interval`,
  },
} as const;

const rotationLines = [
  'Days in the tank',
  'Weeks between harvests',
  'Fish to stock in a batch',
  'Fish to harvest from a batch',
  'Harvest of a batch, kg',
  'Water for each batch, L',
  'Biomass just before a harvest, kg',
  'Mean feed, g/day',
  'Peak feed, g/day',
  'Fingerlings a year',
] as const;

const inTurn = spillCard({
  id: 'STOCK.ROTATION',
  subject: 'Stock',
  summary: 'Tanks stocked in turn for a steady harvest: batches, tank size, feed and fingerlings',
  searchWords: ['staggered', 'cohorts', 'batches', 'production plan', 'rotation'],
  parameters: rotationParameters,
  columns: [
    { name: 'what', unit: '', kind: 'text' },
    { name: 'value', unit: '', kind: 'number' },
  ],
  method:
    'Each batch stays in its own tank from stocking to harvest, and the tanks are stocked at even intervals: the days of growth (GROWTH.DAYS) divided by the tanks. A batch is what the months between two harvests call for, in whole fish. Mean feed is the average between two harvests (Simpson, with the state after, midway and before), peak feed that just before a harvest.',
  formula: rotationSteps.formula,
  inPieces:
    'Its feed is a sum over all batches at once, weight by weight along the feed table, and its rows are figures of different kinds that rest on each other.',
  symbols: {
    days: 'days from stocking to harvest (GROWTH.DAYS)',
    interval: 'days between two harvests',
    batch: 'harvest of a batch, kg',
    litres: 'water for each batch, L',
  },
  sources: [
    { ...uviTrial, where: 'abstract and system pages: four tanks, harvest every six weeks' },
    iwamaTautz,
    speciesFigures,
  ],
  validity:
    'One mean temperature through the year and one growth coefficient; for seasons, use the coldest months for the harvest and the warmest for the feed. A month is 30.4375 days.',
  caution: densityCaution,
  dangers: ['air', 'permit', 'weight', 'quarantine'],
  examples: [
    {
      args: [346.4, 813.8, 79.2, 28, 'Nile tilapia', 0.983, 61.5, 4],
      result: [
        ['Days in the tank', 163.7],
        ['Weeks between harvests', 5.85],
        ['Fish to stock in a batch', 583],
        ['Fish to harvest from a batch', 573],
        ['Harvest of a batch, kg', 466.3],
        ['Water for each batch, L', 7582.2],
      ],
      tolerance: 0.1,
      says: 'The published raft system (Rakocy and others 2004): 4.16 t a year from four tanks of 7.8 m³ with a harvest every six weeks; the table coefficient is 2.6 % faster than the trial',
    },
    {
      args: [100, 500, 30, 27],
      result: [
        ['Days in the tank', 162.6],
        ['Weeks between harvests', 5.81],
      ],
      tolerance: 0.1,
      says: '100 kg of tilapia a month from fingerlings of 30 g at 27 °C',
    },
  ],
  seeAlso: ['STOCK.FORECAST', 'STOCK.START', 'GROWTH.DAYS'],
  spill: (harvest, harvestWeight, startWeight, degrees, kind, alive, level, tanks) => {
    if (harvestWeight <= startWeight) {
      throw wrongValue(
        `harvest_weight must be more than start_weight (${startWeight} g); got ${harvestWeight}`,
      );
    }
    daysThatGrow(kind, [startWeight, harvestWeight], degrees, coefficientOf(kind, undefined));
    const plan = rotation({
      harvest,
      harvestWeight,
      startWeight,
      water: degrees,
      kind,
      coefficient: coefficientOf(kind, undefined),
      survival: alive,
      density: level ?? kind.facts.density_aerated[0],
      tanks,
    });
    const values = [
      plan.daysInTank,
      plan.weeksBetween,
      plan.stocked,
      plan.harvested,
      plan.batch,
      plan.volume,
      plan.standing,
      plan.meanFeed,
      plan.peakFeed,
      plan.fingerlings,
    ];
    return rotationLines.map((label, i) => [label, values[i] as number]);
  },
  plainCell: (a, row, column, address) => {
    if (column === 0) return row < rotationLines.length ? `"${rotationLines[row]}"` : '""';
    const value = (line: number): string => address(line, 1);
    const begin = `${a.start_weight}^(1/3)`;
    const end = `${a.harvest_weight}^(1/3)`;
    /** Grams of fish in one batch at each of `ages`, and the weight of one. */
    const weights = (ages: string): string => `(${begin}+(${end}-${begin})*${ages})^3`;
    const grams = (ages: string): string => `${value(2)}*${a.survival}^(${ages})*${weights(ages)}`;
    const feed = (ages: string, share: string): string =>
      `${plainAppetite(a.species, a.water)}*${plainFeedRateSum(a.species, weights(ages), `${share}*${grams(ages)}`)}`;
    // 1, 2, 3 … and 0, 1, 2 … as columns; rows that a user inserts only make them longer than needed.
    const places = `ROW($A$1:$A$${MAX_TANKS})`;
    // Beyond the last tank the age stays 0: no power of a small survival may leave what a cell can hold.
    const ages = `(${places}<=${a.tanks})*${places}/${a.tanks}`;
    const halves = `(ROW($A$1:$A$${2 * MAX_TANKS + 1})-1)`;
    const level = ifGiven(
      a.density,
      numberOrFigure(a.density ?? '', plainFact('density_aerated', a.density ?? '')),
      plainFact('density_aerated', a.species),
    );
    const steps = { days: value(0), stocked: value(2), harvested: value(3), batch: value(4) };
    const step = (name: keyof typeof rotationSteps.formula): string =>
      formulaText(rotationSteps, { arguments: { ...a, density: level }, steps }, name);
    const cells = [
      () =>
        `IF(${a.harvest_weight}<=${a.start_weight},VALUE("harvest_weight must be more than start_weight"),${plainDays(a.start_weight, a.harvest_weight, { ...a, coefficient: undefined })})`,
      () => step('weeks_between'),
      () => step('stocked'),
      () => step('harvested'),
      () => step('batch'),
      () => step('litres'),
      () => `SUMPRODUCT((${places}<=${a.tanks})*${grams(ages)})/1000`,
      () =>
        feed(
          `(${halves}<=2*${a.tanks})*${halves}/(2*${a.tanks})`,
          `(${halves}<=2*${a.tanks})*(2+2*MOD(${halves},2)-(${halves}=0)-(${halves}=2*${a.tanks}))/6`,
        ),
      () => feed(ages, `(${places}<=${a.tanks})`),
      () => step('fingerlings'),
    ];
    return cells[row]?.() ?? '""';
  },
});

export const stockCards: readonly (ValueCard | SpillCard)[] = [
  limit,
  densityNow,
  start,
  weekByWeek,
  inTurn,
];
