import { describe, expect, it } from 'vitest';
import { isoText, serialFromIsoText } from '../../../src/core/serial-date';
import { daysToHeat } from '../../../src/core/thermal-time';
import { readNumberText, type UnitId } from '../../../src/functions/units';
import { cellOf, numberOf } from '../../tools/card-value';
import { input, type PublishedCheck, publishedChecks, titleOf } from '../../tools/published-checks';

const checks = publishedChecks('crops-in-season.json');

const fact = (crop: string, name: string): number => numberOf('FACT.CROP', crop, name);
const rangeOf = (crop: string, name: string): number[] =>
  ['min', 'max'].map((end) => fact(crop, `${name} ${end}`));
const text = (check: PublishedCheck, name: string): string => String(check.inputs[name]?.value);
const row = (check: PublishedCheck, name: string): readonly number[] =>
  check.inputs[name]?.value as readonly number[];
const serial = (iso: string): number => serialFromIsoText(iso) ?? NaN;

/** One day of a mean temperature: warmth above the base, in the unit of the temperatures. */
const warmth = (mean: number, base: number, cap?: number): number =>
  numberOf('DEGREE.DAYS', mean, mean, base, ...(cap === undefined ? [] : [cap]));
const warmthF = (mean: number, base: number): number =>
  1.8 * numberOf('DEGREE.DAYS', `${mean} degF`, `${mean} degF`, `${base} degF`);

/** Degree days times hours of light, Fahrenheit. */
const lightAndHeat = (c: PublishedCheck): number =>
  input(c, 'requirement') / (warmthF(input(c, 'temperature'), 40) * input(c, 'hours'));

/** Days until a crop is ready, walking the calendar with the mean of each month. */
const daysToCut = (check: PublishedCheck, crop: string): number =>
  daysToHeat(serial(text(check, 'planted')), row(check, 'monthly_means_jan_to_dec'), {
    base: fact(crop, 'base temp'),
    cap: fact(crop, 'cap temp'),
    sum: fact(crop, 'degree days'),
  }) ?? NaN;

/** First day of the second half of the year that is shorter than ten hours. */
function firstShortDay(check: PublishedCheck): number {
  const from = serial(`${input(check, 'year')}-07-01`);
  const day = Array.from({ length: 184 }, (_, i) => from + i).find(
    (value) => numberOf('SUN.HOURS', input(check, 'latitude'), value) < 10,
  );
  return day ?? NaN;
}

const lightOutdoors = (c: PublishedCheck): number =>
  numberOf('SUN.RADIATION', input(c, 'latitude'), serial('2026-01-01') + input(c, 'J') - 1) *
  // Angstrom's share of clear skies is the clearness itself here.
  input(c, 'clearness') *
  input(c, 'par_share') *
  input(c, 'umol_per_J');

/** A figure with its unit, as it would be typed into a cell. */
const typed = (value: number | string, unit: string, into: UnitId): number =>
  readNumberText(`${value} ${unit}`, into, 'figure');
const perHectare = (c: PublishedCheck, name = 'yield'): number =>
  typed(input(c, name), 't', 'kg') / typed(1, 'ha', 'm2');
const perAcre = (c: PublishedCheck): number =>
  typed(input(c, 'yield'), 'lb', 'kg') / typed(1, 'acre', 'm2');
const fromContainer = (c: PublishedCheck): number =>
  typed(input(c, 'container'), 'lb', 'g') / input(c, 'count');
const squareFoot = typed(1, 'ft2', 'm2');

type Run = (check: PublishedCheck) => number | string | boolean | readonly number[];

const germination =
  (crop: string): Run =>
  () =>
    100 * fact(crop, 'germination');
const interval =
  (crop: string): Run =>
  () =>
    fact(crop, 'sow every');

