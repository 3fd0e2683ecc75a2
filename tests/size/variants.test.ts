import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computedValues } from '../../src/engine/engine';
import { openBook } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import type { SnapshotValue } from '../../src/plan/book-snapshot';
import { demoFarm } from '../../src/plan/demo-farm';
import { withFreeNames } from '../../src/plan/free-names';
import type { SheetModel } from '../../src/plan/workbook-model';
import { readFarm } from '../../src/plan/farm';
import type { ComputedValues } from '../../src/plan/computed-values';
import { planWorkbook } from '../../src/plan/plan';
import { wrappedHeight } from '../../src/plan/row-height';
import { type QuantityId, toMetric, toShown } from '../../src/plan/quantities';
import { growingAir } from '../../src/core/season-limits';
import { ask } from '../../src/size/ask-functions';
import { cropNamed } from '../../src/size/bed-size';
import {
  buildingCost,
  heatOf,
  monthlyCosts,
  powerOf,
  workOf,
} from '../../src/size/costs-of-proposal';
import { farmOfProposal } from '../../src/size/farm-of-proposal';
import { propose, type Proposal } from '../../src/size/proposal';
import { partsOf } from '../../src/size/proposal-lines';
import { readVariants, WrongVariants } from '../../src/size/read-variants';
import { variantsOf, variantsOfFarm, wishOfFarm } from '../../src/size/variants';
import { FIRST, variantsWorkbook } from '../../src/size/variants-sheet';
import { readWish, type Wish } from '../../src/size/wish';
import { figuresOf } from '../plan/plan-figures';
import { wholeWish } from '../tools/any-wish';
import { cutOff } from '../tools/cut-off';
import { sampleFarm } from '../tools/farms';
import { recalculated } from '../tools/libreoffice';
import { columnPixels } from '../tools/text-width';
import { smallestWish } from '../tools/smallest-wish';
import { few, howMany } from '../tools/how-many';
import { DAY } from './wish-faults';

const priced = {
  ...smallestWish,
  altitude: 300,
  market: [
    { crop: 'lettuce', unit: 'piece', perWeek: 200, price: 1.1, bed: 'raft' },
    { crop: 'tomato', unit: 'kg', perWeek: 30, price: 3, bed: 'gravel' },
  ],
  prices: {
    feed: 1.7,
    fish: 8,
    fingerling: 0.4,
    power: 0.3,
    heat: 0.08,
    work: 20,
    tanks: 0.3,
    raft: 90,
    gravel: 110,
    film: 60,
    media: 0.5,
    rest: 4000,
  },
  work: { tank: 2, bed: 0.1 },
  years: 10,
  otherCosts: 150,
  choices: { excess: 'stays' },
};
const cheap = { ...priced.prices, heat: 0, work: 0, power: 0.1, rest: 0 };
const inUS = {
  ...priced,
  units: 'US',
  altitude: 1000,
  coldest: 54,
  warmest: 80,
  fish: { species: 'Nile tilapia', lbPerMonth: 220 },
  work: { tank: 2, bed: 0.01 },
};

/** Fish that die, grow and eat otherwise than is usual. */
const ownFish = { ...priced.choices, survival: 0.82, coefficient: 1.15, conversion: 1.9 };
const ownInUS = { ...inUS, choices: ownFish };

/** Pixels of the grid's column of row numbers. */
const ROW_NUMBERS = 48;

type Rows = readonly (readonly SnapshotValue[])[];
const rowsOf = (wish: Wish, mode: 'live' | 'plain' = 'live'): Rows => {
  const model = variantsWorkbook(variantsOf(wish), mode);
  const book = openBook(writeXlsx(model, computedValues(model)));
  return book.sheets[0]?.values ?? [];
};
/** What a line shows for a variant, from 1. */
const shows = (rows: Rows, label: string, variant: number): SnapshotValue | undefined =>
  rows.find((cells) => cells[0] === label && cells.length > 1)?.[FIRST + variant - 1];

