import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fishLog, type FishFarm, type FishRow } from '../../../src/core/fish-log';
import { feedRate } from '../../../src/core/feeding';
import { growingTemperature, grownWeight } from '../../../src/core/growth';
import { calendarDate, serialOf } from '../../../src/core/serial-date';
import { type Species, species } from '../../../src/core/tables/species';

const tilapia = species.find(({ name }) => name === 'Nile tilapia') as Species;
const day = (month: number, date: number, year = 2026): number =>
  serialOf({ year, month, day: date });
const water = [22, 23, 24, 25, 26, 28, 29, 29, 27, 25, 24, 22];
const farm = (over: Partial<FishFarm> = {}): FishFarm => ({
  tanks: ['A', 'B', 'C'].map((name) => ({ name, species: tilapia, volume: 5000 })),
  water,
  asOf: day(6, 1),
  ...over,
});
const stocked = (over: Partial<FishRow> = {}): FishRow => ({
  date: day(3, 1),
  kind: 'stocked',
  tank: 'A',
  fish: 640,
  weight: 50,
  lot: 'spring',
  ...over,
});

/** Growth a day at a time, as nobody would compute it. */
function grownDaily(weight: number, from: number, to: number): number {
  let now = weight;
  for (let on = from; on < to; on++) {
    const temperature = growingTemperature(tilapia, water[calendarDate(on).month - 1] as number);
    now = grownWeight(now, 1, temperature, tilapia.facts.tgc[0]);
  }
  return now;
}

describe('what a tank holds', () => {
  it('grows day by day in the water of each month, over the turn of a year too', () => {
    const from = day(11, 20, 2025);
    const log = fishLog([stocked({ date: from })], farm({ asOf: day(2, 10) }));
    const [a] = log.stateOn(day(2, 10));
    expect(a?.fish).toBe(640);
    expect(a?.weight).toBeCloseTo(grownDaily(50, from, day(2, 10)), 8);
    expect(a?.density).toBeCloseTo((640 * (a?.weight ?? 0)) / 5000, 10);
  });

  it('is nothing before the first row, and what that row says on its day', () => {
    const log = fishLog([stocked()], farm());
    expect(log.stateOn(day(2, 28))[0]?.fish).toBe(0);
    expect(log.stateOn(day(3, 1))[0]).toMatchObject({ fish: 640, weight: 50, since: day(3, 1) });
  });

  it('splits and joins by number of fish', () => {
    const log = fishLog(
      [
        stocked(),
        stocked({ tank: 'B', fish: 200, weight: 80, lot: 'bought in' }),
        { date: day(3, 1), kind: 'Moved', tank: 'a', toTank: ' b ', fish: 150 },
      ],
      farm(),
    );
    const [a, b] = log.stateOn(day(3, 1));
    expect(a).toMatchObject({ fish: 490, weight: 50 });
    expect(b?.fish).toBe(350);
    expect(b?.weight).toBeCloseTo((200 * 80 + 150 * 50) / 350, 10);
    expect(b?.lots.get('spring')).toBeCloseTo(150 / 350, 12);
    expect(b?.lots.get('bought in')).toBeCloseTo(200 / 350, 12);
  });

  it('weighs (N w - n w_out)/(N - n) where heavier fish were moved out', () => {
    const log = fishLog(
      [
        stocked(),
        { date: day(3, 1), kind: 'moved', tank: 'A', toTank: 'B', fish: 200, weight: 65 },
      ],
      farm(),
    );
    const [a, b] = log.stateOn(day(3, 1));
    expect(a?.weight).toBeCloseTo((640 * 50 - 200 * 65) / 440, 10);
    expect(b?.weight).toBe(65);
  });

  it('takes over a weighing and a count as recorded', () => {
    const log = fishLog(
      [
        stocked(),
        { date: day(4, 1), kind: 'weighed', tank: 'A', fish: 30, weight: 61 },
        { date: day(4, 2), kind: 'counted', tank: 'A', fish: 620 },
      ],
      farm(),
    );
    expect(log.stateOn(day(4, 1))[0]).toMatchObject({ fish: 640, weight: 61, weighed: day(4, 1) });
    expect(log.stateOn(day(4, 2))[0]?.fish).toBe(620);
    expect(log.lots[0]).toMatchObject({ lot: 'spring', stocked: 640, missing: 20, alive: 620 });
  });
});

