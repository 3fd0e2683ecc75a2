import { describe, expect, it } from 'vitest';
import { bookRules } from '../../src/check/book-rules';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import type { TypedPlace } from '../../src/plan/read-book';

const dailyFeed = Array.from({ length: 20 }, (_, i) => ({
  ...{ date: `2026-03-${String(i + 11)}`, tank: 'Tank 1', given: 1.5 },
}));

const foundIn = (changed: object) => {
  const farm = readFarm({
    ...demoFarm,
    asOf: '2026-04-13',
    tanks: demoFarm.tanks.map(({ name, volume, species }) => ({ name, volume, species })),
    fishLog: [
      { date: '2026-03-01', tank: 'Tank 1', what: 'stocked', fish: 400, weight: 150 },
      { date: '2026-03-12', tank: 'Tank 1', what: 'moved', fish: 100, toTank: 'Tank 2' },
      { date: '2026-03-15', tank: 'Tank 2', what: 'sold', fish: 20 },
    ],
    feedLog: dailyFeed,
    treatments: [],
    ...changed,
  });
  const places = new Map<string, TypedPlace>();
  for (const list of ['feedLog', 'fishLog', 'treatments'] as const)
    farm[list].forEach((row, at) =>
      Object.keys(row).forEach((field, column) =>
        places.set(`${list}[${at}].${field}`, {
          ...{ sheet: list, row: at, column, value: '', label: field, holds: 'text' },
        } as TypedPlace),
      ),
    );
  return bookRules({ farm, places });
};
const fedOn = (at: number, change: object): object => ({
  feedLog: dailyFeed.map((row, i) => (i === at ? { ...row, ...change } : row)),
});

describe('feed against the fish', () => {
  it('of a clean log is not spoken of', () => {
    expect(foundIn({})).toEqual([]);
  });

  it.each([
    ['ten times too much', { given: 15 }, 'C8', /Tank 1 got 15 kg on 2026-03-18; by the plan/],
    ['ten times too little', { given: 0.15 }, 'C8', /got 0\.15 kg on 2026-03-18, where 1\.\d kg/],
    ['to a tank without fish', { tank: 'Tank 3' }, 'B8', /Tank 3 holds no fish on 2026-03-18/],
  ])('%s is named', (_, change, address, what) => {
    const found = foundIn(fedOn(7, change));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({
      ...{ level: 'watch', sheet: 'feedLog', address },
      what: expect.stringMatching(what) as string,
    });
  });

  it('may be given on the day on which the last of them left', () => {
    const rows = [
      { date: '2026-03-01', tank: 'Tank 1', what: 'stocked', fish: 400, weight: 150 },
      { date: '2026-03-30', tank: 'Tank 1', what: 'sold', fish: 400 },
    ];
    expect(foundIn({ fishLog: rows })).toEqual([]);
  });
});

describe('treatments', () => {
  it('are not the place of feed', () => {
    const treatments = [{ date: '2026-04-01', where: 'Tank 1', what: 'Feed', amount: '2 kg' }];
    expect(foundIn({ treatments })).toMatchObject([{ level: 'note', sheet: 'treatments' }]);
  });

  it('of fish that were moved since and sold too soon are a danger', () => {
    const treatments = [{ date: '2026-03-10', where: 'Tank 1', what: 'a bath', wait: 14 }];
    expect(foundIn({ treatments })).toMatchObject([
      {
        ...{ level: 'danger', sheet: 'fishLog', address: 'B3' },
        what: 'fishLog, line 3: fish came into Tank 2 from Tank 1, treated with a bath on 2026-03-10 and free from 2026-03-24 only.',
      },
    ]);
  });
});
