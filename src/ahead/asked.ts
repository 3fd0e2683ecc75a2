/** What is asked of the planners, from what a grower says in the terminal or in the pane. */
import type { FishRow } from '../core/fish-log';
import type { Farm } from '../plan/farm';
import { placeKey } from '../plan/registers-of-farm';
import type { GradingWish } from './graded-row';
import type { AheadAsked } from './plan-ahead';
import type { PlannedBatch } from './season';
import type { SeasonWishes } from './season-of-farm';

export type PlannedPart = 'fish' | 'beds' | 'both';

/** Weeks that can be planned. */
export const PLANNED_WEEKS: Readonly<
  Record<PlannedPart, { readonly min: number; readonly max: number }>
> = {
  fish: { min: 4, max: 104 },
  beds: { min: 8, max: 60 },
  both: { min: 8, max: 60 },
};

export interface AheadWishes extends Omit<SeasonWishes, 'feed' | 'without'> {
  readonly part: PlannedPart;
  /** Names of tanks and beds that are left alone. */
  readonly without: readonly string[];
  /** Most seconds for each of the two. */
  readonly seconds: number;
  /** A grading of one tank. */
  readonly grade?: GradingWish | undefined;
  /** Earlier plans, where they are not those of the registers. */
  readonly earlierFish?: readonly FishRow[] | undefined;
  readonly earlierBeds?: readonly PlannedBatch[] | undefined;
}

export function aheadAsked(
  farm: Farm,
  { part, weeks, without, seconds, earlierFish, earlierBeds, grade, ...wishes }: AheadWishes,
): AheadAsked {
  const beds = new Set(farm.beds.map(({ name }) => placeKey(name)));
  const isBed = (name: string): boolean => beds.has(placeKey(name));
  const both = part === 'both';
  return {
    farm,
    seconds,
    ...(part !== 'beds' && {
      fish: {
        weeks,
        without: both ? without.filter((name) => !isBed(name)) : without,
        ...(earlierFish && { earlier: earlierFish }),
        ...(grade && { grade }),
      },
    }),
    ...(part !== 'fish' && {
      beds: {
        ...wishes,
        weeks,
        without: both ? without.filter(isBed) : without,
        ...(earlierBeds && { earlier: earlierBeds }),
      },
    }),
  };
}