const year: FishRow[] = [
  stocked(),
  { date: day(3, 20), kind: 'died', tank: 'A', fish: 7 },
  { date: day(4, 10), kind: 'moved', tank: 'A', toTank: 'B', fish: 290 },
  { date: day(4, 20), kind: 'weighed', tank: 'B', fish: 40, weight: 118 },
  { date: day(5, 1), kind: 'counted', tank: 'A', fish: 300 },
  { date: day(5, 10), kind: 'sold', tank: 'B', fish: 90, weight: 190 },
  stocked({ date: day(5, 12), tank: 'C', fish: 640, weight: 20, lot: undefined }),
  { date: day(6, 10), kind: 'moved', tank: 'C', toTank: 'B', fish: 100, planned: true },
  { date: day(8, 1), kind: 'sold', tank: 'A', planned: true },
];

describe('a lot', () => {
  it('came and was sold with so many kg, by its share where lots are mixed', () => {
    const { lots } = fishLog(
      [
        stocked({ fish: 300, weight: 40 }),
        stocked({ fish: 100, weight: 80, lot: 'bought in' }),
        { date: day(3, 1), kind: 'sold', tank: 'A', fish: 200, weight: 55 },
      ],
      farm(),
    );
    // 300 fish of 40 g, 100 of 80 g; three quarters and one quarter of 200 fish of 55 g.
    const [spring, bought] = lots;
    expect(spring?.stockedMass).toBeCloseTo(12, 12);
    expect(spring?.soldMass).toBeCloseTo(8.25, 12);
    expect(bought?.stockedMass).toBeCloseTo(8, 12);
    expect(bought?.soldMass).toBeCloseTo(2.75, 12);
  });
});

describe('what became of the fish of a lot', () => {
  it('is told apart: sold, died, missing by a count', () => {
    const { lots } = fishLog(
      [
        stocked(),
        { date: day(3, 2), kind: 'died', tank: 'A', fish: 7, weight: 40 },
        { date: day(3, 3), kind: 'sold', tank: 'A', fish: 11 },
        { date: day(3, 4), kind: 'counted', tank: 'A', fish: 620, weight: 55 },
        { date: day(6, 2), kind: 'counted', tank: 'A', fish: 600, planned: true },
        { date: day(6, 3), kind: 'sold', tank: 'A', fish: 5, planned: true },
      ],
      farm(),
    );
    expect(lots).toMatchObject([{ stocked: 640, died: 7, sold: 11, missing: 2, alive: 620 }]);
  });

  it('leaves their weight alone where some died, and takes it over from a count that weighed them', () => {
    const log = fishLog(
      [
        stocked(),
        { date: day(3, 1), kind: 'died', tank: 'A', fish: 40, weight: 20 },
        { date: day(3, 2), kind: 'counted', tank: 'A', fish: 600 },
        { date: day(3, 3), kind: 'counted', tank: 'A', fish: 600, weight: 62 },
      ],
      farm(),
    );
    expect(log.stateOn(day(3, 1))[0]).toMatchObject({ fish: 600, weight: 50 });
    expect(log.stateOn(day(3, 2))[0]?.weighed).toBeUndefined();
    expect(log.stateOn(day(3, 3))[0]).toMatchObject({ weight: 62, weighed: day(3, 3) });
  });
});

