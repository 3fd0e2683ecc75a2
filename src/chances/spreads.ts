/** How far what is planned on may miss, by the farm's own records where there are enough, and as stated elsewhere. */
import { wrongValue } from '../core/errors';
import { ownRecords, type OwnRecord } from '../experience/figures-of-registers';
import type { Farm } from '../plan/farm';
import { FEWEST_BATCHES, type OwnFigureName } from '../plan/own-figure-rows';

export const inputs = ['growth', 'survival', 'plants', 'days', 'yield', 'price'] as const;
export type Input = (typeof inputs)[number];

export const inputWords: Readonly<Record<Input, string>> = {
  growth: 'Growth of the fish',
  survival: 'Survival of the fish',
  plants: 'Plants from a seed',
  days: 'Days to the first cut',
  yield: 'Yield of a plant',
  price: 'Prices',
};

export interface Spread {
  /** Standard deviation of a batch around its year, as a share of the figure. */
  readonly batch: number;
  /** Of a year around what is planned on. */
  readonly year: number;
  /** Batches of the farm's own records; 0 where the spread is as stated. */
  readonly batches: number;
  /** Somebody typed it in place of both. */
  readonly typed?: true;
}

/** Largest spread that is taken: wider, and every second batch would be lost or doubled. */
export const MAX_SPREAD = 0.5;

/** Where a spread comes from, in words. */
export const spreadSource = ({ batches, typed }: Spread): string =>
  typed
    ? 'as typed'
    : batches > 0
      ? `${batches} own batches or sales`
      : 'as stated: common practice, no source';

export type Spreads = Readonly<Record<Input, Spread>>;

/** Where there are no records: common practice, no source. */
export const statedSpreads: Spreads = {
  growth: { batch: 0.08, year: 0.05, batches: 0 },
  survival: { batch: 0, year: 0.03, batches: 0 },
  plants: { batch: 0.08, year: 0.03, batches: 0 },
  days: { batch: 0.08, year: 0.04, batches: 0 },
  yield: { batch: 0.15, year: 0.05, batches: 0 },
  price: { batch: 0.05, year: 0.05, batches: 0 },
};

const figureOf: Readonly<Record<Input, OwnFigureName>> = {
  growth: 'tgc',
  survival: 'survival',
  plants: 'plants_per_seed',
  days: 'bed_days',
  yield: 'units_per_plant',
  price: 'price',
};

/**
 * Spread from batch to batch of all crops or species together: squares of the shares, weighted by degrees of
 * freedom. The year misses as the mean of so many batches does.
 */
function pooled(records: readonly OwnRecord[]): Spread | undefined {
  let [freedom, squares, batches] = [0, 0, 0];
  for (const { batches: count, spread, mean } of records) {
    if (spread === undefined || mean <= 0) continue;
    freedom += count - 1;
    squares += (count - 1) * (spread / mean) ** 2;
    batches += count;
  }
  if (batches < FEWEST_BATCHES || freedom === 0) return undefined;
  const batch = Math.sqrt(squares / freedom);
  return { batch, year: batch / Math.sqrt(batches), batches };
}

export function spreadsOf(farm: Farm): Spreads {
  const whole = ownRecords(farm).filter(
    ({ planted, month }) => planted === undefined && month === undefined,
  );
  const own = (input: Input): Spread => {
    const found = pooled(whole.filter(({ figure }) => figure === figureOf[input]));
    if (found === undefined) return statedSpreads[input];
    // Dates and prices that were typed alike show how they were typed, not that they never differ.
    return found.batch < 1e-9 ? statedSpreads[input] : found;
  };
  return {
    growth: own('growth'),
    survival: own('survival'),
    plants: own('plants'),
    days: own('days'),
    yield: own('yield'),
    price: own('price'),
  };
}

/** The spreads with one typed in its place. Throws a sentence where it is out of range. */
export function withTyped(
  spreads: Spreads,
  input: Input,
  typed: Pick<Spread, 'batch' | 'year'>,
): Spreads {
  for (const share of [typed.batch, typed.year]) {
    if (!(share >= 0 && share <= MAX_SPREAD)) {
      throw wrongValue(
        `${inputWords[input]}: a spread is from 0 to ${100 * MAX_SPREAD} % of the figure; got ${Number((100 * share).toPrecision(6))} %`,
      );
    }
  }
  const { batch, year } = spreads[input];
  const isSame = typed.batch === batch && typed.year === year;
  return isSame
    ? spreads
    : { ...spreads, [input]: { batch: typed.batch, year: typed.year, batches: 0, typed: true } };
}
