import { EVEN_SHARE } from '../../core/feed-area';
import { calendarDate } from '../../core/serial-date';
import type { Farm } from '../../plan/farm';
import { gill } from './figure-text';

/** Feed against grow-area through the year, with the fish as they are now. */
export interface Balance {
  /** 1 to 12: the month of the day that the plan speaks of. */
  readonly month: number;
  /** Feed that all fish take, g/day, for each month's water. */
  readonly feed: readonly number[];
  /** Planted grow-area that each month's feed can supply, m2. */
  readonly served: readonly number[];
  /** Beds with a crop, and all beds, m2. */
  readonly planted: number;
  readonly area: number;
  /** Fish now, kg. */
  readonly biomass: number;
  readonly verdict: 'short' | 'even' | 'over' | 'open';
}

const sum = (values: readonly number[]): number => values.reduce((total, one) => total + one, 0);

export function balanceOf(farm: Farm): Balance {
  const stocked = farm.tanks.filter((tank) => tank.fish > 0 && tank.weight !== undefined);
  const feed = farm.months.map(({ water }) =>
    sum(stocked.map((tank) => gill('FEED.DAY', tank.fish, tank.weight, tank.species, water) ?? 0)),
  );
  const beds = farm.beds.map((bed) => ({ crop: bed.crop, area: bed.length * bed.width }));
  const planted = beds.filter((bed) => bed.crop !== undefined);
  const plantedArea = sum(planted.map((bed) => bed.area));
  const wanted = sum(planted.map((bed) => gill('FEED.WANTED', bed.area, bed.crop) ?? 0));
  const month = calendarDate(farm.asOf).month;
  const served = feed.map((one) => (wanted > 0 ? (one / wanted) * plantedArea : 0));
  const now = served[month - 1] ?? 0;
  const share = plantedArea > 0 ? now / plantedArea : NaN;
  return {
    month,
    feed,
    served,
    planted: plantedArea,
    area: sum(beds.map((bed) => bed.area)),
    biomass: sum(stocked.map((tank) => (tank.fish * (tank.weight ?? 0)) / 1000)),
    verdict:
      wanted === 0 || stocked.length === 0
        ? 'open'
        : share < 1 - EVEN_SHARE
          ? 'short'
          : share > 1 + EVEN_SHARE
            ? 'over'
            : 'even',
  };
}
