import { noAnswer, wrongValue } from '../core/errors';
import { feedRate } from '../core/feeding';
import { fittedGrowth } from '../core/growth-fitted';
import {
  daysToGrow,
  growingTemperature,
  growthCoefficient,
  grownWeight,
  GROWTH_COEFFICIENTS,
  MAX_GROWING_DAYS,
  MIN_GROWING_WEIGHT,
} from '../core/growth';
import { MAX_SERIAL, MIN_SERIAL } from '../core/serial-date';
import { BEYOND, NINE_IN_TEN, nineInTen } from '../core/students-t';
import type { Species } from '../core/tables/species';
import { roundUpToWhole } from '../core/whole';
import { card, type Source, type SpillCard, spillCard, type ValueCard } from './card';
import { water } from './common-parameters';
import { plainFeedRate } from './feed-cards';
import { growingTemperature as growingSteps, growth, growthSymbols } from './fish-formulas';
import { formulaText } from './formula-text';
import {
  coefficient,
  conversion,
  growingWeight as weight,
  MAX_GRAMS,
  species,
} from './fish-parameters';
import { iwamaTautz, jobling, speciesFigures } from './fish-sources';
import { dateSeries, number, series, tableName } from './parameter';
import { speciesTable } from './species-table';

const MAX_ROWS = 1000;

const growing = { unit: 'g', min: MIN_GROWING_WEIGHT, max: MAX_GRAMS } as const;
const measured = { unit: 'g', above: 0, max: MAX_GRAMS } as const;
const days = number('days', 'days of growth', { unit: 'day', min: 0, max: MAX_GROWING_DAYS });

const method =
  "The cube root of the weight rises by coefficient / 1000 times temperature times days. Within the species' best range the temperature is the water's own. Away from it growth follows appetite (FEED.RATE): the nearer end of the range counts, times the share of the ration that the fish still take, and in warm water less a part (up to a third) that they no longer put on. Fish that eat nothing do not grow.";
const validity =
  'Fish in grow-out from 0.2 g up, with enough feed and oxygen. A table coefficient is a starting point: your own records (GROWTH.COEFFICIENT with the species) are better.';
const sources = [iwamaTautz, jobling, speciesFigures] as const;
const student: Source = {
  author: 'Student',
  year: 1908,
  title: 'The probable error of a mean, Biometrika 6:1',
  where: 'distribution of t',
  evidence: 'memory',
};

/** The species' coefficient unless the farm has its own. */
export const coefficientOf = (kind: Species, own: number | undefined): number =>
  own ?? kind.facts.tgc[0];

/** The temperature that counts for growth; a sentence where the fish do not feed. */
export function temperatureThatGrows(kind: Species, degrees: number): number {
  const counted = growingTemperature(kind, degrees);
  if (counted > 0) return counted;
  throw noAnswer(
    `${kind.name} does not grow at ${degrees} °C; it feeds between ${kind.facts.feed_low[0]} and ${kind.facts.feed_high[0]} °C`,
  );
}

/** Days from one weight to another; a sentence where the fish do not grow, or hardly. */
export function daysThatGrow(
  kind: Species,
  [start, end]: readonly [start: number, end: number],
  degrees: number,
  coefficient: number,
): number {
  const days = daysToGrow(start, end, temperatureThatGrows(kind, degrees), coefficient);
  if (days < MAX_GROWING_DAYS) return days;
  const { best_low, best_high } = kind.facts;
  throw noAnswer(
    `${kind.name} hardly grows at ${degrees} °C: from ${start} g to ${end} g it would take more than thirty years; it grows best between ${best_low[0]} and ${best_high[0]} °C`,
  );
}

interface GrowthTexts {
  readonly water: string;
  readonly species: string;
  readonly coefficient: string | undefined;
}

