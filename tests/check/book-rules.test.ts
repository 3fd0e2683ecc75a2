import { describe, expect, it } from 'vitest';
import { bookRules, unreadableCells } from '../../src/check/book-rules';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { registerNames, type RegisterList } from '../../src/records/register-row';
import type { TypedPlace } from '../../src/plan/read-book';

const registerLists = Object.keys(registerNames) as RegisterList[];
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
  for (const list of registerLists)
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

describe('rows that fit ill to the others', () => {
  const lettuce = { crop: 'lettuce', bed: 'R01', plants: 80 };
  const sale = { crop: 'lettuce', quantity: 3, unit: 'piece', price: 1 };
  const bath = { date: '2026-04-12', what: 'a bath', wait: 3 };
  it.each([
    [
      'sold in advance, more than there will be',
      { fishLog: [{ date: '2026-05-01', tank: 'Tank 1', what: 'sold', fish: 500 }] },
      /Tank 1 holds 300 fish on 2026-05-01; 500 cannot leave it/,
    ],
    [
      'moved in advance from an empty tank',
      { fishLog: [{ date: '2026-05-01', tank: 'Tank 3', what: 'sold', fish: 5 }] },
      /Tank 3 holds no fish on 2026-05-01/,
    ],
    [
      'of a lot that is elsewhere',
      { fishLog: [{ date: '2026-03-20', tank: 'Tank 2', what: 'died', fish: 1, lot: 'B' }] },
      /Tank 2 holds no fish of lot "B" on 2026-03-20; its fish are of A/,
    ],
    [
      'stocked twice',
      {
        fishLog: [
          { date: '2026-03-01', tank: 'Tank 1', what: 'stocked', fish: 400, weight: 150, lot: 'A' },
        ],
      },
      /the same of 2026-03-01 stands in a line above/,
    ],
    [
      'ten times the plants',
      { plantings: [{ ...lettuce, plants: 1700, planted: '2026-03-02' }] },
      /1700 plants of lettuce in R01, which has room for \d+/,
    ],
    [
      'a third half of a bed',
      {
        plantings: [2, 3, 4].map((day) => ({ ...lettuce, planted: `2026-03-0${day}` })),
      },
      /R01 has no room left on 2026-03-04: .* were not cleared/,
    ],
    [
      'planted over what stands there since before another batch',
      {
        plantings: [
          { ...lettuce, planted: '2026-03-01' },
          { ...lettuce, planted: '2026-03-02', cleared: '2026-03-20' },
          { ...lettuce, plants: 170, planted: '2026-03-25' },
        ],
      },
      /R01 has no room left on 2026-03-25: 2026-03-01 lettuce R01 was not cleared/,
    ],
    [
      'sold from no place',
      { harvests: [{ ...sale, date: '2026-04-01', bed: 'R1' }] },
      /there is no bed or tank called "R1"; the nearest name is "R01"/,
    ],
    [
      'sold from a bed of another crop',
      {
        plantings: [{ ...lettuce, crop: 'basil', planted: '2026-03-01' }],
        harvests: [{ ...sale, date: '2026-04-01', bed: 'r01' }],
      },
      /r01 held basil on 2026-04-01, not lettuce/,
    ],
    [
      'a plant sold from a tank',
      { harvests: [{ ...sale, date: '2026-04-01', bed: 'Tank 1' }] },
      /Tank 1 is a tank of Nile tilapia, and lettuce was sold from it/,
    ],
    [
      'sold before its day',
      { harvests: [{ ...sale, date: '2026-05-01' }] },
      /sold on 2026-05-01, a day still to come/,
    ],
    [
      'more heads than there were plants',
      {
        plantings: [{ ...lettuce, planted: '2026-03-01' }],
        harvests: [1, 2, 3].map((day) => ({
          ...{ ...sale, quantity: 30, bed: 'R01' },
          date: `2026-04-0${day}`,
        })),
      },
      /90 pieces were sold of 80 plants of lettuce in R01/,
    ],
    [
      'tested before its day',
      { waterTests: [{ date: '2026-05-01', ph: 7 }] },
      /tested on 2026-05-01, a day still to come/,
    ],
    [
      'treated where nothing is',
      { treatments: [{ ...bath, where: 'Tank l' }] },
      /there is no tank or bed called "Tank l"; .*nothing waits for this treatment/,
    ],
  ])('%s are named', (_, changed: Readonly<Record<string, readonly object[]>>, what) => {
    const beds = [{ name: 'R01', kind: 'raft', length: 7.2, width: 1.2 }];
    const empty = { beds, plantings: [], harvests: [], feedLog: [], waterTests: [] };
    const stocked = [
      { date: '2026-03-01', tank: 'Tank 1', what: 'stocked', fish: 400, weight: 150, lot: 'A' },
      { date: '2026-03-12', tank: 'Tank 1', what: 'moved', fish: 100, toTank: 'Tank 2' },
    ];
    expect(foundIn({ ...empty, fishLog: stocked })).toEqual([]);
    const fishLog = [...stocked, ...(changed['fishLog'] ?? [])];
    const found = foundIn({ ...empty, ...changed, fishLog });
    expect(found.map((finding) => finding.what)).toEqual([expect.stringMatching(what)]);
  });
});

it('cells that cannot be read are named, each with its label', () => {
  const faults = [
    { sheet: 'Harvest log', row: 6, column: 3, label: 'How many', says: '', what: 'is text.' },
    { says: 'a sheet is missing', what: 'a sheet is missing' },
  ];
  expect(unreadableCells({ faults })).toMatchObject([
    { level: 'watch', sheet: 'Harvest log', address: 'D7', what: 'How many is text.' },
  ]);
});
