import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heaviestFish } from '../../src/core/heaviest-fish';
import { callCard } from '../../src/functions/call';
import { findCard } from '../../src/functions/card-list';
import type { Argument } from '../../src/functions/parameter';
import { alternativesTo } from '../../src/size/alternatives';
import { propose } from '../../src/size/proposal';
import { partsOf } from '../../src/size/proposal-lines';
import { readWish } from '../../src/size/wish';
import { anyWish, wholeWish } from '../tools/any-wish';
import { smallestWish } from '../tools/smallest-wish';
import { howMany } from '../tools/how-many';
import { DAY, proposalFaults } from './wish-faults';

const sized = (json: object) => propose(readWish(json, DAY));
const says = (json: object, kind?: string): string =>
  sized(json)
    .remarks.filter((one) => kind === undefined || one.kind === kind)
    .map((one) => one.says)
    .join('\n');
const gill = (id: string, ...args: Argument[]): unknown =>
  callCard(findCard(id) as NonNullable<ReturnType<typeof findCard>>, args);

describe('the smallest wish', () => {
  const proposal = sized(smallestWish);
  const { fish, beds, feed, room } = proposal;

  it('comes out even, and says which wish gives way by how much', () => {
    expect(feed?.share).toBeCloseTo(1, 2);
    expect(says(smallestWish, 'gives way')).toMatch(
      /^The fish give way: 8\d\.\d kg a month instead of 100 kg a month \(1\d % less\)/,
    );
  });

  it('has the tanks, fish and feed that STOCK.ROTATION gives', () => {
    const rows = new Map(
      gill(
        'STOCK.ROTATION',
        fish?.kgPerMonth,
        600,
        50,
        27,
        'Nile tilapia',
        0.95,
        60,
        fish?.tanks.length,
      ) as [string, number][],
    );
    expect(fish?.stocked).toBe(rows.get('Fish to stock in a batch'));
    expect(fish?.meanFeed).toBe(rows.get('Mean feed, g/day'));
    expect(fish?.tanks[0]).toBeGreaterThanOrEqual(rows.get('Water for each batch, L') as number);
    expect(fish?.tanks[0]).toBeLessThan(1.12 * (rows.get('Water for each batch, L') as number));
  });

  it('has the beds that BED.AREA gives, and counts their feed as FEED.WANTED does', () => {
    const lettuce = beds.find(({ crop }) => crop === 'lettuce');
    const needed = gill('BED.AREA', 200, 'lettuce') as number;
    expect(lettuce?.area).toBeGreaterThanOrEqual(needed - 1e-9);
    expect(lettuce?.area).toBeLessThan(1.08 * needed);
    expect(lettuce?.feed).toBeCloseTo(
      gill('FEED.WANTED', lettuce?.area, 'lettuce', 'raft', 0.32) as number,
      6,
    );
  });

  it('has a filter for what the beds leave, and a sump, pump and air of its own', () => {
    const tan = gill('LOAD.TAN', fish?.peakFeed, 0.32) as number;
    expect(room?.filter.ammonia).toBeCloseTo(tan, 6);
    expect(room?.filter.media).toBeGreaterThan(0);
    expect(room?.pump.allFlow).toBe(fish?.tanks.reduce((sum, litres) => sum + litres, 0));
    expect(room?.sump?.sump).toBeGreaterThan(100);
    expect(room?.air?.perTank).toBeGreaterThan(0);
  });

  it('has two alternatives, each even and each changed in one thing', () => {
    const others = alternativesTo(proposal);
    expect(others.map(({ id }) => id)).toEqual(['fewer-tanks', 'gravel']);
    const [fewer, gravel] = others.map((one) => one.proposal);
    expect(fewer?.fish?.tanks.length).toBe(3);
    expect(fewer?.fish?.tanks[0]).toBeGreaterThan(fish?.tanks[0] as number);
    expect(gravel?.beds.every(({ kind }) => kind === 'gravel')).toBe(true);
    // Gravel calls for 45 g of feed where rafts take 80 (FEED.AREA), so that it goes with fewer fish.
    expect(gravel?.fish?.kgPerMonth).toBeLessThan(fish?.kgPerMonth as number);
    for (const { proposal: other } of others)
      expect(Math.abs((other.feed?.share ?? 0) - 1)).toBeLessThan(0.1);
  });

  it('gives a reason with every line', () => {
    const lines = partsOf(proposal).flatMap((part) => part.lines);
    expect(lines.length).toBeGreaterThan(15);
    expect(lines.filter(({ why }) => why.trim() === '')).toEqual([]);
  });
});