export const growthWeightCard = card({
  id: 'GROWTH.WEIGHT',
  subject: 'Growth',
  summary: 'Weight of a fish after so many days at a water temperature',
  searchWords: ['TGC', 'thermal growth', 'predict'],
  parameters: [weight, days, water, species, coefficient],
  result: { kind: 'number', unit: 'g', meaning: 'mean weight after the days' },
  method,
  formula: { grown: '(weight^(1/3) + tgc / 1000 * temperature * days)^3', ...growth },
  symbols: growthSymbols,
  sources,
  validity,
  examples: [
    {
      args: [10, 200, 11, 'rainbow trout', 2.224],
      result: 350,
      tolerance: 0.5,
      says: 'Fast trout: 10 g grow to 350 g in 200 days at 11 °C (worked example of an extension page on growth coefficients)',
    },
    {
      args: [50, 168, 28],
      result: 695.14,
      tolerance: 0.01,
      says: 'Tilapia fingerlings of 50 g after 24 weeks at 28 °C',
    },
    {
      args: [50, 168, 22],
      result: 409.55,
      tolerance: 0.01,
      says: 'The same at 22 °C, where they take three quarters of their feed',
    },
    {
      args: [50, 168, 16],
      result: 50,
      tolerance: 1e-9,
      says: 'At 16 °C tilapia do not feed, so they do not grow',
    },
  ],
  seeAlso: ['GROWTH.DAYS', 'GROWTH.COEFFICIENT', 'STOCK.FORECAST'],
  compute: (start, dayCount, degrees, kind, own) =>
    grownWeight(start, dayCount, growingTemperature(kind, degrees), coefficientOf(kind, own)),
});

/** Formula for the weight after `dayCount` days. */
export const plainGrown = (grams: string, dayCount: string, a: GrowthTexts): string =>
  formulaText(growthWeightCard, { arguments: { ...a, weight: grams, days: dayCount } });

const howLong = card({
  id: 'GROWTH.DAYS',
  subject: 'Growth',
  summary: 'Days that a fish takes to grow from one weight to another',
  searchWords: ['TGC', 'time to harvest'],
  parameters: [
    number('from', 'mean weight at the beginning', growing),
    number('to', 'mean weight at the end', growing),
    water,
    species,
    coefficient,
  ],
  result: { kind: 'number', unit: 'day', meaning: 'days of growth' },
  method: `${method} Solved for the days.`,
  formula: {
    days: 'IF(to < from, VALUE("to must be at least from"), growing)',
    growing: `IF(temperature <= rise / (${MAX_GROWING_DAYS / 1000} * tgc), NO_ANSWER(), rise / (tgc / 1000 * temperature))`,
    rise: 'to^(1/3) - from^(1/3)',
    ...growth,
  },
  symbols: { ...growthSymbols, rise: 'rise of the cube root of the weight' },
  sources,
  validity: `${validity} Growth that would take more than ${MAX_GROWING_DAYS} days, thirty years, is #NUM!.`,
  examples: [
    {
      args: [10, 350, 11, 'rainbow trout', 2.224],
      result: 200,
      tolerance: 0.1,
      says: 'The published trout again: 200 days from 10 g to 350 g at 11 °C',
    },
    {
      args: [50, 600, 28],
      result: 154.23,
      tolerance: 0.01,
      says: 'Tilapia from 50 g to 600 g at 28 °C: 22 weeks',
    },
  ],
  seeAlso: ['GROWTH.WEIGHT', 'STOCK.ROTATION'],
  compute: (start, end, degrees, kind, own) => {
    if (end < start) throw wrongValue(`to must be at least from (${start} g); got ${end}`);
    return daysThatGrow(kind, [start, end], degrees, coefficientOf(kind, own));
  },
});

/** Formula for the days from one weight to another; no answer where the fish do not grow. */
export const plainDays = (start: string, end: string, a: GrowthTexts): string =>
  formulaText(howLong, { arguments: { ...a, from: start, to: end } }, 'growing');