describe('a tank of one fish', () => {
  const rows: FishRow[] = [
    stocked({ fish: 2 }),
    { date: day(3, 2), kind: 'died', tank: 'A', fish: 1 },
  ];

  it('keeps its lot, grows and is fed', () => {
    const log = fishLog(rows, farm());
    const [a] = log.stateOn(day(6, 1));
    expect(a).toMatchObject({ fish: 1, lot: 'spring', since: day(3, 1) });
    expect(a?.weight).toBeGreaterThan(100);
    const [feed] = log.feedOn(day(6, 1));
    const { weight = NaN } = a ?? {};
    expect(feed?.daily).toBeCloseTo(weight * feedRate(tilapia, weight, 28), 12);
    expect(feed?.most).toBeCloseTo(weight * feedRate(tilapia, weight), 12);
    expect(log.weeks(1)[0]?.feed).toBe(feed?.daily);
  });

  it('joins others and is joined by them', () => {
    const beside = stocked({ tank: 'B', fish: 4, weight: 70, date: day(3, 2) });
    const join = (tank: string, toTank: string, fish: number, weight: number) =>
      fishLog(
        [...rows, beside, { date: day(3, 2), kind: 'moved', tank, toTank, fish, weight }],
        farm(),
      ).stateOn(day(3, 2));
    const [emptied, joined] = join('A', 'B', 1, 60);
    expect(emptied?.fish).toBe(0);
    expect(joined?.fish).toBe(5);
    expect(joined?.weight).toBeCloseTo((4 * 70 + 60) / 5, 12);
    const [five] = join('B', 'A', 4, 70);
    expect(five?.fish).toBe(5);
  });

  it('can be weighed and sold', () => {
    const log = fishLog(
      [
        ...rows,
        { date: day(4, 1), kind: 'weighed', tank: 'A', fish: 1, weight: 90 },
        { date: day(4, 2), kind: 'sold', tank: 'A', fish: 1 },
      ],
      farm(),
    );
    expect(log.rows.map(({ status }) => status)).toEqual(['done', 'done', 'done', 'done']);
    expect(log.stateOn(day(4, 2))[0]?.fish).toBe(0);
  });
});

it('an empty tank takes no feed, on no day', () => {
  const [a] = fishLog([], farm()).feedOn(day(6, 1));
  expect(a).toEqual({ daily: 0, most: 0 });
});

it('fry of less than a gram can be stocked', () => {
  const log = fishLog([stocked({ weight: 0.3 })], farm());
  expect(log.rows[0]).toMatchObject({ status: 'done', weight: 0.3 });
});

describe('fish that leave as the heavier ones', () => {
  const leaving = (fish: number, weight: number) =>
    fishLog(
      [
        stocked({ fish: 100, weight: 100 }),
        { date: day(3, 1), kind: 'sold', tank: 'A', fish, weight },
      ],
      farm(),
    );

  it('are doubted where those that stay come to less than half of what all weighed', () => {
    // 50 fish stay and weigh 200 g less what one of the others weighs.
    expect(leaving(50, 149.9).rows[1]?.doubt).toBeUndefined();
    expect(leaving(50, 150.2).rows[1]?.doubt).toMatch(/^those that stay would weigh 49\.8 g/);
  });

  it('may leave one fish, which is doubted as more would be', () => {
    // 99 fish of 100.5 g leave 50.5 g to the last; of 100.9 g they leave 10.9 g.
    expect(leaving(99, 100.5).rows[1]).toMatchObject({ status: 'done', fish: 99 });
    expect(leaving(99, 100.5).rows[1]?.doubt).toBeUndefined();
    expect(leaving(99, 100.9).rows[1]?.doubt).toMatch(/^those that stay would weigh 10\.9 g/);
    expect(leaving(99, 101.1).rows[1]?.problem).toMatch(/are more than all 100 weigh/);
  });

  it('leave fry of less than a gram', () => {
    const log = fishLog(
      [
        stocked({ fish: 100, weight: 1 }),
        { date: day(3, 1), kind: 'sold', tank: 'A', fish: 50, weight: 1.2 },
      ],
      farm(),
    );
    expect(log.rows[1]?.status).toBe('done');
    expect(log.stateOn(day(3, 1))[0]?.weight).toBeCloseTo(0.8, 12);
  });
});