describe('what cannot be had is explained with figures', () => {
  it('fish for 5 m2 of beds', () => {
    // 200 lettuces take 43 m2; 23 take 5.
    const wish = { ...smallestWish, market: [{ crop: 'lettuce', unit: 'piece', perWeek: 23 }] };
    expect(sized(wish).beds[0]?.area).toBeCloseTo(5, 0);
    expect(says(wish, 'gives way')).toMatch(/The fish give way: 7\.\d+ kg a month instead of 100/);
    expect(Math.abs((sized(wish).feed?.share ?? 0) - 1)).toBeLessThan(0.1);
  });

  it('beds for too few fish', () => {
    const wish = { ...smallestWish, fish: { species: 'Nile tilapia', kgPerMonth: 40 } };
    expect(says(wish, 'gives way')).toMatch(/The market gives way: 5\d % less of each crop/);
    expect(Math.abs((sized(wish).feed?.share ?? 0) - 1)).toBeLessThan(0.1);
    expect(sized(wish).fish?.kgPerMonth).toBe(40);
  });

  it('both, when both are fixed', () => {
    const wish = { ...smallestWish, choices: { excess: 'stays' } };
    expect(sized(wish).fish?.kgPerMonth).toBe(100);
    expect(says(wish)).toMatch(/Both wishes stay, and are not even: .* 20 % of it more/);
  });

  it('crops that the months do not allow', () => {
    const wish = { ...smallestWish, coldest: 26, warmest: 29, heated: false };
    expect(says(wish, 'gives way')).toMatch(
      /Lettuce is left out: it takes 8 °C to 24 °C of mean air, and no month of yours lies there \(26 °C to 29 °C\)/,
    );
    expect(sized(wish).crops.map(({ crop }) => crop)).toEqual(['basil']);
  });

  it('crops in part of the year', () => {
    expect(says(smallestWish, 'note')).toMatch(/Basil takes .*: sell it in 9 months of the year/);
  });

  it('crops that grow in no bed', () => {
    const wish = { ...smallestWish, market: [{ crop: 'microgreens', unit: 'kg', perWeek: 3 }] };
    expect(says(wish, 'gives way')).toMatch(/Microgreens is left out: it grows in trays/);
  });

  it('species in water too cold or too warm for them', () => {
    const cold = { ...smallestWish, heated: false, coldest: 8 };
    expect(says(cold, 'gives way')).toMatch(
      /Nile tilapia does not live below 14 °C, and the coldest month has water of 8 °C/,
    );
    expect(sized(cold).fish).toBeUndefined();
    const warm = { ...smallestWish, fish: { species: 'rainbow trout', kgPerMonth: 50 } };
    expect(says(warm, 'gives way')).toMatch(/rainbow trout does not live above .* water of 27 °C/);
  });

  it('fish heavier than any that is published (FishBase: rainbow trout 25.4 kg)', () => {
    const soldAt = (species: string, harvestWeight: number): string =>
      says(
        {
          ...smallestWish,
          coldest: 8,
          warmest: 18,
          heated: species !== 'rainbow trout',
          fish: { species, kgPerMonth: 100 },
          choices: { harvestWeight },
        },
        'note',
      );
    expect(soldAt('Nile tilapia', 50_000)).toMatch(
      /No Nile tilapia of 50,000 g is known: the heaviest published weigh about 5,000 g.* \(usual: 600 g\)/,
    );
    expect(soldAt('rainbow trout', 25_500)).toMatch(/No rainbow trout of/);
    expect(soldAt('rainbow trout', 25_400)).not.toMatch(/is known/);
    for (const [name, [grams]] of heaviestFish)
      expect(grams, name).toBeGreaterThan(2 * Number(gill('FACT.FISH', name, 'harvest weight')));
  });

  it('American units throughout', () => {
    const wish = {
      ...smallestWish,
      units: 'US',
      coldest: 54,
      warmest: 80,
      fish: { species: 'Nile tilapia', lbPerMonth: 220 },
    };
    const words = [
      says(wish),
      ...partsOf(sized(wish)).flatMap(({ lines }) => lines.map((one) => one.says)),
    ].join(' ');
    expect(words).toMatch(/lb a month/);
    expect(words).not.toMatch(/\bkg\b|\d L\b|°C|m²/);
  });
});

describe('a wish with gaps', () => {
  it('without an amount of fish the beds determine it', () => {
    const wish = { ...smallestWish, fish: { species: 'Nile tilapia' } };
    expect(sized(wish).feed?.share).toBeCloseTo(1, 1);
    expect(says(wish)).toMatch(/The beds say how much fish: 8\d\.\d kg a month/);
  });

  it('without a market the feed determines the beds', () => {
    const { beds, feed } = sized({ ...smallestWish, market: [] });
    expect(beds).toHaveLength(1);
    expect(beds[0]?.crop).toBeUndefined();
    expect(feed?.share).toBeCloseTo(1, 1);
    expect(says({ ...smallestWish, market: [] }, 'missing')).toMatch(/What does the market want/);
  });

  it.each(['latitude', 'coldest', 'heated', 'fish'] as const)(
    'without %s it asks for it and sizes no fish',
    (answer) => {
      const wish = Object.fromEntries(
        Object.entries(smallestWish).filter(([key]) => key !== answer),
      );
      expect(sized(wish).fish).toBeUndefined();
      expect(says(wish, 'missing')).not.toBe('');
      // Beds need neither.
      expect(sized(wish).beds.length).toBeGreaterThan(0);
    },
  );
});

