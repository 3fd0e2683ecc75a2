/**
 * The registers of an invented farm whose truth is known: every batch of it is drawn around the farm's true
 * figures, and weighed and counted with the errors that weighing and counting have. The arithmetic is written
 * out here and shares nothing with the project's, except the table's names.
 */
import { isoText, serialFromIsoText } from '../../src/core/serial-date';
import type { OwnFigureName } from '../../src/plan/own-figure-rows';
import { type Farm, readFarm } from '../../src/plan/farm';
import { randomSource } from '../../src/experience/random-source';

export interface Truth {
  readonly tgc: number;
  readonly conversion: number;
  readonly weightSpread: number;
  readonly germination: number;
  readonly nurseryLosses: number;
  readonly bedLosses: number;
  readonly headsPerSquareMetre: number;
  readonly alkalinityPerFeed: number;
  readonly waterADay: number;
  readonly survival: number;
  readonly plantsPerSeed: number;
  readonly bedDays: number;
  readonly headsPerPlant: number;
}

/** Where the truth of each own figure stands. */
export const truthOf = {
  tgc: 'tgc',
  feed_conversion: 'conversion',
  survival: 'survival',
  weight_spread: 'weightSpread',
  germination: 'germination',
  nursery_losses: 'nurseryLosses',
  plants_per_seed: 'plantsPerSeed',
  bed_days: 'bedDays',
  bed_losses: 'bedLosses',
  units_per_plant: 'headsPerPlant',
  units_per_m2: 'headsPerSquareMetre',
  alkalinity_per_feed: 'alkalinityPerFeed',
  water_a_day: 'waterADay',
} as const satisfies Partial<Record<OwnFigureName, keyof Truth>>;

/** Standard deviations from batch to batch, as shares of the mean. */
const BATCHES = { tgc: 0.06, feed: 0.05, survival: 0.03, seed: 0.05, days: 0.08, yield: 0.06 };
/** From week to week. */
const WEEKS = { water: 0.2, base: 0.1 };
/** Of a test of alkalinity, mg/L as CaCO3. */
const TEST = 2;
/** L that move round. */
const VOLUME = 60_000;
/** m2 of each bed, and seeds of each batch. */
const BED = 7.2 * 1.2;
const SEEDS = 200;

/** Coefficient of variation of single fish in a tank: 0.25, the middle of what src/core/grading.ts has from trials. */
const FISH_DIFFER = 0.25;
const FISH_WEIGHED = 50;

const START = serialFromIsoText('2023-01-02') as number;
const WATER = 28;

export interface SimulatedFarm {
  readonly farm: Farm;
  readonly truth: Truth;
}