describe('rows in any order of typing', () => {
  it('give the same farm in any order', () => {
    const settings = farm({ dailySurvival: 0.9995 });
    const straight = fishLog(year, settings);
    fc.assert(
      fc.property(
        fc.shuffledSubarray([...year.keys()], { minLength: year.length, maxLength: year.length }),
        (order) => {
          const shuffled = fishLog(
            order.map((place) => year[place] as FishRow),
            settings,
          );
          for (const on of [day(3, 1), day(4, 15), day(5, 11), day(6, 1), day(7, 1), day(9, 1)]) {
            expect(shuffled.stateOn(on)).toEqual(straight.stateOn(on));
          }
          order.forEach((place, at) => {
            expect(shuffled.rows[at]).toEqual(straight.rows[place]);
          });
        },
      ),
      { numRuns: 30 },
    );
  });

  it('of one day count in the order in which they are typed', () => {
    const move: FishRow = { date: day(3, 1), kind: 'moved', tank: 'A', toTank: 'B', fish: 10 };
    expect(fishLog([stocked(), move], farm()).rows[1]?.status).toBe('done');
    expect(fishLog([move, stocked()], farm()).rows[0]?.status).toBe('impossible');
  });
});

describe('an impossible row', () => {
  it.each<[string, FishRow, RegExp]>([
    [
      'more leave than are there',
      { kind: 'sold', tank: 'A', fish: 641 },
      /A holds 640 fish on 2026-03-02; 641 cannot leave it/,
    ],
    [
      'a tank that is not',
      { kind: 'died', tank: 'AA', fish: 1 },
      /there is no tank "AA"; the nearest name is "A"/,
    ],
    [
      'a tank to go to that is not',
      { kind: 'moved', tank: 'A', toTank: 'Q', fish: 1 },
      /there is no tank "Q"/,
    ],
    ['no tank to go to', { kind: 'moved', tank: 'A', fish: 1 }, /name the tank that they go to/],
    ['to itself', { kind: 'moved', tank: 'A', toTank: 'a', fish: 1 }, /A to itself is no move/],
    [
      'an empty tank',
      { kind: 'weighed', tank: 'B', weight: 20 },
      /B holds no fish on 2026-03-02: write down first/,
    ],
    [
      'a word that is none',
      { kind: 'eaten', tank: 'A', fish: 3 },
      /"eaten" is none of stocked, moved/,
    ],
    ['no word', { tank: 'A', fish: 3 }, /say what happened/],
    ['half a fish', { kind: 'died', tank: 'A', fish: 2.5 }, /whole numbers from 0; got 2.5/],
    ['no number', { kind: 'sold', tank: 'A' }, /type how many fish/],
    ['none that left', { kind: 'sold', tank: 'A', fish: 0 }, /type how many fish left/],
    ['no weight', { kind: 'stocked', tank: 'B', fish: 3 }, /type the mean weight/],
    [
      'a weight of 0',
      { kind: 'weighed', tank: 'A', weight: 0 },
      /mean weight must be above 0; got 0/,
    ],
    [
      'more weighed than are there',
      { kind: 'weighed', tank: 'A', fish: 700, weight: 60 },
      /700 cannot be weighed/,
    ],
    [
      'heavier fish than there can be',
      { kind: 'moved', tank: 'A', toTank: 'B', fish: 500, weight: 70 },
      /500 fish of 70 g are more than all 640 weigh/,
    ],
  ])('%s: is reported and not counted', (_, row, sentence) => {
    const log = fishLog([stocked(), { date: day(3, 2), ...row }], farm());
    expect(log.rows[1]).toMatchObject({ status: 'impossible' });
    expect(log.rows[1]?.problem).toMatch(sentence);
    expect(log.stateOn(day(3, 2)).map(({ fish }) => fish)).toEqual([640, 0, 0]);
  });

  it('without a valid date', () => {
    const log = fishLog([{ kind: 'died', tank: 'A', fish: 1 }, stocked({ date: 46000.5 })], farm());
    expect(log.rows.map(({ problem }) => problem)).toEqual([
      'type the date',
      'the date is no date',
    ]);
  });

  it('casts doubt on later rows of its tanks, and where their fish go, until a count', () => {
    const log = fishLog(
      [
        stocked(),
        { date: day(3, 2), kind: 'sold', tank: 'A', fish: 900 },
        { date: day(3, 3), kind: 'died', tank: 'A', fish: 1 },
        { date: day(3, 4), kind: 'moved', tank: 'A', toTank: 'B', fish: 100 },
        { date: day(3, 5), kind: 'died', tank: 'B', fish: 1 },
        { date: day(3, 6), kind: 'counted', tank: 'A', fish: 480 },
        { date: day(3, 7), kind: 'died', tank: 'A', fish: 1 },
      ],
      farm(),
    );
    expect(log.rows.map(({ restsOn }) => restsOn)).toEqual([
      undefined,
      undefined,
      1,
      1,
      1,
      1,
      undefined,
    ]);
    expect(log.rows.map(({ status }) => status)).toEqual([
      'done',
      'impossible',
      'done',
      'done',
      'done',
      'done',
      'done',
    ]);
  });

  it('is told apart from one that leaves light fish behind, which is only doubted', () => {
    const log = fishLog(
      [stocked(), { date: day(3, 2), kind: 'sold', tank: 'A', fish: 500, weight: 59 }],
      farm(),
    );
    expect(log.rows[1]?.status).toBe('done');
    expect(log.rows[1]?.doubt).toMatch(/less than half/);
  });

  it('does not mean a blank row, which is ignored', () => {
    const log = fishLog([{}, { tank: '', kind: '', remark: 'note' }], farm());
    expect(log.rows).toEqual([{ status: 'blank' }, { status: 'blank' }]);
  });

  it('does not mean two tanks of one name or eleven months, which are refused', () => {
    const [a] = farm().tanks;
    expect(() => fishLog([], farm({ tanks: [a, a] as never }))).toThrow(/two tanks are called "A"/);
    expect(() => fishLog([], farm({ water: water.slice(1) }))).toThrow(/12 months; got 11/);
  });
});