describe('what is there', () => {
  const tropics = { ...smallestWish, latitude: 17.7, coldest: 25, warmest: 28 };

  it('says what tanks can sell: four of 7.8 m3 of the published raft system', () => {
    // Rakocy, Bailey, Shultz & Thoman 2004: 4,160 kg of Nile tilapia a year, harvested at 61.5 kg/m3 and 814 g.
    const wish = {
      ...tropics,
      market: [],
      fish: { species: 'Nile tilapia' },
      have: ['4 tanks of 7.8 m3'],
      choices: { startWeight: 79.2, harvestWeight: 813.8 },
    };
    const a_year = 12 * (sized(wish).fish?.kgPerMonth ?? 0);
    expect(a_year / 4160).toBeGreaterThan(0.85);
    expect(a_year / 4160).toBeLessThan(1.15);
  });

  it('says what beds can sell, and which of tanks and beds is too much', () => {
    const wish = {
      ...tropics,
      fish: { species: 'Nile tilapia' },
      market: [{ crop: 'basil', unit: 'bunch', perWeek: 1 }],
      have: ['40 tanks of 7.8 m3', '24 rafts of 7.2 x 1.2 m'],
    };
    const { crops, beds, feed } = sized(wish);
    expect(beds).toMatchObject([{ count: 24, kind: 'raft' }]);
    // BED.AREA the other way round.
    const area = gill('BED.AREA', 1, 'basil') as number;
    expect(crops[0]?.perWeek).toBeCloseTo(((24 * 7.2 * 1.2) / area) * 3.6, 6);
    expect(says(wish, 'gives way')).toMatch(/The fish give way/);
    expect(Math.abs((feed?.share ?? 0) - 1)).toBeLessThan(0.1);
  });

  it('has no other tanks or beds to offer', () => {
    const wish = { ...tropics, have: ['4 tanks of 7.8 m3', '24 rafts of 7.2 x 1.2 m'] };
    expect(alternativesTo(sized(wish))).toEqual([]);
  });
});

describe('random wishes', () => {
  it.each([
    ['with every answer', wholeWish],
    ['with some answers', anyWish],
  ] as const)('%s: even or said why not, never NaN, never a throw', (_, wish) => {
    fc.assert(
      fc.property(wish as fc.Arbitrary<object>, (json) => {
        expect(proposalFaults(json)).toEqual([]);
      }),
      { numRuns: howMany(10, 25) },
    );
  });
});

describe('at both ends of what a farm can be', () => {
  const cold = { ...smallestWish, latitude: 65, coldest: -28, warmest: 14 };

  it('sizes a heated farm where the mean of a month is -28 °C', () => {
    const { fish, room } = sized(cold);
    expect(fish?.kgPerMonth).toBeGreaterThan(0);
    expect(room?.sump).toBeDefined();
  });

  it('advises warmth where it is too cold, and cooling where it is too hot', () => {
    const trout = { species: 'rainbow trout', kgPerMonth: 100 };
    expect(says({ ...cold, heated: false, fish: trout })).toMatch(
      /does not live below 1 °C.*Heat the water/,
    );
    const hot = says({ ...smallestWish, coldest: 33, warmest: 42, heated: false, fish: trout });
    expect(hot).toMatch(/does not live above 24 °C.*Keep house and water cooler/);
    expect(hot).not.toMatch(/Heat the water/);
  });

  it('counts few fish as fish, and lists no more weights than it says', () => {
    const few = { ...smallestWish, fish: { species: 'Nile tilapia', kgPerMonth: 2 }, market: [] };
    expect(says(few)).toMatch(/A batch is \d fish: too few/);
    const many = { ...smallestWish, choices: { tanks: 52 } };
    const stages = partsOf(sized(many))
      .flatMap(({ lines }) => lines)
      .find(({ what }) => what === 'Stages');
    expect(stages?.says).toMatch(/ and so on up to 5\d\d g in the tanks/);
  });

  it('says of 60 tanks and 400 rafts that are there what the feed is enough for', () => {
    const there = {
      ...smallestWish,
      fish: { species: 'Nile tilapia' },
      have: ['60 tanks of 8 m3', '400 rafts of 12 x 1.2 m'],
    };
    const proposal = sized(there);
    const share = proposal.feed?.share as number;
    expect(share).toBeLessThan(0.9);
    expect(says(there)).toMatch(/tanks and beds that are there do not come out even/);
    expect(says(there)).not.toMatch(/the farm is small/);
    for (const { what, why } of partsOf(proposal).flatMap(({ lines }) => lines))
      if (what.startsWith('Sells')) expect(why).toMatch(/could give .* a week; the feed is enough/);
  });
});