const ownCoefficient = card({
  id: 'GROWTH.COEFFICIENT',
  subject: 'Growth',
  summary: "Growth coefficient from the farm's own weights, for the other growth functions",
  searchWords: [
    'TGC',
    'thermal growth coefficient',
    'calibrate',
    'own records',
    'slow growth',
    'stunted',
    'growth rate',
  ],
  parameters: [
    number('from', 'mean weight at the beginning', measured),
    number('to', 'mean weight at the end', measured),
    number('days', 'days between the two weights', {
      unit: 'day',
      above: 0,
      max: MAX_GROWING_DAYS,
    }),
    number('water', 'mean water temperature over those days', { unit: 'degC', above: 0, max: 50 }),
    tableName(
      'species',
      'fish species: then the coefficient is the one with which GROWTH.WEIGHT comes from the first weight to the second',
      speciesTable.book,
      {
        optional: true,
        defaultText: 'the coefficient as it is published, by the temperature of the water alone',
      },
    ),
  ],
  result: { kind: 'number', unit: '', meaning: 'thermal-unit growth coefficient, x1000 scale' },
  method:
    'Rise of the cube root of the weight, divided by temperature times days, times 1000. Some books print a tenth of it. With a species the temperature is the one that counts for its growth (GROWTH.WEIGHT); in its best water both are the same.',
  formula: {
    coefficient: 'IF(to < from, VALUE("to must be at least from"), grown)',
    grown: `IF(counted <= ${1000 / GROWTH_COEFFICIENTS[1]} * rise / days, NO_ANSWER(), 1000 * rise / (counted * days))`,
    rise: 'to^(1/3) - from^(1/3)',
    counted: 'IF(species = "", water, temperature)',
    ...growingSteps,
  },
  symbols: { ...growthSymbols, rise: 'rise of the cube root of the weight' },
  sources: [iwamaTautz, jobling],
  validity:
    "Weights of the same fish, ungraded in between, in water within the species' feeding limits. For water cooler or warmer than its best name the species.",
  dangers: ['wounds'],
  examples: [
    {
      args: [10, 350, 200, 11],
      result: 2.22,
      tolerance: 0.005,
      says: 'Trout from 10 g to 350 g in 200 days at 11 °C: 2.22 (extension page on growth coefficients)',
    },
    {
      args: [79.2, 813.8, 168, 28],
      result: 1.072,
      tolerance: 0.001,
      says: 'Tilapia of the published raft system, 79 g to 814 g in 24 weeks, at an assumed 28 °C',
    },
    {
      args: [235, 288, 28, 22, 'Nile tilapia'],
      result: 0.7634,
      tolerance: 0.0001,
      says: 'Tilapia in cool water, 22 °C: by what they eat there, so that GROWTH.WEIGHT comes from 235 g to 288 g',
    },
  ],
  seeAlso: ['GROWTH.WEIGHT', 'GROWTH.DAYS'],
  compute: (start, end, dayCount, degrees, kind) => {
    if (end < start) throw wrongValue(`to must be at least from (${start} g); got ${end}`);
    const counted = kind === undefined ? degrees : temperatureThatGrows(kind, degrees);
    const shown = growthCoefficient(start, end, dayCount, counted);
    if (shown < GROWTH_COEFFICIENTS[1]) return shown;
    throw noAnswer(
      `from ${start} g to ${end} g in ${dayCount} days at ${degrees} °C would be a coefficient of ${Number(shown.toPrecision(3))}; no farmed fish grows by ${GROWTH_COEFFICIENTS[1]}: look at the weights, in g, and at the days`,
    );
  },
});