/** What the sheet shows of a farm and what the proposal has, side by side. */
function figures(proposal: Proposal) {
  const { fish, room, feed, beds } = proposal;
  const on = (kind: string): number =>
    beds.reduce((all, bed) => (bed.kind === kind ? all + bed.area : all), 0);
  return [
    ['Fish to sell', 'massMonth', fish?.kgPerMonth],
    ['Fish just before a harvest', 'mass', fish?.standing],
    ['Feed in the mean of the year', 'feedDay', fish?.meanFeed],
    ['Feed that the beds call for', 'feedDay', feed?.wanted],
    ['Feed over what the beds call for', 'share', feed?.share],
    ['Fingerlings a year', 'count', fish?.fingerlings],
    ['Water in each tank', 'volume', fish?.tanks[0]],
    ['Rafts', 'area', on('raft')],
    ['Gravel beds', 'area', on('gravel')],
    ['Film channels', 'area', on('film')],
    ['Water in all', 'volume', room?.sump?.total],
    ['Sump', 'volume', room?.sump?.sump],
    ['Filter media', 'volume', room?.filter.media],
    ['Settlers', 'area', room && (room.filter.settler ?? 0)],
    ['Flow of the pumps', 'flow', room?.pump.allFlow],
    ['Air for each tank', 'airFlow', room?.air?.perTank],
    ['Power of pumps and blower', 'power', room?.air && room.pump.watts + room.air.blower],
    ['Power a year', 'energy', powerOf(proposal)],
    ['Heat of the tanks a year, as if all were bought', 'energy', heatOf(proposal)],
    ['Work a week', 'hours', workOf(proposal)],
    ['To build, as far as priced', 'number', buildingCost(proposal)],
  ] as const;
}

/** Where sheet and proposal do not say the same. */
function differences(rows: Rows): string[] {
  return readVariants(rows).flatMap(({ name, wish: file }, i) => {
    const wish = readWish(file, DAY);
    return figures(propose(wish)).flatMap(([label, quantity, is]) => {
      const shown = shows(rows, label, i + 1);
      if (is === undefined) return [];
      const value = typeof shown === 'number' ? toMetric(shown, quantity, wish.units) : NaN;
      const near = Math.abs(value - is) <= 1e-6 * Math.max(1, Math.abs(is));
      return near ? [] : [`${name}, ${label}: ${String(shown)}, proposal ${is}`];
    });
  });
}

