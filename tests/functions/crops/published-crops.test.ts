import { describe, expect, it } from 'vitest';
import { GillError } from '../../../src/core/errors';
import { isoText, isoWeekday, serialFromIsoText } from '../../../src/core/serial-date';
import type { Argument } from '../../../src/functions/parameter';
import { cellOf, numberOf } from '../../tools/card-value';
import { input, type PublishedCheck, publishedChecks, titleOf } from '../../tools/published-checks';

const checks = publishedChecks('crops.json');

const text = (check: PublishedCheck, name: string): string => String(check.inputs[name]?.value);
const sum = (check: PublishedCheck, names: readonly string[]): number =>
  names.reduce((days, name) => days + input(check, name), 0);
const fahrenheit = (check: PublishedCheck, name: string): string =>
  `${input(check, name)} ${check.inputs[name]?.unit}`;
const inDegF = (degreeDays: number): number => degreeDays * 1.8;

const weekOf = (date: string): string => {
  const rows = cellOf('SOW.SERIES', date, 1, 1, 'lettuce');
  if (!Array.isArray(rows)) throw new Error(`SOW.SERIES gives ${String(rows)}`);
  return String(rows[0]?.[5]);
};
const rangeOf = (crop: string, fact: string): number[] =>
  ['min', 'max'].map((end) => numberOf('FACT.CROP', crop, `${fact} ${end}`));

const DAY_PARTS = ['germination', 'nursery', 'bed'];
const PARTS = {
  density: 'plants per m2',
  germination: 'emerge days',
  growth: 'bed days',
  yield: 'kg per plant',
} as const;

/** What the functions give for the quantity of a check. */
type Run = (check: PublishedCheck) => number | string | readonly number[];

const byQuantity: Readonly<Record<string, Run>> = {
  'ISO week date': (c) => {
    const date = text(c, 'date');
    return `${weekOf(date)}-${isoWeekday(serialFromIsoText(date) ?? NaN)}`;
  },
  'number of 53-week years in a 400-year cycle': () =>
    Array.from({ length: 400 }, (_, i) => weekOf(`${2000 + i}-12-28`)).filter((week) =>
      week.endsWith('W53'),
    ).length,
  'sowing date = harvest date - (germination + nursery + bed)': (c) =>
    isoText(numberOf('SOW.DATE', text(c, 'harvest_date'), sum(c, DAY_PARTS))),
  'survival seed to transplant': (c) =>
    input(c, 'transplants') / numberOf('SEED.COUNT', input(c, 'transplants'), 0.8),
  'days seed to harvest': (c) => {
    const sown = serialFromIsoText('2026-03-02') ?? NaN;
    const moved = numberOf('SOW.STAGE', sown, input(c, 'nursery'), 'transplant');
    const spaced = numberOf('SOW.STAGE', moved, input(c, 'first_spacing'), 'transplant');
    return numberOf('SOW.STAGE', spaced, input(c, 'final_spacing'), 'first cut') - sown;
  },
  "raft area for a steady daily harvest, two spacings (Little's law)": (c) =>
    [1, 2].reduce(
      (area, n) =>
        area +
        numberOf(
          'BED.AREA',
          7 * input(c, 'plants_per_day'),
          `${input(c, `days_${n}`)} days`,
          input(c, `density_${n}`),
        ),
      0,
    ),
  'bed area for a steady weekly harvest': (c) =>
    numberOf('BED.AREA', input(c, 'heads_per_week'), input(c, 'weeks_in_bed'), input(c, 'density')),
  'bed area for 25 heads/week, 4-week crop, 25 plants/m2': (c) =>
    numberOf('BED.AREA', input(c, 'heads_per_week'), input(c, 'weeks'), input(c, 'density')),
  'bed area with 1 idle day per cycle and 5 % bed loss': (c) =>
    numberOf(
      'BED.AREA',
      input(c, 'heads_per_week') / input(c, 'survival'),
      `${sum(c, ['bed_days', 'turnaround'])} days`,
      input(c, 'density'),
    ),
  'seeds to sow': (c) =>
    numberOf(
      'SEED.COUNT',
      input(c, 'target'),
      input(c, 'germination'),
      1 - input(c, 'nursery_survival') * input(c, 'bed_survival'),
    ),
  'trays needed': (c) => numberOf('SEED.TRAYS', input(c, 'seeds'), input(c, 'cells')),
  'rectangular spacing to density': (c) =>
    numberOf('BED.DENSITY', `${input(c, 'in_row')} m`, `${input(c, 'row')} m`),
  'equilateral (triangular) spacing to density': (c) =>
    numberOf('BED.DENSITY', `${input(c, 'spacing')} m`, null, 'triangular'),
  'season shift between hemispheres': (c) =>
    isoText(numberOf('SOW.STAGE', text(c, 'date'), input(c, 'shift'), 'clear')),
  'growing degree days, both limits active': (c) =>
    inDegF(
      numberOf(
        'DEGREE.DAYS',
        ...['Tmax', 'Tmin', 'base', 'cap'].map((name) => fahrenheit(c, name)),
      ),
    ),
  'averaging method without substitution': (c) =>
    inDegF(numberOf('DEGREE.DAYS', ...['Tmax', 'Tmin', 'base'].map((name) => fahrenheit(c, name)))),
  'growing degree days in Celsius': (c) =>
    numberOf('DEGREE.DAYS', ...['Tmax', 'Tmin', 'base', 'cap'].map((name) => input(c, name))),
  // Both days last as long as it takes to gather the same warmth.
  'days to harvest at another temperature': (c) => {
    const warmth = (t: number): number => numberOf('DEGREE.DAYS', t, t, input(c, 'base'));
    return (input(c, 'days_ref') * warmth(input(c, 'T_ref'))) / warmth(input(c, 'T_new'));
  },
  // So many days of one degF above the base.
  'conversion of thermal time': (c) =>
    input(c, 'thermal_time') * numberOf('DEGREE.DAYS', '51 degF', '51 degF', '50 degF'),
  'plant area for a daily feed, leafy, high feed ratio': (c) =>
    numberOf('FEED.AREA', input(c, 'feed'), input(c, 'ratio')),
  'feed for mixed beds': (c) =>
    numberOf('FEED.WANTED', input(c, 'leafy_area'), 'leafy') +
    numberOf('FEED.WANTED', input(c, 'fruiting_area'), input(c, 'fruiting_ratio')),
  'iron chelate product for one dose': (c) =>
    numberOf('DOSE.IRON', input(c, 'volume'), 0, input(c, 'target'), input(c, 'iron_fraction')),
  'basil yield per harvest, staggered': () =>
    numberOf('FACT.CROP', 'basil', 'kg per m2') / numberOf('FACT.CROP', 'basil', 'cuts'),
  'okra yield, best treatment at 4.0 plants/m2': () => numberOf('FACT.CROP', 'okra', 'kg per m2'),
  'bush beans: plant density': () => [20, numberOf('FACT.CROP', 'bush beans', 'plants per m2 max')],
  'climbing beans: plant density': () => [
    numberOf('FACT.CROP', 'climbing beans', 'plants per m2 min'),
    numberOf('FACT.CROP', 'climbing beans', 'plants per m2'),
  ],
};

