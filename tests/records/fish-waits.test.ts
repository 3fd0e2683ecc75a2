import { describe, expect, it } from 'vitest';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { soldTooSoon } from '../../src/records/fish-waits';

/**
 * A withdrawal period is the time between the last dose and the day on which food may be taken from the animal
 * (Directive 2001/82/EC, article 1; Regulation (EU) 2019/6, article 4 (34)): it stays with the animal.
 */

type Row = Readonly<Record<string, string | number>>;

const farmOf = (fishLog: readonly Row[], treatments: readonly Row[]) =>
  readFarm({
    ...demoFarm,
    asOf: '2026-04-13',
    tanks: demoFarm.tanks.map(({ name, volume, species }) => ({ name, volume, species })),
    feedLog: [],
    fishLog,
    treatments,
  });

const stocked = ['Tank 1', 'Tank 2', 'Tank 3'].map((tank) => ({
  ...{ date: '2026-01-05', tank, what: 'stocked', fish: 100, weight: 300 },
}));
const bath = { date: '2026-03-10', where: 'Tank 1', what: 'a bath', wait: 14 };
const sold = (date: string, tank: string, rest: Row = {}): Row => ({
  ...{ date, tank, what: 'sold', fish: 10, ...rest },
});
const moved = (date: string, tank: string, toTank: string, fish = 20): Row => ({
  ...{ date, tank, what: 'moved', fish, toTank },
});
const early = (rows: readonly Row[], treatments: readonly Row[] = [bath]): number[] =>
  soldTooSoon(farmOf([...stocked, ...rows], treatments)).map(({ at }) => at - stocked.length);

describe('fish sold within the days to wait', () => {
  it('are named from the day of the treatment until the day on which they are free', () => {
    expect(
      early([
        sold('2026-03-09', 'Tank 1'),
        sold('2026-03-10', 'Tank 1'),
        sold('2026-03-23', ' tank 1'),
        sold('2026-03-24', 'Tank 1'),
        sold('2026-03-15', 'Tank 2'),
        sold('2026-03-20', 'Tank 1', { planned: 'not done' }),
      ]),
    ).toEqual([1, 2]);
  });

  it('wait in the tank that they were moved to, and in the next, but not in one that was emptied since', () => {
    const rows = [
      moved('2026-03-12', 'Tank 1', 'Tank 2'),
      moved('2026-03-13', 'Tank 2', 'Tank 3', 120),
      sold('2026-03-20', 'Tank 3'),
      { date: '2026-03-14', tank: 'Tank 2', what: 'stocked', fish: 50, weight: 40 },
      sold('2026-03-21', 'Tank 2'),
      sold('2026-03-24', 'Tank 3'),
    ];
    expect(early(rows)).toEqual([2]);
    const [found] = soldTooSoon(farmOf([...stocked, ...rows], [bath]));
    expect(found).toMatchObject({
      here: false,
      says: 'fish came into Tank 3 from Tank 1, treated with a bath on 2026-03-10 and free from 2026-03-24 only',
    });
  });

  it('are those that moved before the treatment, or of a treatment of all the water, only where that was', () => {
    expect(early([moved('2026-03-09', 'Tank 1', 'Tank 2'), sold('2026-03-12', 'Tank 2')])).toEqual(
      [],
    );
    const all = [{ ...bath, where: 'all' }];
    expect(early([sold('2026-03-12', 'Tank 2')], all)).toEqual([0]);
    expect(early([sold('2026-03-12', 'Tank 2')], [{ ...bath, wait: 0 }])).toEqual([]);
  });

  it('are named ahead where they are planned to be sold', () => {
    const late = [{ ...bath, date: '2026-04-12' }];
    expect(early([sold('2026-04-20', 'Tank 1', { planned: 'planned' })], late)).toEqual([0]);
  });
});
