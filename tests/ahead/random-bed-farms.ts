import { crops } from '../../src/core/tables/crops';
import { isoText } from '../../src/core/serial-date';
import { type Farm, readFarm } from '../../src/plan/farm';
import { MONDAY } from './small-seasons';

/** Numbers from 0 to 1 that follow from a seed (a linear congruence), so that a farm can be made again. */
function fromSeed(seed: number): () => number {
  let state = (seed * 2654435761 + 12345) >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/**
 * Rows of the Plantings by chance: batches side by side in a bed, batches to come that the grower typed, seedlings
 * without a bed, rows that were answered.
 */
function randomRows(
  beds: readonly { readonly name: string; readonly length: number; readonly width: number }[],
  { chance, whole, pick }: Chance,
): object[] {
  return beds.flatMap(({ name, length, width }): object[] => {
    const roll = chance();
    const { name: crop, facts } = pick(crops);
    const room = Math.floor(length * width * facts.plants_per_m2[0]);
    const out = MONDAY + whole(-20, 60);
    const row = { crop, bed: name, sown: isoText(out - 30), planted: isoText(out) };
    const planned = out > MONDAY ? { planned: 'planned' } : {};
    if (roll < 0.3) return [];
    if (roll < 0.5) return [{ ...row, ...planned, plants: Math.max(1, room) }];
    if (roll < 0.7) {
      const half = Math.max(1, Math.floor(room / whole(2, 4)));
      return [
        { ...row, ...planned, plants: half },
        { ...row, ...planned, plants: half, crop: pick(crops).name },
      ];
    }
    if (roll < 0.8) return [{ ...row, plants: room, planned: 'not done' }];
    if (roll < 0.9) return [{ crop, plants: whole(10, 200), sown: isoText(MONDAY - whole(0, 20)) }];
    const later = isoText(out + whole(1, 90));
    return [
      { ...row, ...planned },
      { crop: pick(crops).name, bed: ` ${name.toLowerCase()}`, planted: later, planned: 'planned' },
    ];
  });
}

interface Chance {
  readonly chance: () => number;
  readonly whole: (low: number, high: number) => number;
  readonly pick: <T>(list: readonly T[]) => T;
}

/** A farm of beds and wishes by chance, of so many at the most; its fish are always the same few. */
export function randomBedFarm(
  seed: number,
  most: { readonly beds: number; readonly crops: number; readonly rows?: boolean },
): Farm {
  const chance = fromSeed(seed);
  const between = (low: number, high: number): number => low + chance() * (high - low);
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  const pick = <T>(list: readonly T[]): T => list[whole(0, list.length - 1)] as T;
  const coldest = between(4, 20);
  const warmest = coldest + between(2, 14);
  const months = Array.from({ length: 12 }, (_, month) => {
    const mean =
      (coldest + warmest) / 2 - ((warmest - coldest) / 2) * Math.cos((2 * Math.PI * month) / 12);
    return { water: 24, high: mean + 5, low: mean - 5, humidity: 0.75 };
  });
  const wishes = Array.from({ length: whole(1, most.crops) }, () => pick(crops).name);
  const beds = Array.from({ length: whole(2, most.beds) }, (_, i) => {
    const planted = chance() < 0.4 ? pick(crops).name : undefined;
    return {
      name: `B${i + 1}`,
      kind: i % 3 === 0 ? 'gravel' : 'raft',
      length: pick([3, 6, 7.2]),
      width: pick([0.9, 1.2]),
      ...(planted !== undefined && {
        crop: planted,
        plants: whole(10, 100),
        sown: isoText(MONDAY - whole(20, 70)),
        planted: isoText(MONDAY - whole(0, 19)),
      }),
    };
  });
  return readFarm({
    name: `Chance ${seed}`,
    units: 'metric',
    asOf: isoText(MONDAY + whole(0, 6)),
    site: { place: 'Invented', latitude: 44, altitude: 100 },
    months,
    water: { total: 50000, sump: 5000 },
    filter: { media: 500, specificSurface: 500 },
    feed: { price: 1.5 },
    stock: {
      species: 'Nile tilapia',
      wanted: 100,
      startWeight: 50,
      harvestWeight: 600,
      survival: 0.95,
    },
    tanks: [{ name: 'Tank 1', volume: 7800, species: 'Nile tilapia', fish: 640, weight: 235 }],
    beds,
    ...(most.rows && { plantings: randomRows(beds, { chance, whole, pick }) }),
    markets: [...new Set(wishes)].map((crop) => ({
      crop,
      unit: pick(['piece', 'bunch', 'kg'] as const),
      perWeek: whole(1, 60),
      price: chance() < 0.2 ? 0 : Number(between(0.5, 6).toFixed(2)),
      every: whole(7, 28),
      firstHarvest: isoText(MONDAY + whole(0, 120)),
    })),
  });
}