const curve = spillCard({
  id: 'GROWTH.CURVE',
  subject: 'Growth',
  summary: 'Weight and feed of one fish, step by step through its growth',
  searchWords: ['TGC', 'growth table', 'chart'],
  parameters: [
    weight,
    days,
    number('step', 'days between two rows', { unit: 'day', above: 0, max: MAX_GROWING_DAYS }),
    water,
    species,
    coefficient,
    conversion,
  ],
  columns: [
    { name: 'day', unit: 'day', kind: 'number' },
    { name: 'weight', unit: 'g', kind: 'number' },
    { name: 'feed a fish', unit: 'g/day', kind: 'number' },
  ],
  method: `${method} One row for the first day, then one each step; the last row is the last day. Feed is the rate of FEED.RATE for that weight, water, coefficient and conversion.`,
  formula: 'W = (weight^(1/3) + coefficient / 1000 * temperature * t)^3; feed = rate * W',
  inPieces:
    'Each row goes on from the weight in the row above; growth and feed of a row are the formulas of GROWTH.WEIGHT and FEED.RATE.',
  symbols: {
    t: 'days since the first row',
    temperature: growthSymbols.temperature,
    rate: 'rate of FEED.RATE',
  },
  sources,
  validity,
  examples: [
    {
      args: [50, 28, 14, 28],
      result: [
        [0, 50, 2.15],
        [14, 69.69, 2.75],
        [28, 93.97, 3.3],
      ],
      tolerance: 0.05,
      says: 'Four weeks of tilapia fingerlings at 28 °C, a row every two weeks',
    },
    {
      args: [10, 200, 100, 11, 'rainbow trout', 2.224],
      result: [
        [0, 10, 0.43],
        [100, 97.39, 1.94],
        [200, 349.99, 4.51],
      ],
      tolerance: 0.01,
      says: 'The published trout, half way and at the end (extension page on growth coefficients)',
    },
  ],
  seeAlso: ['GROWTH.WEIGHT', 'STOCK.FORECAST'],
  spill: (start, dayCount, step, degrees, kind, own, converts) => {
    const steps = roundUpToWhole(dayCount / step);
    if (steps >= MAX_ROWS) {
      throw wrongValue(
        `step must be longer: ${step} days give more than ${MAX_ROWS} rows for ${dayCount} days`,
      );
    }
    const temperature = growingTemperature(kind, degrees);
    return Array.from({ length: steps + 1 }, (_, i) => {
      const at = Math.min(i * step, dayCount);
      const grams = grownWeight(start, at, temperature, coefficientOf(kind, own));
      return [
        at,
        grams,
        grams * feedRate(kind, grams, degrees, coefficientOf(kind, own), converts),
      ];
    });
  },
  plainCell: (a, row, column, address) => {
    const inside = (formula: string): string =>
      row === 0 ? formula : `IF(${row}>ROUNDUP(ROUND(${a.days}/${a.step},6),0),"",${formula})`;
    if (column === 0) {
      const tooMany = `VALUE("step must be longer: at most ${MAX_ROWS} rows")`;
      return inside(
        row === 0
          ? `IF(ROUNDUP(ROUND(${a.days}/${a.step},6),0)>=${MAX_ROWS},${tooMany},0)`
          : `MIN(${row}*${a.step},${a.days})`,
      );
    }
    const day = address(row, 0);
    if (column === 1) return inside(plainGrown(a.weight, day, a));
    const grams = address(row, 1);
    return inside(`${grams}*${plainFeedRate({ ...a, weight: grams })}`);
  },
});

/** Weighings in one call: twenty years of one a month. */
const MAX_WEIGHINGS = 240;

const weighed = {
  dates: dateSeries('dates', 'days of the weighings, the earliest first'),
  weights: series('weights', 'mean weight at each weighing', growing),
  water: series(
    'water',
    'water temperature: one for all days, or for each weighing the mean since the one before',
    { unit: 'degC', min: -2, max: 50 },
  ),
};

const isNumberText = (text: string): boolean => Number.isFinite(Number(text));

const RANGE = /^\(?(?:[^!]*!)?\$?([A-Z]+)\$?(\d+):\$?([A-Z]+)\$?(\d+)\)?$/i;

const columnNumber = (letters: string): number =>
  [...letters.toUpperCase()].reduce((sum, letter) => 26 * sum + letter.charCodeAt(0) - 64, 0);

/** How many cells a range has, or values an array, where the text says so. */
function knownCount(text: string): number | undefined {
  if (isNumberText(text)) return 1;
  if (/^\{[^,]*\}$/.test(text)) return text.split(';').length;
  const [, from = '', top, to = '', bottom] = RANGE.exec(text) ?? [];
  if (top === undefined) return undefined;
  return (columnNumber(to) - columnNumber(from) + 1) * (Number(bottom) - Number(top) + 1);
}

/** How many values a series has, and one of them, for a range, an array or a single number. */
const countOf = (text: string): string =>
  String(knownCount(text) ?? `ROWS(${text})*COLUMNS(${text})`);
const valueOf = (text: string, row: number | string): string =>
  isNumberText(text) ? text : `INDEX(${text},${row})`;