describe('variants side by side', () => {
  it.each(
    few(2, [
      ['a wish in US units, of fish of another growth', readWish(ownInUS, DAY)],
      ['beds alone', readWish({ ...priced, fish: { species: 'common carp' }, heated: false }, DAY)],
      ['what the demo plan wants', wishOfFarm(readFarm(demoFarm))],
      ['a wish', readWish(priced, DAY)],
    ] as const),
  )('say the same of %s as the proposal that each becomes', (_, wish) => {
    const rows = rowsOf(wish);
    expect(readVariants(rows).length).toBeGreaterThan(1);
    expect(differences(rows)).toEqual([]);
  });

  it('agree on random wishes as well', () => {
    fc.assert(
      fc.property(wholeWish, (json) => {
        const wish = readWish(json, DAY);
        // What cannot be had at all has no figures to compare.
        const { fish, crops } = propose(wish);
        if (fish === undefined || crops.length === 0) return;
        expect(differences(rowsOf(wish))).toEqual([]);
      }),
      { numRuns: howMany(1, 3) },
    );
  });

  it('becomes a plan that shows the same figures', () => {
    const rows = rowsOf(readWish({ ...priced, choices: ownFish }, DAY));
    const [, second] = readVariants(rows);
    const proposal = propose(readWish(second?.wish, DAY));
    const farm = readFarm(farmOfProposal(proposal));
    const plan = figuresOf(planWorkbook(farm, { formulas: 'live' }));
    const { startWeight = NaN, harvestWeight = NaN, water = NaN } = proposal.fish ?? {};
    expect(plan.number('Stock_days')).toBeCloseTo(
      ask('GROWTH.DAYS', startWeight, harvestWeight, water, 'Nile tilapia', ownFish.coefficient),
      6,
    );
    expect(farm.name).toBe('My farm');
    const named = { ...wishOfFarm(farm), name: 'Reedholm' };
    const back = rowsOf(named);
    expect(readWish(readVariants(back)[0]?.wish, DAY).name).toBe('Reedholm');
    for (const label of ['Rotation: days in the tank', 'Fish that live', 'Feed over the usual'])
      expect(shows(back, label, 1), label).toBeCloseTo(Number(shows(rows, label, 2)), 9);
    const otherwise = { ...farm, crops: { tomato: { plants_per_m2: 3 } } };
    expect(variantsOfFarm(otherwise).remarks).toEqual({
      crops:
        "The plan's own days, spacings and losses of tomato do not count here, those of the table do.",
    });
    expect(shows(back, 'Fish that live', 1)).toBe(plan.number('Stock_survival_counts'));
    const total = (name: string): number => plan.numbers(name).reduce((a, b) => a + b, 0);
    const same = (label: string, is: number): void =>
      expect(shows(rows, label, 2), label).toBeCloseTo(is, 3);
    same('Fish to sell', plan.number('Stock_wanted'));
    same('Rotation: days in the tank', plan.number('Stock_days'));
    same('Fingerlings a year', plan.number('Stock_fingerlings'));
    same('Water in the tanks', plan.number('Stock_litres'));
    same('Feed that the beds call for', total('Beds_feed_full'));
    same('All beds', total('Beds_area'));
    same('Flow of the pumps', total('Pumps_turnover'));
    same('Power of the pumps', total('Pumps_power'));
    same('Water in all', plan.number('Water_total'));
    same('Filter media', plan.number('Filter_media'));
    same('Sump', plan.number('Sump_volume'));
    same('Feed in the mean of the year', plan.number('Stock_feed'));
    expect(sameMoney(rows, 2, plan)).toMatch(/^It does not pay: \d+ EUR a year are missing\.$/);
    same('Fingerlings', 12 * (plan.numbers('Money_direct')[1] ?? NaN));
    expect(moneyOf(rows, 'Feed', 2)).toBeCloseTo(12 * (plan.numbers('Money_direct')[0] ?? NaN), 3);
    const listed = ['Power', 'Heat', 'Work', 'Wear of what was built', 'All other costs'];
    const costs = listed.reduce((all, label) => all + Number(moneyOf(rows, label, 2)), 0);
    expect(12 * total('Money_shared')).toBeCloseTo(costs, 0);
    expect(monthlyCosts(proposal).length).toBe(5);
    // All else that is built has no item of its own in the plan.
    expect(plan.number('Plant_price_all') + priced.prices.rest).toBeCloseTo(
      Number(shows(rows, 'To build, as far as priced', 2)),
      2,
    );
  });

  it.each([
    ['pays', { ...priced, otherCosts: 0, prices: cheap }, /^It pays: .* are left\.$/],
    [
      'would pay if every crop grew all year, in US units',
      { ...inUS, coldest: 43, otherCosts: 0, prices: { ...cheap, fish: 4 } },
      /^It does not pay: .* If every crop grew and sold in every week/,
    ],
    [
      'has a price open',
      { ...priced, prices: { ...priced.prices, feed: undefined } },
      /stays open/,
    ],
  ])('and its plan say the same of money, in words too: one that %s', (_, json, says) => {
    const rows = rowsOf(readWish(json, DAY));
    const [first] = readVariants(rows);
    const farm = readFarm(farmOfProposal(propose(readWish(first?.wish, DAY))));
    expect(sameMoney(rows, 1, figuresOf(planWorkbook(farm, { formulas: 'plain' })))).toMatch(says);
  });

  it('breaks even at the least prices that it states, and no lower', () => {
    const rows = rowsOf(readWish(priced, DAY));
    const least = Number(shows(rows, 'Least price of fish at which it pays', 1));
    const lettuce = Number(shows(rows, 'Least price of lettuce at which it pays', 1));
    const market = priced.market.map((crop, i) => (i === 0 ? { ...crop, price: lettuce } : crop));
    const left = (json: object): number =>
      Number(moneyOf(rowsOf(readWish(json, DAY)), 'Left in a year'));
    expect(left({ ...priced, prices: { ...priced.prices, fish: least } })).toBeCloseTo(0, 4);
    expect(left({ ...priced, market })).toBeCloseTo(0, 4);
  });

  it.each([
    ['metric', priced],
    ['US', inUS],
  ])('counts the money of a year as somebody does by hand, in %s units', (_, json) => {
    const wish = readWish(json, DAY);
    const rows = rowsOf(wish);
    const { prices, units } = wish;
    const { air } = propose(wish).climate;
    const WEEKS = 365.25 / 7;
    readVariants(rows).forEach(({ wish: typed }, i) => {
      const { market } = readWish(typed, DAY);
      const shown = (label: string): number =>
        Number(moneyOf(rows, label, i + 1) ?? shows(rows, label, i + 1));
      const amount = (label: string, quantity: QuantityId): number =>
        toMetric(Number(shows(rows, label, i + 1)), quantity, units);
      const price = (value: number | undefined): number => value ?? NaN;
      const near = (label: string, is: number): void => {
        expect(Math.abs(shown(label) - is), label).toBeLessThan(1e-3 * Math.max(1, Math.abs(is)));
      };
      const build =
        amount('Water in the tanks', 'volume') * price(prices.tanks) +
        amount('Rafts', 'area') * price(prices.raft) +
        amount('Gravel beds', 'area') * price(prices.gravel) +
        amount('Filter media', 'volume') * price(prices.media) +
        price(prices.rest);
      const fish = 12 * amount('Fish to sell', 'massMonth');
      const costs = {
        Feed:
          (amount('Feed in the mean of the year', 'feedDay') / 1000) * 365.25 * price(prices.feed),
        Fingerlings: amount('Fingerlings a year', 'count') * price(prices.fingerling),
        Power: amount('Power a year', 'energy') * price(prices.power),
        Heat:
          amount('Heat of the tanks a year, as if all were bought', 'energy') * price(prices.heat),
        Work: amount('Work a week', 'hours') * WEEKS * price(prices.work),
        'Wear of what was built': build / price(wish.years),
        'All other costs': 12 * price(wish.otherCosts),
      };
      const all = Object.values(costs).reduce((sum, one) => sum + one, 0);
      const sold = market.map(({ crop, perWeek, price }) => {
        const [min, max] = growingAir(cropNamed(crop));
        const months = (air ?? []).filter((degrees) => degrees >= min && degrees <= max).length;
        return { months, year: Number(perWeek) * Number(price) * WEEKS };
      });
      const crops = sold.reduce((sum, { year }) => sum + year, 0);
      near('To build, as far as priced', build);
      near('Fish bring', fish * price(prices.fish));
      const grown = sold.reduce((sum, { year, months }) => sum + (year * months) / 12, 0);
      const share = (sold[0]?.months ?? NaN) / 12;
      near('Crops would bring, sold in every week', crops);
      near('Crops bring in the months in which they grow', grown);
      for (const [label, cost] of Object.entries(costs)) near(label, cost);
      near('All costs', all);
      near('Left in a year', fish * price(prices.fish) + grown - all);
      near(
        'Least price of fish at which it pays',
        toShown(Math.max(0, (all - grown) / fish), 'pricePerMass', units),
      );
      near(
        'Least price of lettuce at which it pays',
        Math.max(
          0,
          (all - fish * price(prices.fish) - grown + share * (sold[0]?.year ?? NaN)) /
            (Number(market[0]?.perWeek) * WEEKS * share),
        ),
      );
    });
  });

  it('says which bed a crop does not grow in', () => {
    const rows = rowsOf(readWish(priced, DAY)).map((cells) =>
      cells[0] === 'Crop 2 stands on'
        ? cells.map((cell, c) => (c === FIRST ? 'film' : cell))
        : cells,
    );
    expect(() => readVariants(rows)).toThrow(WrongVariants);
    expect(() => readVariants(rows)).toThrow(/tomato grows in/);
  });

  it('names the first column for what it holds, and says what was wished', () => {
    const first = (json: object) => {
      const { list, remarks } = variantsOf(readWish({ ...smallestWish, ...json }, DAY));
      return [list[0]?.name, remarks.fish, remarks.crops];
    };
    const below = 'Below stands what comes out of it.';
    const lettuce = [{ crop: 'lettuce', unit: 'piece', perWeek: 250 }];
    expect(first({ market: lettuce, choices: { excess: 'stays' } })[0]).toBe('As wished');
    expect(first({ market: lettuce, fish: { species: 'Nile tilapia', kgPerMonth: 2 } })).toEqual([
      'From the wish',
      undefined,
      `Wished: lettuce 250 pieces a week. ${below}`,
    ]);
    expect(first({ market: lettuce })).toEqual([
      'From the wish',
      `Wished: 100 kg a month. ${below}`,
      undefined,
    ]);
  });

  it('says of the one that is chosen how warm its water is held', () => {
    const [first] = readVariants(rowsOf(readWish(priced, DAY)));
    const lines = partsOf(propose(readWish(first?.wish, DAY))).flatMap((part) => part.lines);
    expect(lines.find(({ what }) => what === 'Water')?.says).toBe('held at 27 °C or warmer');
  });

  it('leaves room for what limits a variant before anything is computed', () => {
    const model = variantsWorkbook(variantsOf(readWish(smallestWish, DAY)), 'live');
    const [sheet] = model.sheets;
    const row = sheet?.rows.findIndex(([label]) => label?.value === 'In words') ?? -1;
    const height = (contents: ComputedValues): number =>
      (sheet && wrappedHeight(sheet, row, contents)) ?? 0;
    const words = height(computedValues(model));
    expect(words).toBeGreaterThan(100);
    expect(height(() => undefined)).toBeGreaterThanOrEqual(words);
  });

  it('shows on a telephone a variant beside its labels, and cuts nothing off', () => {
    const model = variantsWorkbook(variantsOfFarm(sampleFarm('larkfield-school')), 'live');
    const [sheet] = model.sheets as [SheetModel, ...SheetModel[]];
    const values = computedValues(model);
    expect(cutOff(sheet, (row, column) => values(sheet.name, row, column))).toEqual([]);
    expect(sheet.frozen.columns).toBe(1);
    const [label = 0, , first = 0] = sheet.columnWidths;
    expect(ROW_NUMBERS + columnPixels(label) + columnPixels(first)).toBeLessThanOrEqual(320);
  });

  it('leaves a plan in the same workbook its names, by which its farm is read', () => {
    const { sheets, names } = variantsWorkbook(variantsOf(readWish(priced, DAY)), 'plain');
    const plan = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'live' });
    const nameOf = ({ name }: { readonly name: string }): string => name;
    const taken = {
      sheets: sheets.map(nameOf),
      names: [...names, ...sheets.flatMap(({ tables }) => tables)].map(nameOf),
    };
    expect(taken.names.length).toBeGreaterThan(20);
    expect(withFreeNames(plan, taken)).toBe(plan);
  });

  it('keeps blank columns blank', () => {
    const rows = rowsOf(readWish(priced, DAY));
    const blank = rows
      .flatMap((cells) => cells.slice(FIRST + 4, FIRST + 5))
      .filter((one) => one !== '');
    expect(blank).toEqual([]);
  });

  it('shows the same in plain formulas, and in LibreOffice', async () => {
    const live = rowsOf(readWish(ownInUS, DAY));
    const model = variantsWorkbook(variantsOf(readWish(ownInUS, DAY)), 'plain');
    const bytes = writeXlsx(model, computedValues(model));
    const office = (await recalculated(new Map([['variants.xlsx', bytes]]))).get('variants.xlsx');
    const plain = openBook(bytes).sheets[0]?.values ?? [];
    let compared = 0;
    live.forEach((cells, row) =>
      cells.slice(0, FIRST + 5).forEach((cell, column) => {
        const there = [plain[row]?.[column], office?.('Variants', row, column)];
        for (const other of there) {
          if (typeof cell === 'number') {
            compared += 1;
            expect(other, `${cells[0]} ${column}`).toBeCloseTo(cell, 4);
          } else expect(other ?? '', `${cells[0]} ${column}`).toBe(cell);
        }
      }),
    );
    expect(compared).toBeGreaterThan(500);
  });
});