const runs: Readonly<Record<string, Run>> = {
  'SEA-Y01': () => fact('aubergine', 'kg per m2 min'),
  'SEA-Y02': () => fact('aubergine', 'kg per m2 max'),
  'SEA-Y05': () => rangeOf('sweet pepper', 'kg per plant'),
  'SEA-Y06': () => fact('sweet pepper', 'kg per m2'),
  'SEA-Y29': () => fact('calendula', 'piece weight'),
  'SEA-Y33': () => fact('papaya', 'plants per m2 min'),
  'SEA-Y38': () => fact('watercress', 'kg per m2 max'),
  'SEA-Y46': () => fact('strawberry', 'kg per plant max'),
  'SEA-Y52': (c) =>
    numberOf('SEED.COUNT', input(c, 'order') / input(c, 'yield_per_plant'), 1, input(c, 'loss')),
  'SEA-Y53': () => fact('courgette', 'kg per plant min'),
  'SEA-Y54': (c) =>
    numberOf('BED.DENSITY', `${input(c, 'in_row')} in`, `${input(c, 'between_rows')} in`),
  'SEA-Y11': (c) => typed(input(c, 'yield'), 'lb', 'kg'),
  'SEA-Y13': (c) => perHectare(c),
  'SEA-Y14': (c) => ['low', 'high'].map((end) => typed(input(c, end), 'lb', 'kg')),
  'SEA-Y16': (c) => row(c, 'cuts').reduce((sum, cut) => sum + cut / 1000, 0) / squareFoot,
  'SEA-Y25': (c) => typed(input(c, 'production'), 't', 'kg') / typed(input(c, 'area'), 'ha', 'm2'),
  'SEA-Y32': (c) => perHectare(c),
  'SEA-Y34': (c) => (perHectare(c) * typed(1, 'ha', 'm2')) / input(c, 'density'),
  'SEA-Y47': (c) => typed(input(c, 'yield'), 'g', 'kg'),
  'SEA-Y48': (c) => perHectare(c),
  'SEA-Y49': perAcre,
  'SEA-Y50': perAcre,
  'SEA-Y55': (c) => perHectare(c),
  'SEA-U01': fromContainer,
  'SEA-U03': fromContainer,
  'SEA-U05': fromContainer,
  'SEA-T08': (c) => typed(input(c, 'base'), 'degF', 'degC'),
  'SEA-T28': (c) =>
    typed(input(c, 'bare'), 'degF', 'degC') - typed(input(c, 'shaded'), 'degF', 'degC'),
  'SEA-H16': (c) => input(c, 'electricity') / squareFoot,
  'SEA-U06': () => fact('endive', 'bunch weight'),
  'SEA-U07': (c) =>
    Math.floor((1000 * fact('basil', 'kg per m2') * input(c, 'area')) / fact('basil', 'bunch')),
  'SEA-U08': () => (1000 * fact('cucumber', 'kg per plant')) / fact('cucumber', 'piece weight'),
  'SEA-L07': () => fact('lettuce', 'daily light'),
  'SEA-L15': lightOutdoors,
  'SEA-L16': lightOutdoors,
  'SEA-L18': lightOutdoors,
  'SEA-L20': () => fact('Swiss chard', 'daily light min'),
  'SEA-L21': () => rangeOf('cucumber', 'daily light'),
  'SEA-T01': lightAndHeat,
  'SEA-T04': lightAndHeat,
  'SEA-T07': (c) =>
    input(c, 'requirement') * numberOf('DEGREE.DAYS', '51 degF', '51 degF', '50 degF'),
  'SEA-T10': (c) => input(c, 'requirement') / warmth(input(c, 'temperature'), fact('peas', 'base')),
  'SEA-T11': () => [fact('broccoli', 'base temp'), fact('broccoli', 'cap temp')],
  'SEA-T12': (c) => warmth(input(c, 'temperature'), input(c, 'base'), input(c, 'upper')),
  'SEA-T13': (c) =>
    fact('lettuce', 'degree days') /
    warmth(input(c, 'temperature'), fact('lettuce', 'base'), fact('lettuce', 'cap temp')),
  'SEA-T15': (c) => daysToCut(c, 'lettuce'),
  'SEA-T17': (c) => daysToCut(c, 'lettuce'),
  'SEA-T19': (c) => daysToCut(c, 'broccoli'),
  'SEA-T25': (c) => input(c, 'Tmax') > fact('tomato', 'heat limit'),
  'SEA-T29': firstShortDay,
  'SEA-T30': firstShortDay,
  'SEA-T31': firstShortDay,
  'SEA-T32': firstShortDay,
  'SEA-T33': (c) =>
    isoText(
      numberOf('SOW.DATE', text(c, 'ten_hour_date'), input(c, 'crop_days') * input(c, 'share')),
    ),
  'SEA-G03': germination('dill'),
  'SEA-G04': germination('endive'),
  'SEA-G05': germination('cornsalad'),
  'SEA-G06': germination('table beet'),
  'SEA-G07': germination('sage'),
  'SEA-G08': germination('India mustard'),
  'SEA-G09': germination('Welsh onion'),
  'SEA-G10': germination('radish'),
  'SEA-G13': (c) =>
    numberOf('SEED.COUNT', input(c, 'plants'), fact('watercress', 'germination'), 0.05),
  'SEA-S01': (c) => {
    const last = serial(text(c, 'last'));
    const rows = cellOf('SOW.SERIES', text(c, 'first'), input(c, 'interval'), 40, 'lettuce');
    return Array.isArray(rows) ? rows.filter((batch) => Number(batch[1]) <= last).length : NaN;
  },
  'SEA-S04': interval('coriander'),
  'SEA-S05': interval('radish'),
  'SEA-S06': interval('head lettuce'),
  'SEA-S08': interval('basil'),
  'SEA-S09': interval('dill'),
  'SEA-S10': () =>
    365 /
    ['bed days', 'harvest days', 'rest days'].reduce(
      (days, name) => days + fact('lettuce', name),
      0,
    ),
  'SEA-H03': (c) => numberOf('HEAT.COVER', input(c, 'UA'), 1, input(c, 'dT'), 0) / 1000,
  'SEA-H10': (c) =>
    row(c, 'outside_hourly').reduce(
      (sum, outside) =>
        sum + numberOf('HEAT.COVER', input(c, 'UA'), 1, input(c, 'inside'), outside) / 1000,
      0,
    ),
  'SEA-H13': (c) =>
    numberOf('HEAT.COVER', ...['area', 'U', 'water', 'air'].map((name) => input(c, name))) / 1000,
  'SEA-F08': (c) =>
    isoText(numberOf('SOW.STAGE', text(c, 'treated'), input(c, 'interval'), 'clear')),
  'SEA-F09': () => fact('parsley', 'store temp'),
  'SEA-F10': () => fact('basil', 'store temp min'),
  'SEA-F12': () => rangeOf('cucumber', 'store temp'),
  'SEA-F13': () => rangeOf('aubergine', 'store temp'),
  'SEA-F14': () => rangeOf('rocket', 'store days'),
};