export function simulatedFarm(
  seed: number,
  { lots, batches }: { lots: number; batches: number },
): SimulatedFarm {
  const { normal, share } = randomSource(seed);
  const between = (low: number, high: number): number => low + (high - low) * share();
  const [germination, nurseryLosses] = [between(0.7, 0.9), between(0.03, 0.2)];
  const headsPerPlant = between(0.75, 0.85);
  const plantsPerSeed = germination * (1 - nurseryLosses);
  const truth: Truth = {
    tgc: between(0.5, 1.2),
    conversion: between(1.1, 1.9),
    weightSpread: FISH_DIFFER,
    survival: between(0.8, 0.95),
    germination,
    nurseryLosses,
    plantsPerSeed,
    bedDays: between(28, 60),
    headsPerPlant,
    bedLosses: 1 - headsPerPlant,
    headsPerSquareMetre: (SEEDS * plantsPerSeed * headsPerPlant) / BED,
    alkalinityPerFeed: between(40, 150),
    waterADay: between(200, 1500),
  };
  const around = (mean: number, deviation: number): number => mean * (1 + deviation * normal());
  const fishLog: Record<string, unknown>[] = [];
  const feedLog: { date: string; tank: string; given: number }[] = [];
  for (let lot = 0; lot < lots; lot++) {
    const tank = `Tank ${lot + 1}`;
    const coefficient = around(truth.tgc, BATCHES.tgc);
    let fish = 1000;
    const sold = Math.round(1000 * Math.min(1, around(truth.survival, BATCHES.survival)));
    const deaths = 1000 - sold;
    const weigh = (true_: number): number =>
      true_ * (1 + (FISH_DIFFER / Math.sqrt(FISH_WEIGHED)) * normal());
    const conversion = around(truth.conversion, BATCHES.feed);
    const weightOn = (day: number): number =>
      (Math.cbrt(20) + (coefficient / 1000) * WATER * day) ** 3;
    let held = 20;
    const start = START + 20 * lot;
    fishLog.push({ date: isoText(start), tank, what: 'stocked', fish, weight: weigh(20) });
    for (let month = 1; month <= 5; month++) {
      const day = start + 30 * month;
      const true_ = weightOn(30 * month);
      const died = Math.floor(deaths / 5) + (month <= deaths % 5 ? 1 : 0);
      if (died > 0) fishLog.push({ date: isoText(day), tank, what: 'died', fish: died });
      // What is gained is that of the fish that live on: those that die on the last day ate, too.
      const gain = ((fish - died) * true_ - fish * held) / 1000;
      held = true_;
      for (let three = 0; three < 10; three++)
        feedLog.push({
          date: isoText(day - 30 + 3 * three),
          tank,
          given: (conversion * gain) / 10,
        });
      fish -= died;
      fishLog.push({
        date: isoText(day),
        tank,
        what: 'weighed',
        fish: FISH_WEIGHED,
        weight: weigh(true_),
        // A standard deviation of n is known to one over the root of 2n of it.
        spread: around(FISH_DIFFER, 1 / Math.sqrt(2 * FISH_WEIGHED)),
      });
    }
    fishLog.push({ date: isoText(start + 151), tank, what: 'sold', fish });
  }
  const plantings: Record<string, unknown>[] = [];
  const harvests: Record<string, unknown>[] = [];
  for (let batch = 0; batch < batches; batch++) {
    const bed = `R${String(batch + 1).padStart(2, '0')}`;
    const sown = START + 9 * batch;
    const planted = sown + 21;
    const firstCut = planted + Math.round(around(truth.bedDays, BATCHES.days));
    const cleared = firstCut + 4;
    // Seeds one by one, in a tray that is better or worse than others.
    const up = Math.min(0.999, around(truth.germination, BATCHES.seed));
    const lost = around(truth.nurseryLosses, BATCHES.seed);
    let [cameUp, plants] = [0, 0];
    for (let seed = 0; seed < SEEDS; seed++)
      if (share() < up) {
        cameUp++;
        if (share() >= lost) plants++;
      }
    const heads = plants * Math.max(0.05, around(truth.headsPerPlant, BATCHES.yield));
    plantings.push({
      crop: 'lettuce',
      bed,
      seeds: SEEDS,
      cameUp,
      plants,
      sown: isoText(sown),
      planted: isoText(planted),
      firstCut: isoText(firstCut),
      cleared: isoText(cleared),
    });
    harvests.push({
      date: isoText(firstCut + 1),
      crop: 'lettuce',
      bed,
      quantity: heads,
      price: 1,
      unit: 'piece',
    });
  }
  /** Feed of a week, kg. */
  const fedFrom = (day: number): number => {
    const dates = new Set(Array.from({ length: 7 }, (_, i) => isoText(day + i)));
    return feedLog.reduce((sum, { date, given }) => sum + (dates.has(date) ? given : 0), 0);
  };
  const waterTests: Record<string, unknown>[] = [];
  const weeks = Math.ceil((150 + 20 * lots) / 7);
  for (let week = 0; week <= weeks; week++) {
    const date = isoText(START + 7 * week);
    const fed = fedFrom(START + 7 * week);
    waterTests.push({
      date,
      added: Math.max(0, 7 * around(truth.waterADay, WEEKS.water)),
      ...(week % 2 === 0 && { alkalinity: 100 + TEST * normal() }),
      // The base of a week makes up for what its feed uses, so that the water keeps its alkalinity.
      ...(fed > 0 && {
        baseGiven: fed * around(truth.alkalinityPerFeed, WEEKS.base),
        base: 'calcium carbonate',
      }),
    });
  }
  const farm = readFarm({
    name: 'A farm of known truth',
    units: 'metric',
    asOf: isoText(START + 20 * Math.max(lots, batches) + 400),
    months: Array.from({ length: 12 }, () => ({ water: WATER })),
    stock: { survival: 0.9 },
    tanks: Array.from({ length: lots }, (_, i) => ({
      name: `Tank ${i + 1}`,
      volume: 7800,
      species: 'Nile tilapia',
    })),
    beds: Array.from({ length: batches }, (_, i) => ({
      name: `R${String(i + 1).padStart(2, '0')}`,
      kind: 'raft',
      length: 7.2,
      width: 1.2,
    })),
    markets: [{ crop: 'lettuce', unit: 'piece', perWeek: 100 }],
    water: { total: VOLUME },
    fishLog,
    feedLog,
    waterTests,
    plantings,
    harvests,
  });
  return { farm, truth };
}
