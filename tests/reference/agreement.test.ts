import { describe, expect, it } from 'vitest';
import { comparisonRows } from '../../src/reference/agreement/comparisons';
import type { FarmRecord } from '../../src/reference/agreement/farm-record';
import { CatalogueModel } from '../../src/reference/agreement/farm-estimates';
import { reasonFor } from '../../src/reference/agreement/reasons';
import { agreementPage, publishedRecords } from '../../src/reference/agreement-page';
import { seasonTrials } from '../../src/reference/season-trials';

const rows = comparisonRows(publishedRecords);
const titled = (inside: boolean | undefined) =>
  rows
    .filter((row) => row.inside === inside)
    .map((row) => ({
      title: `${row.record.id}: ${row.comparison.ask}, published ${String(row.published)}`,
      row,
    }));

describe('whole systems that were published', () => {
  it('are all compared: 25 records of 20 systems, 48 questions', () => {
    expect(publishedRecords.length).toBe(25);
    expect(publishedRecords.flatMap(({ compare = [] }) => compare).length).toBe(48);
    expect(new Set(rows.map(({ comparison }) => comparison)).size).toBe(48);
  });

  it.each(titled(true))('$title: within its band', ({ row: { ratio = NaN, band } }) => {
    expect(ratio).toBeGreaterThanOrEqual(band[0]);
    expect(ratio).toBeLessThanOrEqual(band[1]);
  });

  it.each(titled(false))('$title: outside its band, with the reason beside it', ({ row }) => {
    expect(reasonFor(row)?.length ?? 0).toBeGreaterThan(30);
  });

  it.each(titled(undefined))('$title: names what no function answers yet', ({ row }) => {
    expect(row.why).toMatch(/does not state|states no/);
  });

  it('agree more often than not', () => {
    const inside = rows.filter((row) => row.inside).length;
    expect(inside).toBeGreaterThan(0.6 * rows.filter(({ ratio }) => ratio !== undefined).length);
  });
});

/** A farm in the form of the records, with figures that were made up for this test. */
const madeUp: FarmRecord = {
  id: 'made-up',
  system: 'A farm of this test',
  location: 'nowhere',
  sources: { a: 'made up' },
  figures: {
    species: { value: 'common carp', mark: 'read' },
    tank_m3: { value: 10, mark: 'read' },
    cycle_weeks: { value: 26, mark: 'read' },
    bed_kind: { value: 'raft', mark: 'read' },
    bed_area_m2: { value: 40, mark: 'read' },
  },
  treatments: [
    {
      name: 'Sparse',
      figures: {
        stocked_per_m3: { value: 20, mark: 'read' },
        survival_percent: { value: 90, mark: 'read' },
        end_weight_g: { value: 500, mark: 'read' },
      },
    },
    {
      name: 'Crowded',
      figures: {
        stocked_per_m3: { value: 40, mark: 'read' },
        survival_percent: { value: 80, mark: 'read' },
        end_weight_g: { value: 400, mark: 'read' },
      },
    },
  ],
  compare: [
    {
      ask: 'harvest density, Sparse, kg/m3',
      expected: 9,
      model_over_published: [0.99, 1.01],
      given: [],
    },
    {
      ask: 'harvest density, Crowded, kg/m3',
      expected: 12.8,
      model_over_published: [0.99, 1.01],
      given: [],
    },
    {
      ask: 'yearly fish, kg',
      expected: 180,
      model_over_published: [0.99, 1.01],
      given: ['Sparse'],
    },
    {
      ask: 'lettuce heads a week',
      expected: 200,
      model_over_published: [0.99, 1.01],
      given: ['20/m2, 28 days'],
    },
    {
      ask: 'lettuce, kg/m2 in 35 days',
      expected: 3.6,
      model_over_published: [0.99, 1.01],
      given: [],
    },
    { ask: 'colour of the door', expected: 1, model_over_published: [1, 1], given: [] },
  ],
};

describe('a further record of the same form', () => {
  const found = comparisonRows([madeUp]);

  it('is computed from its own figures and the treatment that is named', () => {
    expect(found.slice(0, 2).map(({ model }) => model)).toEqual([9, 12.8]);
    expect(found[2]?.model).toBeCloseTo((180 * (365 / 7)) / 52, 9);
  });

  it('gives a crop that is cut once whole, whatever the days', () => {
    expect(found[4]?.model).toBe(3.6);
  });

  it('says which figure it lacks', () => {
    expect(found[3]?.why).toBe('the record does not state days in bed');
    expect(found[5]?.why).toBe('no function answers such a question');
  });

  it('knows no system by its name', () => {
    const renamed = publishedRecords.map((record, i) => ({
      ...record,
      id: `record ${i}`,
      system: '',
    }));
    expect(comparisonRows(renamed).map(({ model }) => model)).toEqual(
      rows.map(({ model }) => model),
    );
  });

  it('is not compared yet, and is no failure, where it holds less or other data', () => {
    const cut = (record: FarmRecord, ...keys: readonly string[]): FarmRecord =>
      Object.fromEntries(
        Object.entries(record).filter(([key]) => !keys.includes(key)),
      ) as unknown as FarmRecord;
    const bare = publishedRecords.flatMap((record) => [
      cut(record, 'figures', 'treatments', 'sources'),
      cut(record, 'treatments'),
      { ...record, figures: {} },
      {
        ...record,
        compare: (record.compare ?? []).map(({ ask }) => ({ ask: `${ask}, otherwise` })),
      },
      { ...record, compare: [{ ask: 'how the wind blows', expected: 3 }] },
      cut(record, 'compare'),
    ]);
    for (const row of comparisonRows(bare)) {
      if (row.inside === undefined) expect(row.why?.length ?? 0).toBeGreaterThan(10);
      else expect(Number.isFinite(row.model)).toBe(true);
    }
    expect(agreementPage(bare)).toContain('not asked yet');
  });

  it('gets a page', () => {
    expect(agreementPage([madeUp])).toContain('A farm of this test');
  });
});

describe('crops in season', () => {
  it.each(seasonTrials)('$what, $published $unit: $source', (trial) => {
    const { answer, published, band, outside = false, because = '' } = trial;
    const ratio = answer(new CatalogueModel()) / published;
    expect(ratio < band[0] || ratio > band[1]).toBe(outside);
    if (outside) expect(because.length).toBeGreaterThan(30);
  });
});
