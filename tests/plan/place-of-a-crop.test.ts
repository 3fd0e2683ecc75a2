import { describe, expect, it } from 'vitest';
import { fixedCadence } from '../../src/ahead/fixed-cadence';
import { seasonOfFarm } from '../../src/ahead/season-of-farm';
import type { Batch } from '../../src/ahead/season';
import { firstMonday } from '../../src/ahead/planner-rows';
import { standingPlantings } from '../../src/ahead/standing-plantings';
import { weeksInBed } from '../../src/core/bed';
import { isoText } from '../../src/core/serial-date';
import { crops, usual } from '../../src/core/tables/crops';
import { computedValues } from '../../src/engine/engine';
import { bedKinds, readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { cellOf, numberOf } from '../tools/card-value';
import { sampleFarm } from '../tools/farms';

/**
 * How long a crop keeps its place after the first cut, and when the place is free: by the functions, the sheets Beds,
 * Season and Balance, the planner of the beds and the sowing every so many days. All crops that are cut once, and some
 * that are cut again.
 */
const kinds = crops.filter(
  ({ cut, name }) => cut === 'once' || ['kale', 'basil', 'beans'].includes(name),
);
const TYPED_AGAIN = 'endive';

const base = JSON.parse(sampleFarm('larkfield-school').file) as Record<string, unknown>;
const asOf = sampleFarm('larkfield-school').asOf;
const planted = isoText(asOf - 3);
const size = { length: '8 ft', width: '4 ft', depth: '1 ft' };
const farm = readFarm({
  ...base,
  units: 'metric',
  // Warm enough for all, too hot for none.
  months: (base['months'] as object[]).map((month) => ({
    ...month,
    high: '66 degF',
    low: '62 degF',
  })),
  crops: { [TYPED_AGAIN]: { cut: 'again' } },
  beds: [
    ...kinds.map(({ name, beds }) => ({
      name: `bed of ${name}`,
      kind: bedKinds.find((kind) => beds.includes(kind)) ?? 'raft',
      ...size,
    })),
    { name: 'ready', kind: 'raft', ...size },
    { name: 'cut', kind: 'raft', ...size },
  ],
  plantings: [
    ...kinds.map(({ name, start }) => ({
      crop: name,
      bed: `bed of ${name}`,
      plants: 10,
      ...(start === 'in place' ? { sown: planted } : { planted }),
    })),
    { crop: 'lettuce', bed: 'ready', plants: 10, planted: isoText(asOf - 60) },
    {
      crop: 'lettuce',
      bed: 'cut',
      plants: 10,
      planted: isoText(asOf - 60),
      firstCut: isoText(asOf - 1),
    },
  ],
  markets: kinds.map(({ name }) => ({
    crop: name,
    perWeek: 5,
    unit: 'lb',
    every: 7,
    firstHarvest: isoText(asOf + 120),
  })),
  harvests: [],
});

const model = planWorkbook(farm, { formulas: 'plain' });
const valueAt = computedValues(model);
const names = new Map(model.names.map((one) => [one.name, one]));
const of = (name: string, row: number): number => {
  const { sheet, area } = names.get(name)!;
  return Number(valueAt(sheet, area.row + row, area.column));
};
const means = farm.months.map(({ high, low }) => ((high ?? NaN) + (low ?? NaN)) / 2);
const { inBeds } = standingPlantings(farm, firstMonday(farm), means);
const { season } = seasonOfFarm(farm, { weeks: 40, outOfSeason: true });
const cadence = fixedCadence(farm, season);

describe.each(kinds.map((crop, row) => ({ ...crop, row })))(
  '$name, cut $cut: when its place is free',
  (crop) => {
    const { name, row, start } = crop;
    const typedAgain = name === TYPED_AGAIN;
    const picked = crop.cut === 'again' || typedAgain ? usual(crop, 'harvest_days') : 0;
    const bed = inBeds.find((one) => one.bed === `bed of ${name}`)!;
    const asked = (batch: Batch): number => batch.cleared - batch.firstCut;

    it('is the same in the functions', () => {
      if (typedAgain) return;
      const cut = numberOf('SOW.OFFSET', name, 'first cut');
      expect(numberOf('SOW.OFFSET', name, 'clear') - cut).toBe(picked);
      const out = start === 'in place' ? 0 : numberOf('SOW.OFFSET', name, 'transplant');
      expect(numberOf('BED.PLANTS', 7, name)).toBeCloseTo(cut + picked - out, 9);
      expect(numberOf('BED.AREA', 7, name, 1)).toBeCloseTo(cut + picked - out, 9);
      expect(7 * weeksInBed(crop)).toBeCloseTo(cut + picked - out, 9);
      const [batch] = cellOf('SOW.SERIES', '2026-03-02', 7, 1, name) as unknown as number[][];
      expect(Number(batch?.[4]) - Number(batch?.[3])).toBe(picked);
    });

    it('is the same on Beds, Season and Sowing and in the planner, to the day', () => {
      expect(asked(bed.batch)).toBe(picked);
      expect(of('Plantings_due', row)).toBe(bed.batch.firstCut);
      expect(of('Plantings_free', row)).toBe(bed.batch.cleared);
      expect(of('Beds_first_cut', row)).toBe(bed.batch.firstCut);
      expect(of('Beds_clear', row)).toBe(bed.batch.cleared);
      const weeks =
        (usual(crop, 'bed_days') +
          picked +
          (start === 'in place' ? usual(crop, 'transplant_days') : 0)) /
        7;
      expect(of('Sowing_weeks', row)).toBeCloseTo(weeks, 9);
    });

    it('is the same for what is planned and for what is sown every so many days', () => {
      const made =
        season.crops[row]?.batches.filter((batch): batch is Batch => !('why' in batch)) ?? [];
      expect(made.length).toBeGreaterThan(5);
      for (const batch of made) expect(asked(batch)).toBe(picked);
      for (const batch of cadence.plantings.filter((one) => one.crop === name)) {
        expect(asked(batch)).toBe(picked);
      }
      // Held until it is cleared and the bed cleaned.
      const held = season.beds[row];
      const rest = season.crops[row]?.restDays ?? NaN;
      expect(held?.freeFrom).toBe(Math.max(season.from, bed.batch.cleared + rest));
    });
  },
);

it('a batch of heads is to be cut as a whole until its cut is written, and then to be cleared', () => {
  const said = ['Beds_state', 'Beds_task_code'].map((name) => {
    const { sheet, area } = names.get(name)!;
    return [0, 1].map((i) => valueAt(sheet, area.row + kinds.length + i, area.column));
  });
  expect(said).toEqual([
    ['cut all of it', 'clear now'],
    ['cut', 'clear'],
  ]);
});

it('Balance counts the feed of a bed up to that day', () => {
  const days = Array.from({ length: 26 }, (_, week) => of('Weeks_date', week));
  const balance = model.sheets.find(({ name }) => name === 'Balance')!;
  const heads = balance.rows.findIndex((row) => row[0]?.value === 'Week of');
  let fed = 0;
  days.forEach((day, week) => {
    const called = kinds.reduce(
      (sum, _, row) =>
        sum +
        (inBeds[row]!.batch.plantedOut <= day && day < inBeds[row]!.batch.cleared
          ? of('Plantings_calls', row)
          : 0),
      0,
    );
    expect(Number(valueAt('Balance', heads + 1 + week, 2)), `week ${week}`).toBeCloseTo(called, 6);
    if (called > 0) fed++;
  });
  expect(fed).toBeGreaterThan(5);
});