describe('published figures of crops in season', () => {
  it('each has a run, and each run a figure', () => {
    expect(checks.map(({ id }) => id).sort()).toEqual(Object.keys(runs).sort());
  });

  it.each(checks.map((check) => ({ title: titleOf(check), check })))('$title', ({ check }) => {
    const found = runs[check.id]?.(check);
    const expected = check.expected.value;
    if (Array.isArray(found) && check.tolerance > 0) {
      const pair = expected as readonly number[];
      expect(found).toHaveLength(pair.length);
      found.forEach((one, i) =>
        expect(Math.abs(Number(one) - (pair[i] as number))).toBeLessThanOrEqual(check.tolerance),
      );
      return;
    }
    if (typeof found === 'number') {
      const wanted = check.expected.unit === 'ISO date' ? serial(String(expected)) : expected;
      expect(Math.abs(found - Number(wanted))).toBeLessThanOrEqual(check.tolerance + 1e-9);
    } else {
      expect(found).toEqual(expected);
    }
  });
});

describe('every crop', () => {
  it.each(cellOf('FACT.CROPS') as unknown as string[][])(
    '%s: kg of a plant times plants/m² is kg/m², lowest and highest too',
    (crop) => {
      const density = fact(crop, 'plants per m2');
      for (const end of ['', ' min', ' max']) {
        const product = fact(crop, `kg per plant${end}`) * density;
        expect(fact(crop, `kg per m2${end}`) / product).toBeCloseTo(1, 9);
      }
    },
  );

  it.each(cellOf('FACT.CROPS') as unknown as string[][])(
    '%s: can be sold by the piece, the bunch and the kilogram',
    (crop) => {
      for (const name of ['piece weight', 'bunch weight', 'kg per plant']) {
        expect(fact(crop, name)).toBeGreaterThan(0);
        expect(String(cellOf('FACT.CROP', crop, `${name} source`)).length).toBeGreaterThan(10);
      }
      expect(String(cellOf('FACT.CROP', crop, 'piece'))).toMatch(/^[a-z]+$/);
    },
  );
});
