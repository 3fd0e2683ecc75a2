import { describe, expect, it } from 'vitest';
import { isoText } from '../../src/core/serial-date';
import { demoFarm } from '../../src/plan/demo-farm';
import { type Farm, readFarm } from '../../src/plan/farm';
import { lotsOf, NoSuchLot, trace } from '../../src/records/trace';
import { traceInWords } from '../../src/records/trace-words';

/**
 * One step back and one step forward: Regulation (EC) No 178/2002, article 18: from whom, and to whom, for each lot.
 */

const base = {
  ...demoFarm,
  asOf: '2026-05-30',
  tanks: demoFarm.tanks.map(({ name, volume, species }) => ({ name, volume, species })),
  beds: demoFarm.beds.map(({ name, kind, length, width }) => ({ name, kind, length, width })),
  fishLog: [],
  plantings: [],
  harvests: [],
  treatments: [],
  waterTests: [],
};
const [bedA = '', bedB = ''] = demoFarm.beds.map(({ name }) => name);

/** Two lots of fish that are mixed, one batch in two beds, a treatment too near to a cut. */
const farm = readFarm({
  ...base,
  fishLog: [
    // Not in order of time.
    { date: '2026-03-01', tank: 'Tank 1', what: 'moved', fish: 100, toTank: 'Tank 2' },
    {
      date: '2026-01-05',
      tank: 'Tank 1',
      what: 'stocked',
      fish: 400,
      weight: 50,
      lot: 'A1',
      remark: 'Reedham hatchery',
    },
    { date: '2026-01-06', tank: 'Tank 2', what: 'stocked', fish: 300, weight: 60, lot: 'B1' },
    { date: '2026-04-01', tank: 'Tank 2', what: 'sold', fish: 200 },
    { date: '2026-04-02', tank: 'Tank 1', what: 'sold', fish: 300 },
    { date: '2026-06-30', tank: 'Tank 2', what: 'sold', fish: 200, planned: 'planned' },
  ],
  plantings: [
    {
      batch: 'L7',
      crop: 'lettuce',
      sown: '2026-03-01',
      bed: bedA,
      planted: '2026-03-22',
      plants: 200,
      cleared: '2026-04-24',
    },
    {
      batch: 'l7 ',
      crop: 'lettuce',
      sown: '2026-03-01',
      bed: bedB,
      planted: '2026-03-22',
      plants: 100,
    },
    { crop: 'basil', sown: '2026-04-20', bed: bedA, planted: '2026-05-10', plants: 90 },
    { batch: 'never', crop: 'kale', sown: '2026-04-20', planned: 'not done' },
  ],
  treatments: [
    { date: '2026-04-10', where: bedA, what: 'soap', wait: 14 },
    { date: '2026-02-10', where: 'Tank 1', what: 'salt' },
    { date: '2026-05-29', where: 'all', what: 'peroxide', wait: 0 },
  ],
  feedLog: [
    { date: '2026-01-10', tank: 'Tank 1', given: 2, feed: 'crumble, lot 71' },
    { date: '2026-01-11', tank: 'tank 1 ', given: 2.5, feed: 'crumble, lot 71' },
    { date: '2026-01-12', tank: 'Tank 1', given: 0 },
    { date: '2026-03-10', tank: 'Tank 2', given: 4 },
    // After the last of its fish left.
    { date: '2026-04-20', tank: 'Tank 1', given: 1, feed: 'crumble, lot 72' },
  ],
  waterTests: [
    { date: '2026-02-16', ph: 7 },
    { date: '2026-04-06', temperature: 26, tan: 1.5 },
  ],
  harvests: [
    {
      date: '2026-04-17',
      crop: 'lettuce',
      bed: bedA,
      quantity: 80,
      unit: 'piece',
      price: 1,
      buyer: 'Mill Lane shop',
    },
    { date: '2026-04-24', crop: 'lettuce', quantity: 90, unit: 'piece', price: 1 },
    { date: '2026-05-20', crop: 'basil', bed: bedA, quantity: 30, unit: 'bunch', price: 2 },
    {
      date: '2026-04-01',
      crop: 'Nile tilapia',
      bed: 'Tank 2',
      quantity: 100,
      unit: 'kg',
      price: 7,
    },
  ],
});

const linesOf = (asked: string, head: string, of: Farm = farm, lot = 0): string[] =>
  traceInWords(trace(asked, of))
    [lot]?.sections.find((section) => section.head === head)
    ?.lines.map(({ says, warns }) => (warns === undefined ? says : `${says}! ${warns}`)) ?? [];

