import { describe, expect, it } from 'vitest';
import { fishLog } from '../../src/core/fish-log';
import { serialFromIsoText } from '../../src/core/serial-date';
import { demoFarm } from '../../src/plan/demo-farm';
import { type Farm, readFarm } from '../../src/plan/farm';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import { planWorkbook } from '../../src/plan/plan';
import { fishRowsOf } from '../../src/plan/registers-of-farm';
import { speciesTable } from '../../src/functions/species-table';
import type { Species } from '../../src/core/tables/species';
import { sampleFarm, sampleNames } from '../tools/farms';

const day = (text: string): number => serialFromIsoText(text) as number;
const bare = {
  ...demoFarm,
  tanks: [
    { name: 'North', volume: 7800, species: 'Nile tilapia' },
    { name: 'South', volume: 7800, species: 'Nile tilapia' },
  ],
  beds: [{ name: 'R01', kind: 'raft', length: 7.2, width: 1.2 }],
  markets: [],
  fishLog: [] as unknown[],
  plantings: [] as unknown[],
};
type Bare = Omit<typeof bare, 'tanks' | 'beds'> & { tanks: unknown[]; beds: unknown[] };
const read = (changes: Partial<Bare>): Farm => readFarm({ ...bare, ...changes });

describe('what a farm file says in short becomes rows', () => {
  it('of the Fish log, counted or stocked on the day of the plan', () => {
    const tank = { ...bare.tanks[0], fish: 640, weight: 235, stocked: '2026-01-12' };
    const farm = read({ tanks: [tank] });
    expect(farm.fishLog).toEqual([
      {
        date: farm.asOf,
        tank: 'North',
        what: 'stocked',
        fish: 640,
        weight: 235,
        lot: '2026-01-12 North',
      },
    ]);
    const row = { date: '2026-01-12', tank: 'north ', what: 'stocked', fish: 650, weight: 50 };
    const counted = read({ tanks: [tank], fishLog: [row] });
    expect(counted.fishLog).toHaveLength(2);
    expect(counted.fishLog[1]).toMatchObject({ what: 'counted', fish: 640, weight: 235 });
    expect(counted.tanks[0]).toMatchObject({ fish: 640, weight: 235 });
  });

  it('of the Plantings, about the batch in the bed', () => {
    const bed = { ...bare.beds[0], crop: 'lettuce', plants: 170, sown: '2026-03-02' };
    expect(read({ beds: [bed] }).plantings).toEqual([
      { crop: 'lettuce', bed: 'R01', plants: 170, sown: day('2026-03-02') },
    ]);
    const row = { batch: 'A', crop: 'lettuce', bed: 'r01', sown: '2026-03-02', seeds: 200 };
    expect(read({ beds: [bed], plantings: [row] }).plantings).toEqual([
      { batch: 'A', crop: 'lettuce', bed: 'R01', plants: 170, sown: day('2026-03-02'), seeds: 200 },
    ]);
  });

  it('and nothing where the rows say the same', () => {
    for (const name of sampleNames) {
      const farm = sampleFarm(name);
      const given = JSON.parse(farm.file) as Record<'fishLog' | 'plantings', unknown[]>;
      expect(farm.fishLog, name).toHaveLength(given.fishLog.length);
      expect(farm.plantings, name).toHaveLength(given.plantings.length);
    }
  });
});

