import { beforeAll, describe, expect, it } from 'vitest';
import { openTraced } from '../../src/ooxml/open-book';
import { BookCells } from '../../src/plan/book-snapshot';
import { howMany } from '../tools/how-many';
import { otherThanLedger } from '../tools/played-checks';
import { type Played, playThrough } from '../tools/play-through';

/** The renewal of halfway is for `npm run test:long`; the whole year, with LibreOffice, is `npm run soak:year`. */
const renewals = [
  { week: 6, unseen: true },
  { week: 13, tanks: 6, beds: 49 },
] as const;

describe('a quarter of a year through the registers alone, its plan renewed on the way', () => {
  let played: Played;
  beforeAll(() => {
    played = playThrough(renewals.slice(-howMany(1, 2)));
  });

  it('has the heads, kilograms, areas and money of an independent ledger', () => {
    expect(played.faults).toEqual([]);
    expect(played.rows['fishLog']).toBeGreaterThan(75);
    expect(played.balance.income).toBeGreaterThan(20_000);
    expect(played.balance.tanks.size).toBeGreaterThanOrEqual(5);
  });

  it('and a fault in either book would be noticed', () => {
    const cells = new BookCells(openTraced(played.bytes));
    const { balance } = played;
    const [name = '', there] = [...balance.tanks][0] ?? [];
    const fish = there?.fish ?? 0;
    const biomass = there?.biomass ?? 0;
    const tanks = new Map(balance.tanks);
    expect(
      otherThanLedger(cells, { ...balance, tanks: tanks.set(name, { fish: fish + 1, biomass }) }),
    ).toEqual([`${name}: ${fish} fish, not ${fish + 1}`]);
    expect(otherThanLedger(cells, { ...balance, income: balance.income + 0.5 })).toHaveLength(1);
    expect(otherThanLedger(cells, { ...balance, area: balance.area * 1.01 })).toHaveLength(1);
    expect(otherThanLedger(cells, { ...balance, beds: new Map() }).length).toBeGreaterThan(20);
  });
});