describe('a lot of fish', () => {
  it('came from its stocking, with the remark that says from whom', () => {
    expect(linesOf('a1', 'Came from')).toEqual([
      '2026-01-05: 400 fish of 50 g stocked into Tank 1 (Reedham hatchery)',
    ]);
  });
  it('was in each tank that it was moved through, as long as some of it was there', () => {
    expect(linesOf('A1', 'Was in')).toEqual([
      'Tank 1: 2026-01-05 to 2026-04-02',
      'Tank 2: 2026-03-01 to now',
    ]);
  });
  it('shares what was sold of mixed tanks by number, and leaves the rest', () => {
    // 100 of A1 among 400 fish; 200 sold, a quarter of them A1.
    const went = linesOf('A1', 'Went to');
    expect(went[0]).toMatch(/^2026-04-01: 200 fish .* sold from Tank 2, about 25 % of them/);
    expect(went.some((line) => line.includes('Nile tilapia from Tank 2'))).toBe(true);
    expect(went.at(-1)).toBe('About 50 fish of it are still in Tank 2.');
    expect(linesOf('B1', 'Went to')[0]).toMatch(/about 75 % of them/);
    // What is only planned went nowhere yet.
    expect(went.join()).not.toContain('2026-06-30');
  });
  it('has each feed of its days and tanks as one line', () => {
    expect(linesOf('A1', 'Feed')).toEqual([
      '2026-01-10 to 2026-01-11: 4.5 kg of crumble, lot 71 in Tank 1',
      '2026-03-10: 4 kg of a feed without a name in Tank 2',
    ]);
    expect(linesOf('B1', 'Feed')).toHaveLength(1);
  });
  it('has the tests and treatments of its days and tanks', () => {
    expect(linesOf('A1', 'Treatments')).toHaveLength(2);
    expect(linesOf('B1', 'Treatments').map((line) => line.slice(0, 10))).toEqual(['2026-05-29']);
    expect(linesOf('A1', 'Water in those days')).toEqual([
      '2026-02-16: pH 7',
      '2026-04-06: water 26 °C, ammonia-N 1.5 mg/L',
    ]);
  });
});

describe('a batch of plants', () => {
  it('is one in all its beds, whatever the case of its name', () => {
    expect(linesOf('L7', 'Was in')).toEqual([
      'Nursery: 2026-03-01 to 2026-03-22',
      `${bedA}: 2026-03-22 to 2026-04-24`,
      `${bedB}: 2026-03-22 to now`,
    ]);
  });
  it('names buyers, says where nobody wrote one down, and what was cut too soon', () => {
    const went = linesOf('L7', 'Went to');
    expect(went[0]).toBe(
      `2026-04-17: 80 pieces of lettuce from ${bedA} to Mill Lane shop, 1 EUR each! ${bedA} was treated with soap on 2026-04-10 and free from 2026-04-24 only`,
    );
    expect(went[1]).toContain('buyer not written down');
  });
  it('without a name of its own is called by day, crop and bed', () => {
    expect(linesOf(`2026-04-20 basil ${bedA}`, 'Went to')[0]).toContain('30 bunches of basil');
  });
});

describe('a day', () => {
  it('gives what went out first, then what came in', () => {
    expect(trace('2026-04-01', farm).tracks.map(({ name }) => name)).toEqual(['A1', 'B1']);
    expect(trace('24 April 2026', farm).tracks.map(({ name }) => name)).toEqual(['L7']);
  });
  it('without any entry names the nearest days', () => {
    expect(() => trace('2026-04-03', farm)).toThrow(/nearest days are 2026-04-02 and 2026-04-17/);
  });
});

it('suggests names close to an unknown one', () => {
  expect(() => trace('B2', farm)).toThrow(/near to it is "B1"/);
  expect(() => trace('zz', readFarm(base))).toThrow(NoSuchLot);
});

it('finds every sale of the example farm from its lot and from its day', () => {
  const example = readFarm(demoFarm);
  const found = new Set<string>();
  for (const lot of lotsOf(example))
    for (const { wentTo } of trace(lot, example).tracks)
      for (const { list, at } of wentTo) found.add(`${list} ${at}`);
  const sold = example.fishLog.flatMap(({ what, planned, date }, at) =>
    what === 'sold' && planned === undefined && date <= example.asOf ? [`fishLog ${at}`] : [],
  );
  const fish = example.harvests.flatMap(({ crop }, at) =>
    crop === 'Nile tilapia' ? [`harvests ${at}`] : [],
  );
  expect(sold.length).toBeGreaterThan(2);
  for (const row of [...sold, ...fish]) expect(found).toContain(row);
  for (const row of sold) {
    const at = Number(row.split(' ')[1]);
    const day = isoText(example.fishLog[at]?.date ?? 0);
    const went = trace(day, example).tracks.flatMap(({ wentTo }) => wentTo);
    expect(went.some((one) => one.list === 'fishLog' && one.at === at)).toBe(true);
  }
});

it('traces one of thousands of lots', () => {
  const many = Array.from({ length: 4000 }, (_, i) => ({
    date: isoText(45000 + Math.floor(i / 2)),
    tank: 'Tank 1',
    what: i % 2 === 0 ? ('stocked' as const) : ('sold' as const),
    fish: 10,
    ...(i % 2 === 0 && { weight: 300 }),
  }));
  const old = readFarm({ ...base, fishLog: many });
  expect(trace(`${isoText(46999)} Tank 1`, old).tracks).toHaveLength(1);
});