describe('the forecast', () => {
  const plan: FishRow[] = [
    stocked(),
    { date: day(5, 1), kind: 'moved', tank: 'A', toTank: 'C', fish: 10, planned: true },
    { date: day(6, 15), kind: 'moved', tank: 'A', toTank: 'B', fish: 300, planned: true },
    { date: day(9, 1), kind: 'sold', tank: 'B', planned: true },
    { date: day(9, 1), kind: 'counted', tank: 'A', planned: true },
  ];
  const log = fishLog(plan, farm({ dailySurvival: 0.998 }));

  it('leaves the records alone: no fish dies or moves up to the day of the plan', () => {
    expect(log.stateOn(day(6, 1)).map(({ fish }) => fish)).toEqual([640, 0, 0]);
    expect(log.weeks(0).map(({ fish }) => fish)).toEqual([640, 0, 0]);
  });

  it('asks about planned rows whose day has passed', () => {
    expect(log.rows.map(({ status }) => status)).toEqual([
      'done',
      'waiting',
      'planned',
      'planned',
      'planned',
    ]);
  });

  it('thins at the expected rate and moves whole fish', () => {
    const survivors = Math.round(640 * 0.998 ** 14);
    expect(log.stateOn(day(6, 15)).map(({ fish }) => fish)).toEqual([survivors - 300, 300, 0]);
    const sold = log.rows[3];
    expect(sold?.fish).toBe(Math.round(300 * 0.998 ** 78));
    expect(sold?.weight).toBeCloseTo(grownDaily(50, day(3, 1), day(9, 1)), 6);
    expect(log.stateOn(day(9, 1))[1]).toMatchObject({ fish: 0, weight: 0, since: undefined });
  });

  it('has a row for every tank and week, with feed from what is in it', () => {
    const weeks = log.weeks(20);
    expect(weeks).toHaveLength(3 * 21);
    for (const { fish, feed, weight, biomass } of weeks) {
      expect(feed > 0).toBe(fish > 0);
      expect(biomass).toBeCloseTo((fish * weight) / 1000, 9);
    }
  });

  it('counts a planned row of the day of the plan from the first week on', () => {
    const today = fishLog(
      [stocked(), { date: day(6, 1), kind: 'sold', tank: 'A', fish: 100, planned: true }],
      farm(),
    );
    expect(today.stateOn(day(6, 1))[0]?.fish).toBe(640);
    expect(today.stateOn(day(6, 8))[0]?.fish).toBe(540);
  });

  it('moves as many fish as there are where a planned row asks for more, and says so', () => {
    const short = fishLog(
      [stocked(), { date: day(7, 1), kind: 'sold', tank: 'A', fish: 700, planned: true }],
      farm(),
    );
    expect(short.rows[1]).toMatchObject({ status: 'planned', fish: 640 });
    expect(short.rows[1]?.doubt).toMatch(/700 cannot leave it, so that all of them go: plan again/);
  });

  it('treats a later row as planned, marked or not', () => {
    const later = fishLog([stocked({ date: day(7, 1) })], farm());
    expect(later.rows[0]?.status).toBe('planned');
    expect(later.stateOn(day(6, 30))[0]?.fish).toBe(0);
    expect(later.stateOn(day(7, 1))[0]?.fish).toBe(640);
  });
});

