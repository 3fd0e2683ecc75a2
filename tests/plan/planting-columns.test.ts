import { describe, expect, it } from 'vitest';
import { checkSheets } from '../../src/check/check';
import { computedValues } from '../../src/engine/engine';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { isoText } from '../../src/core/serial-date';
import { waitsFor } from '../../src/records/days-to-wait';
import { oneOf, randomNumbers } from '../soak/random';

const bed = { kind: 'raft', length: 7.2, width: 1.2 };
const bare = {
  ...demoFarm,
  tanks: [{ name: 'North', volume: 7800, species: 'Nile tilapia' }],
  beds: ['R01', 'R02'].map((name) => ({ name, ...bed })),
  markets: [],
  waterTests: [],
  fishLog: [],
};
const lettuce = { crop: 'lettuce', plants: 170 };

function saysOf(changes: object, formulas: 'live' | 'plain') {
  const model = planWorkbook(readFarm({ ...bare, ...changes }), { formulas });
  const values = computedValues(model);
  const says = (
    register: 'Plantings' | 'Harvest' | 'Fishlog' | 'Treatments',
    rows: number,
  ): unknown[] => {
    const { sheet, area } = model.names.find(({ name }) => name === `${register}_says`) as never;
    const { row, column } = area as { row: number; column: number };
    return Array.from({ length: rows }, (_, i) => values(sheet, row + i, column));
  };
  const findings = () =>
    checkSheets(
      model.sheets.map(({ name, rows }) => ({
        name,
        values: rows.map((cells, r) => cells.map((_, c) => values(name, r, c) ?? '')),
        formulas: rows.map(() => []),
      })) as never,
    );
  return { says, findings };
}

describe.each(['live', 'plain'] as const)('rows that cannot be, %s', (formulas) => {
  const plantings = [
    // Typed first, planted last: into a bed that was never cleared.
    { ...lettuce, bed: 'R01', planted: '2026-03-20' },
    { ...lettuce, bed: 'r01', planted: '2026-02-02' },
    { ...lettuce, bed: 'R02', planted: '2026-01-05', cleared: '2026-02-13' },
    { ...lettuce, bed: 'R02', planted: '2026-02-13' },
    { ...lettuce, bed: 'R02', planted: '2026-02-20', planned: 'not done' },
    { ...lettuce, bed: 'R09', planted: '2026-02-20' },
    { ...lettuce, sown: '2026-03-02', planted: '2026-02-20' },
    { ...lettuce, bed: 'R01', sown: '2026-03-30', planned: 'planned' },
    { ...lettuce, bed: 'R01', sown: '2026-04-30', planned: 'planned' },
    { ...lettuce, sown: '2026-03-02', up: '2026-02-20' },
  ];
  const sale = { crop: 'lettuce', unit: 'piece', quantity: 100, price: 1.2 };
  const harvests = [
    { ...sale, date: '2026-01-02', bed: 'R02' },
    { ...sale, date: '2026-02-13', bed: 'R02' },
    { ...sale, date: '2026-04-10', bed: 'R02' },
    { ...sale, date: '2026-04-12', bed: 'R02' },
    { ...sale, date: '2026-04-10', bed: 'North' },
    { ...sale, date: '2026-04-10' },
  ];
  const treatments = [
    { date: '2026-04-09', where: 'R02', what: 'soap on the leaves', wait: 3 },
    { date: '2026-04-10', where: 'all', what: 'salt in the water', wait: 0 },
    { date: '2026-04-01', where: 'North', what: 'a bath', wait: 16 },
    { date: '2026-04-02', where: 'R09', what: 'soap on the leaves', wait: 3 },
  ];
  const sold = { tank: 'North', what: 'sold', fish: 5 };
  const fishLog = [
    { ...sold, date: '2026-03-01', what: 'stocked', fish: 400, weight: 90 },
    { ...sold, date: '2026-03-31' },
    { ...sold, date: '2026-04-01' },
    { ...sold, date: '2026-04-02', what: 'died' },
    { ...sold, date: '2026-04-03', fish: 900 },
    { ...sold, date: '2026-04-16', planned: 'planned' },
    { ...sold, date: '2026-04-17', planned: 'planned' },
  ];
  const { says, findings } = saysOf({ plantings, harvests, treatments, fishLog }, formulas);

  it('are named beside the Plantings, whatever the order of typing', () => {
    expect(says('Plantings', plantings.length)).toEqual([
      'R01 was not cleared of line 7 on 2026-03-20',
      '',
      '',
      '',
      '',
      'Beds has no bed called R09',
      'say in which bed it was planted',
      expect.stringMatching(/^planned for a day that has passed/),
      '',
      'up before it was sown',
    ]);
  });

  it('are named beside the Harvest log: an empty bed, days to wait', () => {
    expect(says('Harvest', harvests.length)).toEqual([
      'R02 was empty on 2026-01-02 by the Plantings',
      '',
      'R02 was treated, and the days to wait were not over: see Treatments',
      '',
      'North was treated, and the days to wait were not over: see Treatments',
      '',
    ]);
  });

  it('are named beside the Treatments: a place that is not there, for which nothing waits', () => {
    expect(says('Treatments', treatments.length)).toEqual([
      '',
      '',
      '',
      'there is no tank or bed called R09',
    ]);
  });

  it('are named beside the Fish log: fish sold within the days to wait', () => {
    expect(says('Fishlog', fishLog.length)).toEqual([
      '',
      '',
      'North was treated, and the days to wait were not over: see Treatments',
      '',
      expect.stringMatching(/^North holds fewer than 900 fish/),
      'North was treated, and the days to wait will not be over: see Treatments',
      '',
    ]);
  });

  it('are named by the check', () => {
    const what = findings().map((one) => one.what);
    expect(what).toContain('Plantings, line 6: R01 was not cleared of line 7 on 2026-03-20.');
    expect(
      what.filter((text) => /^(Plantings|Harvest log|Treatments), line/.test(text)),
    ).toHaveLength(9);
  });
});

describe('days to wait', () => {
  it('are those of the registers, whichever of many treatments a place waits for', () => {
    const random = randomNumbers(5);
    const day = (): string => isoText(46_000 + Math.floor(random() * 40));
    const place = (): string => oneOf(random, ['R01', ' r02', 'R02', 'North', 'north ', 'all']);
    const treatments = Array.from({ length: 24 }, () => ({
      ...{ date: day(), where: place(), what: 'soap', wait: oneOf(random, [0, 1, 2, 9]) },
    })).filter(({ where }) => where !== 'all' || random() < 0.3);
    const harvests = Array.from({ length: 90 }, () => ({
      ...{ date: day(), bed: oneOf(random, ['R01', 'R02', 'North', 'Elsewhere']) },
      ...{ crop: 'lettuce', unit: 'piece', quantity: 1, price: 1 },
    }));
    const farm = readFarm({ ...bare, treatments, harvests, plantings: [] });
    const { says } = saysOf({ treatments, harvests, plantings: [] }, 'plain');
    const waits = says('Harvest', harvests.length).map((text) => /days to wait/.test(String(text)));
    expect(waits).toEqual(
      farm.harvests.map(({ bed: where = '', date }) => {
        return waitsFor(farm.treatments, where, date).length > 0;
      }),
    );
    expect(new Set(waits).size).toBe(2);
  });
});
