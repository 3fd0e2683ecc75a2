import { usual } from '../../core/tables/crops';
import { cropTable } from '../../functions/crop-table';
import { speciesTable } from '../../functions/species-table';
import { calendarDate } from '../../core/serial-date';
import { feedOfBed } from '../../plan/bed-feed';
import type { FarmSoFar } from '../../plan/farm';
import { gill } from './figure-text';

/** Feed against grow-area through the year, with the fish as they are now. */
export interface Balance {
  /** 1 to 12: the month of the day that the plan speaks of; undefined while that day is open. */
  readonly month: number | undefined;
  /** Feed that all fish take, g/day, for each month's water; undefined where that is open. */
  readonly feed: readonly (number | undefined)[];
  /** Planted grow-area that each month's feed can supply, m2; undefined where the water is open. */
  readonly served: readonly (number | undefined)[];
  /** Beds with a crop, and all beds, m2. */
  readonly planted: number;
  readonly area: number;
  /** Fish now, kg. */
  readonly biomass: number;
  /** Tanks and beds that do not count yet because something in them is missing or wrong. */
  readonly leftOut: number;
  readonly verdict: 'short' | 'even' | 'over' | 'open';
}

const sum = (values: readonly number[]): number =>
  values.reduce((total, value) => total + value, 0);

/** The balance of what is there: of a farm that is being filled in, its complete tanks and beds. */
export function balanceOf(farm: FarmSoFar): Balance {
  const there = <T>(rows: readonly (T | undefined)[]): T[] =>
    rows.filter((row) => row !== undefined);
  const stocked = there(farm.tanks).filter((tank) => tank.fish > 0 && tank.weight !== undefined);
  const feed = farm.water.map((water) =>
    water === undefined
      ? undefined
      : sum(
          stocked.map((tank) => gill('FEED.DAY', tank.fish, tank.weight, tank.species, water) ?? 0),
        ),
  );
  const beds = there(farm.beds).map((bed) => ({ ...bed, area: bed.length * bed.width }));
  const planted = beds.flatMap((bed) =>
    bed.crop === undefined ? [] : [{ ...bed, crop: bed.crop }],
  );
  const plantedArea = sum(planted.map((bed) => bed.area));
  const protein = farm.protein ?? speciesTable.book.find(farm.species ?? '')?.facts.protein[0];
  const fed = planted.flatMap(({ kind, area, crop: name }) => {
    const crop = cropTable.book.find(name);
    if (!crop || protein === undefined) return [];
    const ratio = usual(crop, 'feed_ratio');
    return [feedOfBed({ kind, area, ratio }, { protein, figures: farm.figures })];
  });
  const wanted = sum(fed.map((bed) => bed.wanted));
  // Nobody is told to plant or to feed more within what such beds ran well with.
  const least = Math.min(wanted, sum(fed.map((bed) => bed.least)));
  const most = Math.max(wanted, sum(fed.map((bed) => bed.most)));
  const month = farm.asOf === undefined ? undefined : calendarDate(farm.asOf).month;
  const served = feed.map((one) =>
    one === undefined ? undefined : wanted > 0 ? (one / wanted) * plantedArea : 0,
  );
  const now = month === undefined ? undefined : feed[month - 1];
  return {
    month,
    feed,
    served,
    planted: plantedArea,
    area: sum(beds.map((bed) => bed.area)),
    biomass: sum(stocked.map((tank) => (tank.fish * (tank.weight ?? 0)) / 1000)),
    leftOut: [...farm.tanks, ...farm.beds].filter((row) => row === undefined).length,
    verdict:
      wanted === 0 || stocked.length === 0 || now === undefined
        ? 'open'
        : now < least
          ? 'short'
          : now > most
            ? 'over'
            : 'even',
  };
}