describe('tanks and beds on the day of the plan follow from the rows', () => {
  it('fish that moved, grew by the model of their weighing', () => {
    const farm = read({
      fishLog: [
        { date: '2026-04-13', tank: 'North', what: 'weighed', weight: 240 },
        { date: '2026-04-06', tank: 'North', what: 'moved', fish: 200, toTank: 'South' },
        { date: '2026-01-12', tank: 'North', what: 'stocked', fish: 640, weight: 50 },
        { date: '2026-04-20', tank: 'North', what: 'sold', fish: 100, planned: 'planned' },
        { date: '2026-03-01', tank: 'North', what: 'sold', fish: 100, planned: 'not done' },
      ],
    });
    expect(farm.tanks[0]).toMatchObject({ fish: 440, weight: 240, stocked: day('2026-01-12') });
    expect(farm.tanks[1]?.fish).toBe(200);
  });

  it('a bed holds what was planted out and not cleared, or else what is next', () => {
    const lettuce = { crop: 'lettuce', bed: 'R01', plants: 170 };
    const first = { ...lettuce, planted: '2026-02-02', cleared: '2026-03-06' };
    const next = { crop: 'basil', bed: 'R01', plants: 160, sown: '2026-03-30' };
    const standing = { ...lettuce, planted: '2026-03-09' };
    expect(read({ plantings: [first, next] }).beds[0]).toMatchObject({ crop: 'basil' });
    expect(read({ plantings: [next, standing, first] }).beds[0]).toMatchObject({
      crop: 'lettuce',
      planted: day('2026-03-09'),
    });
    expect(read({ plantings: [first] }).beds[0]?.crop).toBeUndefined();
  });
});

describe('the sample farms', () => {
  it.each(sampleNames)('%s: every row of the Fish log is possible', (name) => {
    const farm = sampleFarm(name);
    const { rows } = fishLog(fishRowsOf(farm.fishLog), {
      tanks: farm.tanks.map(({ name, volume, species }) => ({
        name,
        volume,
        species: speciesTable.book.find(species) as Species,
      })),
      water: farm.months.map(({ water }) => water ?? NaN),
      asOf: farm.asOf,
    });
    expect(rows.filter(({ problem, doubt }) => problem ?? doubt)).toEqual([]);
  });
});

describe('wrong rows get a sentence', () => {
  const row = { date: '2026-01-12', tank: 'North', what: 'stocked', fish: 640, weight: 50 };
  it.each([
    ['fishLog[0].what', { fishLog: [{ ...row, what: 'eaten' }] }],
    ['fishLog[0].date', { fishLog: [{ ...row, date: '12.1.2026' }] }],
    ['fishLog[0].fish', { fishLog: [{ ...row, fish: 1.5 }] }],
    ['fishLog[0].weight', { fishLog: [{ ...row, weight: 0 }] }],
    ['fishLog[0].planned', { fishLog: [{ ...row, planned: 'yes' }] }],
    ['plantings[0].crop', { plantings: [{ crop: 'lettus' }] }],
    ['plantings[0].sown', { plantings: [{ crop: 'lettuce', sown: 'May' }] }],
    [
      'treatments[0].wait',
      { treatments: [{ date: '2026-01-12', where: 'North', what: 'x', wait: -1 }] },
    ],
    ['tanks[1].name', { tanks: [bare.tanks[0], { ...bare.tanks[1], name: 'NORTH' }] }],
  ])('%s', (path, changes) => {
    expect(() => read(changes as Partial<Bare>)).toThrow(`${path} must`);
  });
});

describe.each(['live', 'plain'] as const)('the registers in the workbook, %s', (formulas) => {
  const farm = readFarm(demoFarm);
  const model: WorkbookModel = planWorkbook(farm, { formulas });
  it.each([
    ['Fish log', 'Fishlog', farm.fishLog.length],
    ['Plantings', 'Plantings', farm.plantings.length],
    ['Treatments', 'Treatments', farm.treatments.length],
  ])(
    '%s: a line each, prepared lines, a name for each column that runs on below',
    (name, prefix, rows) => {
      const sheet = model.sheets.find((one) => one.name === name);
      const table = sheet?.tables[0];
      expect(table?.area.rows).toBeGreaterThan(rows + 15);
      const dates = sheet?.rows.filter((row) => typeof row[0]?.value === 'number');
      if (prefix !== 'Plantings') expect(dates).toHaveLength(rows);
      const names = model.names.filter((one) => one.name.startsWith(`${prefix}_`));
      expect(names.length).toBeGreaterThanOrEqual(6);
      for (const one of names) {
        expect(one.sheet).toBe(name);
        expect(one.area.rows).toBeGreaterThan(table?.area.rows ?? Infinity);
      }
    },
  );
});