const checkedText = (text: string, low: number, high: number, sentence: string): string =>
  `IF(AND(ISNUMBER(${text}),${text}>=${low},${text}<=${high}),${text},VALUE("${sentence}"))`;

const fitted = spillCard({
  id: 'GROWTH.FITTED',
  subject: 'Growth',
  summary: "The growth coefficient of a farm's own fish from several weighings, and how sure it is",
  searchWords: ['TGC', 'regression', 'own records', 'confidence interval', 'fit'],
  parameters: [weighed.dates, weighed.weights, weighed.water, species],
  columns: [
    { name: 'coefficient', unit: '', kind: 'number' },
    { name: 'lowest', unit: '', kind: 'number' },
    { name: 'highest', unit: '', kind: 'number' },
    { name: 'warmth', unit: 'degC day', kind: 'number' },
    { name: 'root of weight', unit: '', kind: 'number' },
    { name: 'weight on the line', unit: 'g', kind: 'number' },
  ],
  method:
    "A line by least squares through the cube roots of the weights, on the degree-days since the first weighing: a thousand times its slope is the coefficient. The temperature is the one that counts for growth (GROWTH.WEIGHT). Between lowest and highest lies the true coefficient nine times in ten, by Student's t with two degrees of freedom fewer than weighings; two weighings lie on any line and have neither. Lowest is never below 0 of fish that grew. One row for each weighing; the coefficient stands in the first.",
  formula:
    'coefficient = 1000 * slope; slope = SUM((X - X_mean) * (root - root_mean)) / SUM((X - X_mean)^2); X = SUM(temperature * days)',
  inPieces:
    'Each row goes on from the degree-days in the row above, and the coefficient is a regression over all of them.',
  symbols: {
    X: 'degree-days since the first weighing',
    X_mean: 'mean of X over the weighings',
    root: 'cube root of the weight',
    root_mean: 'mean of the roots',
    days: 'days since the weighing before',
    temperature: growthSymbols.temperature,
  },
  sources: [...sources, student],
  validity:
    'Weighings of the same fish, with enough feed, that were neither graded nor joined by others between. Weigh thirty fish or more each time, over two months or more; a few weighings close together say little, and the interval shows it.',
  examples: [
    {
      args: ['2026-01-01; 2026-07-20', '10; 350', 11, 'rainbow trout'],
      result: [[2.224, '', '', 0]],
      tolerance: 0.001,
      says: 'Two weighings of the published trout, 10 g and 350 g 200 days later at 11 °C: 2.224 (worked example of an extension page on growth coefficients)',
    },
    {
      args: ['2026-03-01; 2026-03-31; 2026-04-30; 2026-05-30', '20; 48; 90; 160', 27],
      result: [
        [1.1099, 1.0631, 1.1567, 0, 2.7144, 20.039],
        ['', '', '', 810, 3.6342, 47.25],
      ],
      tolerance: 0.001,
      says: 'Four weighings of tilapia at 27 °C: the coefficient, and between which it may lie',
    },
  ],
  seeAlso: ['GROWTH.COEFFICIENT', 'GROWTH.WEIGHT', 'STOCK.SAMPLE'],
  spill: (days, grams, waters, kind) => {
    const count = days.length;
    if (grams.length !== count) {
      throw wrongValue(
        `dates has ${count} values and weights ${grams.length}; each weighing needs its day and its weight`,
      );
    }
    if (waters.length > 1 && waters.length !== count) {
      throw wrongValue(
        `water has ${waters.length} values for ${count} weighings; give one temperature, or one for each weighing`,
      );
    }
    if (count > MAX_WEIGHINGS) {
      throw wrongValue(`dates must have at most ${MAX_WEIGHINGS} weighings; got ${count}`);
    }
    const weighings = days.map((day, i) => ({
      day,
      weight: grams[i] as number,
      temperature: growingTemperature(kind, waters[waters.length > 1 ? i : 0] as number),
    }));
    const { coefficient: own, error, line } = fittedGrowth(weighings);
    const half = error === undefined ? undefined : error * nineInTen(count - 2);
    return line.map(({ warmth, weight: onLine }, i) => [
      ...(i > 0
        ? ['', '', '']
        : half === undefined
          ? [own, '', '']
          : [own, Math.max(own - half, Math.min(0, own)), own + half]),
      warmth,
      Math.cbrt(grams[i] as number),
      onLine,
    ]);
  },
  plainCell: (a, row, column, address) => {
    const count = countOf(a.dates);
    const known = knownCount(a.dates);
    const [warmths, roots] = [3, 4].map((at) =>
      known === undefined
        ? `${address(0, at)}:INDEX(${address(0, at)}:${address(MAX_WEIGHINGS - 1, at)},${count})`
        : `${address(0, at)}:${address(Math.min(known, MAX_WEIGHINGS) - 1, at)}`,
    );
    const line = `${roots},${warmths}`;
    const slope = `SLOPE(${line})`;
    const freedom = `(${count}-2)`;
    const beyond = BEYOND.reduceRight(
      (sum, coefficient) =>
        sum === '' ? String(coefficient) : `(${sum})/${freedom}+${coefficient}`,
      '',
    );
    const t = `IF(${freedom}>${NINE_IN_TEN.length},${beyond},INDEX({${NINE_IN_TEN.join(';')}},MIN(${freedom},${NINE_IN_TEN.length})))`;
    const half = `${t}*1000*STEYX(${line})/SQRT(VARP(${warmths})*${count})`;
    const end = (formula: string): string => (row > 0 ? '""' : `IF(${count}<3,"",${formula})`);
    const waters = countOf(a.water);
    const degrees = valueOf(a.water, waters === '1' ? 1 : `IF(${waters}=1,1,${row + 1})`);
    const inWater = (formula: string): string =>
      isNumberText(degrees)
        ? formula
        : `IF(AND(ISNUMBER(${degrees}),${degrees}>=-2,${degrees}<=50),${formula},VALUE("water must be temperatures between -2 and 50 °C"))`;
    const day = (at: number): string => {
      const text = valueOf(a.dates, at + 1);
      return `INT(${checkedText(text, MIN_SERIAL, MAX_SERIAL, 'dates must be days')})`;
    };
    const rise = (): string => {
      const temperature = formulaText(
        growthWeightCard,
        {
          arguments: {
            weight: '1',
            days: '1',
            coefficient: undefined,
            water: degrees,
            species: a.species,
          },
        },
        'temperature',
      );
      const days = `${day(row)}-${day(row - 1)}`;
      return inWater(
        `IF(${days}<=0,VALUE("weighings must follow each other"),${address(row - 1, 3)}+(${temperature})*(${days}))`,
      );
    };
    const weightText = valueOf(a.weights, row + 1);
    const cells = [
      () =>
        row > 0
          ? '""'
          : `IF(AND(${count}=${countOf(a.weights)},${count}<=${MAX_WEIGHINGS},OR(${waters}=1,${waters}=${count})),1000*${slope},VALUE("dates, weights and water must be of one length, at most ${MAX_WEIGHINGS}"))`,
      () => end(`MAX(${address(0, 0)}-${half},MIN(0,${address(0, 0)}))`),
      () => end(`${address(0, 0)}+${half}`),
      () => (row === 0 ? inWater(`0*${day(0)}`) : rise()),
      () =>
        `(${checkedText(weightText, MIN_GROWING_WEIGHT, MAX_GRAMS, `weights must be ${MIN_GROWING_WEIGHT} g or more`)})^(1/3)`,
      () => `(AVERAGE(${roots})+${slope}*(${address(row, 3)}-AVERAGE(${warmths})))^3`,
    ];
    const formula = cells[column]?.() ?? '""';
    if (row > 0) return `IF(${row}>=${count},"",${formula})`;
    // Where nothing is typed yet, nothing is wrong yet.
    const series = [a.dates, a.weights, a.water];
    return series.some((text) => knownCount(text) !== undefined)
      ? formula
      : `IF(AND(${count}=1,${series.map((text) => valueOf(text, 1)).join('&')}=""),"",${formula})`;
  },
});

export const growthCards: readonly (ValueCard | SpillCard)[] = [
  growthWeightCard,
  howLong,
  ownCoefficient,
  curve,
  fitted,
];