/** Holds the money of a variant and of its plan to each other; returns what both say in words. */
function sameMoney(rows: Rows, variant: number, plan: ReturnType<typeof figuresOf>): string {
  const figures = [
    ['Fish bring', 'Money_fish_year'],
    ['Crops bring in the months in which they grow', 'Money_crop_year'],
    ['Crops would bring, sold in every week', 'Money_crop_weeks'],
    ['All costs', 'Money_cost_year'],
    ['Left in a year', 'Money_left'],
  ] as const;
  for (const [label, name] of figures) {
    const shown = moneyOf(rows, label, variant);
    if (shown === '') expect(plan.all(name), label).toEqual(['']);
    else expect(Math.abs(Number(shown) - plan.number(name)), label).toBeLessThan(0.05);
  }
  const verdict =
    /(?:It pays|It does not pay|Whether it pays).*?(?= The fish pay| The crops carry|$)/;
  const [ofVariant, ofPlan] = [shows(rows, 'In words', variant), plan.all('Money_verdict')[0]].map(
    (says) => verdict.exec(String(says))?.[0],
  );
  expect(ofVariant).toBe(ofPlan);
  return ofPlan ?? '';
}

const moneyOf = (rows: Rows, label: string, variant = 1): SnapshotValue | undefined =>
  rows.find((cells) => cells[0] === label && String(cells[1]).endsWith('a year'))?.[
    FIRST + variant - 1
  ];