const sameAs: Readonly<Record<string, string>> = {
  'cold day counts zero, not negative': 'growing degree days, both limits active',
  'seeds to sow, no losses after germination': 'seeds to sow',
  'plant area for a daily feed, fruiting, high feed ratio':
    'plant area for a daily feed, leafy, high feed ratio',
};

/** "basil: plant density", "tomato: growth time to first harvest" and the like: a range of the table. */
function printedRange(check: PublishedCheck): Run | undefined {
  const [, crop, part] = /^(.+): (?:plant )?(density|germination|growth|yield)/.exec(
    check.quantity,
  ) ?? [undefined, undefined, undefined];
  if (!crop || crop === 'beans and peas' || SMALL_UNIT.includes(check.quantity)) return undefined;
  return () => rangeOf(crop, PARTS[part as keyof typeof PARTS]);
}

/** Published quantities that no function of the catalogue gives. */
const outside = [
  'cucumber heat units, field',
  'nitrogen in feed',
  'nitrogen removed per kg fresh yield',
  'potassium (K) removed per kg fresh yield',
  'base to neutralise acid: KOH',
  'base to neutralise acid: Ca(OH)2',
  'projected annual basil yield per area, batch',
  'projected annual basil yield per area, staggered',
  'projected annual okra yield per area, best treatment, 4.0 plants/m2',
];

const CROP_COEFFICIENT = 'crop coefficients Kc ini, mid, end';
const BASIL_FEED = 'feed ratio used, basil, batch';
const WHOLE_CROP = 'beans and peas: growth time';
/** Figures of small outdoor units which the table does not follow, since it goes by trials under cover. */
const SMALL_UNIT = ['aubergine: yield per plant', 'tomato: plant density'];
const own = [CROP_COEFFICIENT, BASIL_FEED, WHOLE_CROP, ...SMALL_UNIT];

const runOf = (check: PublishedCheck): Run | undefined =>
  byQuantity[sameAs[check.quantity] ?? check.quantity] ?? printedRange(check);
const named = (quantity: string): { title: string; check: PublishedCheck }[] =>
  checks
    .filter((check) => check.quantity === quantity)
    .map((check) => ({ title: titleOf(check), check }));