describe('no fish appears or disappears', () => {
  const anyRow = fc.record({
    date: fc.integer({ min: day(1, 1), max: day(5, 30) }),
    kind: fc.constantFrom('stocked', 'moved', 'sold', 'died', 'counted', 'weighed'),
    tank: fc.constantFrom('A', 'B', 'C'),
    toTank: fc.constantFrom('A', 'B', 'C'),
    fish: fc.integer({ min: 0, max: 300 }),
    weight: fc.option(fc.integer({ min: 1, max: 400 }), { nil: undefined }),
    lot: fc.constantFrom('x', 'y', undefined),
  });

  it('whatever is typed: stocked = alive + sold + died + missing, in all and by lot', () => {
    fc.assert(
      fc.property(fc.array(anyRow, { maxLength: 40 }), (rows) => {
        const log = fishLog(rows, farm());
        // A ledger of its own, from the rows that were found possible.
        const ledger = new Map<string, number>([
          ['A', 0],
          ['B', 0],
          ['C', 0],
        ]);
        const add = (tank: string, fish: number) =>
          ledger.set(tank, (ledger.get(tank) ?? 0) + fish);
        rows
          .map((row, place) => ({ row, place }))
          .sort((a, b) => a.row.date - b.row.date || a.place - b.place)
          .forEach(({ row, place }) => {
            if (log.rows[place]?.status !== 'done') return;
            if (row.kind === 'stocked') add(row.tank, row.fish);
            if (['sold', 'died', 'moved'].includes(row.kind)) add(row.tank, -row.fish);
            if (row.kind === 'moved') add(row.toTank, row.fish);
            if (row.kind === 'counted') ledger.set(row.tank, row.fish);
          });
        const now = log.stateOn(farm().asOf);
        expect(now.map(({ fish }) => fish)).toEqual([...ledger.values()]);
        for (const state of now) {
          expect(state.fish).toBeGreaterThanOrEqual(0);
          expect(state.fish > 0).toBe(state.weight > 0);
          const shares = [...state.lots.values()].reduce((sum, share) => sum + share, 0);
          expect(shares).toBeCloseTo(state.fish > 0 ? 1 : 0, 9);
        }
        for (const lot of log.lots) {
          expect(lot.alive + lot.sold + lot.died + lot.missing).toBeCloseTo(lot.stocked, 6);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('reads ten years of rows in a moment', () => {
    const rows: FishRow[] = [];
    for (let at = 0; at < 5000; at++) {
      const tank = 'ABC'.charAt(at % 3);
      rows.push(
        at % 100 < 3
          ? stocked({ date: day(1, 1, 2016) + Math.floor(at * 0.7), tank })
          : { date: day(1, 1, 2016) + Math.floor(at * 0.7), kind: 'died', tank, fish: 1 },
      );
    }
    const log = fishLog(rows, farm());
    expect(log.rows.filter(({ status }) => status === 'impossible')).toEqual([]);
    expect(log.rows.filter(({ status }) => status === 'done')).toHaveLength(5000);
  });
});