describe('published figures of crops, sowing, seed, beds and feed', () => {
  it('each has a function that gives it, or is named as outside the catalogue', () => {
    const lost = checks.filter(
      (check) => !runOf(check) && ![...outside, ...own].includes(check.quantity),
    );
    expect(lost.map((check) => check.id)).toEqual([]);
    const stale = [...outside, ...own, ...Object.keys(byQuantity)].filter((name) =>
      checks.every((check) => check.quantity !== name),
    );
    expect(stale).toEqual([]);
  });

  it.each(checks.filter(runOf).map((check) => ({ title: titleOf(check), check })))(
    '$title',
    ({ check }) => {
      const found = (runOf(check) as Run)(check);
      const expected = check.expected.value;
      if (typeof found === 'number') {
        expect(Math.abs(found - Number(expected))).toBeLessThanOrEqual(check.tolerance + 1e-9);
      } else {
        expect(found).toEqual(expected);
      }
    },
  );

  it.each(named(CROP_COEFFICIENT))('$title: the middle one', ({ check }) => {
    const crop = text(check, 'crop').split(',')[0] ?? '';
    const middle = (check.expected.value as readonly number[])[1];
    expect(numberOf('FACT.CROP', crop, 'kc')).toBe(middle);
  });

  it.each(named(BASIL_FEED))(
    '$title: inside the range, the usual figure within 2 %',
    ({ check }) => {
      const printed = Number(check.expected.value);
      const [low = NaN, high = NaN] = rangeOf('basil', 'feed ratio');
      expect(low).toBeLessThan(printed);
      expect(high).toBeGreaterThan(printed);
      expect(Math.abs(numberOf('FEED.WANTED', 1, 'basil') / printed - 1)).toBeLessThan(0.02);
    },
  );

  it.each(SMALL_UNIT.flatMap(named))('$title: meets the range of the table', ({ check }) => {
    const [low = NaN, high = NaN] = check.expected.value as readonly number[];
    const [crop = '', part] = check.quantity.split(': ');
    const fact = part === 'plant density' ? 'plants per m2' : 'kg per plant';
    const [least = NaN, most = NaN] = rangeOf(crop, fact);
    expect(low).toBeLessThanOrEqual(most);
    expect(high).toBeGreaterThanOrEqual(least);
  });

  it.each(named(WHOLE_CROP))('$title: from sowing to first cut and to clearing', ({ check }) => {
    const [low = NaN, high = NaN] = check.expected.value as readonly number[];
    for (const crop of ['beans', 'peas']) {
      expect(numberOf('SOW.OFFSET', crop, 'first cut')).toBeGreaterThanOrEqual(low);
      expect(numberOf('SOW.OFFSET', crop, 'clear')).toBeLessThanOrEqual(high);
    }
  });
});

describe('further published figures', () => {
  const iowa = 'Iowa State University, Agronomy 541 lesson 2b (read)';
  it(`a day of 70 and 50 degF gives 10 degF days, base 50 and ceiling 86: ${iowa}`, () => {
    const args: Argument[] = ['70 degF', '50 degF', '50 degF', '86 degF'];
    expect(inDegF(numberOf('DEGREE.DAYS', ...args))).toBeCloseTo(10, 9);
  });
  it(`the most that a day can give is 36 degF days: ${iowa}`, () => {
    const args: Argument[] = ['120 degF', '90 degF', '50 degF', '86 degF'];
    expect(inDegF(numberOf('DEGREE.DAYS', ...args))).toBeCloseTo(36, 9);
  });
  it('lettuce for 5 June 2026 is sown on 15 April: definition with the days of FAO 589', () => {
    expect(isoText(numberOf('SOW.DATE', '2026-06-05', 'lettuce'))).toBe('2026-04-15');
  });
  it.each([
    ['2014-12-29', '2015-W01'],
    ['2006-12-31', '2006-W52'],
    ['2019-12-30', '2020-W01'],
    ['1996-12-30', '1997-W01'],
  ])('%s lies in %s: ISO 8601 week rule (read)', (date, week) => {
    expect(weekOf(date)).toBe(week);
  });
  it.each([
    ['leafy', 40, 50],
    ['fruiting', 50, 80],
  ])('%s crops: FAO Technical Paper 589 sections 2.1.4 and 8 (read)', (group, low, high) => {
    expect(numberOf('FEED.WANTED', 1, group)).toBe((low + high) / 2);
  });
});

describe('plausibility, common practice, no source', () => {
  it('salad sown every two weeks is cut every two weeks, and no more than three batches stand at once', () => {
    const rows = cellOf('SOW.SERIES', '2026-03-02', '2 weeks', 6, 'lettuce');
    if (rows instanceof GillError || !Array.isArray(rows)) throw new Error('no rows');
    const cuts = rows.map((row) => Number(row[3]));
    expect(cuts.slice(1).map((cut, i) => cut - (cuts[i] ?? NaN))).toEqual([14, 14, 14, 14, 14]);
    const [first = [], , , fourth = []] = rows;
    expect(Number(first[4])).toBeLessThanOrEqual(Number(fourth[2]));
  });
  it('edible-flower seed that comes up one in four: four seeds for a plant', () => {
    expect(numberOf('SEED.COUNT', 50, '25 %')).toBe(200);
    expect(numberOf('SEED.COUNT', 50, 0.25)).toBe(200);
  });
});
