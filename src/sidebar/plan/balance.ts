import { feedRate } from '../../core/feeding';
import { type Crop, usual } from '../../core/tables/crops';
import type { Species } from '../../core/tables/species';
import { cropTable } from '../../functions/crop-table';
import { speciesTable } from '../../functions/species-table';
import { calendarDate } from '../../core/serial-date';
import { feedOfBed } from '../../plan/bed-feed';
import type { BedEntry, FarmSoFar } from '../../plan/farm';
import { withOwnFigures } from '../../plan/own-species';

/** Feed against grow-area through the year, with the fish as they are now. */
export interface Balance {
  /** 1 to 12: the month of the day that the plan speaks of; undefined while that day is open. */
  readonly month: number | undefined;
  /** Feed that all fish take, g/day, for each month's water; undefined where that is open. */
  readonly feed: readonly (number | undefined)[];
  /** Planted grow-area that each month's feed can supply, m2; undefined where the water is open. */
  readonly served: readonly (number | undefined)[];
  /** Beds with plants in them on the day of the plan, those whose crop is not in them yet, and all beds, m2. */
  readonly planted: number;
  readonly waiting: number;
  readonly area: number;
  /** Fish now, kg. */
  readonly biomass: number;
  /** Tanks and beds that do not count yet because something in them is missing or wrong. */
  readonly leftOut: number;
  readonly verdict: 'short' | 'even' | 'over' | 'open';
}

const sum = (values: readonly number[]): number =>
  values.reduce((total, value) => total + value, 0);

/** The species as the farm has it; undefined where no such fish is known. */
function kindOf({ ownSpecies }: FarmSoFar, name: string | undefined): Species | undefined {
  const kind = speciesTable.book.find(name ?? '');
  return kind && withOwnFigures(kind, ownSpecies);
}

/** Feed over bed of a crop, g/m2/day: the grower's own, else the table's; undefined where there is none. */
function ratioOf({ ownCrops }: FarmSoFar, crop: Crop): number | undefined {
  const own = ownCrops?.[crop.name]?.['feed_ratio'];
  return typeof own === 'number' ? own : own === null ? undefined : usual(crop, 'feed_ratio');
}

/** Whether the plants stand in the bed on the day of the plan, as the Beds sheet has it. */
const stands = ({ planted, sown }: BedEntry, crop: Crop, day: number | undefined): boolean =>
  day !== undefined &&
  ((planted !== undefined && planted <= day) ||
    (crop.start === 'in place' && sown !== undefined && sown <= day));

/** The balance of what is there: of a farm that is being filled in, its complete tanks and beds. */
export function balanceOf(farm: FarmSoFar): Balance {
  const there = <T>(rows: readonly (T | undefined)[]): T[] =>
    rows.filter((row) => row !== undefined);
  const stocked = there(farm.tanks).filter((tank) => tank.fish > 0 && tank.weight !== undefined);
  const feed = farm.water.map((water) =>
    water === undefined
      ? undefined
      : sum(
          stocked.map(({ fish, weight = 0, species }) => {
            const kind = kindOf(farm, species);
            return kind ? fish * weight * feedRate(kind, weight, water, kind.facts.tgc[0]) : 0;
          }),
        ),
  );
  const beds = there(farm.beds).map((bed) => ({ ...bed, area: bed.length * bed.width }));
  const grown = beds.flatMap((bed) => {
    const crop = cropTable.book.find(bed.crop ?? '');
    return crop === undefined ? [] : [{ ...bed, of: crop, in: stands(bed, crop, farm.asOf) }];
  });
  const planted = grown.filter((bed) => bed.in);
  const plantedArea = sum(planted.map((bed) => bed.area));
  const protein = farm.protein ?? kindOf(farm, farm.species)?.facts.protein[0];
  const fed = planted.flatMap(({ kind, area, of }) => {
    const ratio = ratioOf(farm, of);
    if (ratio === undefined || protein === undefined) return [];
    return [feedOfBed({ kind, area, ratio }, { protein, figures: farm.figures })];
  });
  const wanted = sum(fed.map((bed) => bed.wanted));
  // Nobody is told to plant or to feed more within what such beds ran well with.
  const least = Math.min(wanted, sum(fed.map((bed) => bed.least)));
  const most = Math.max(wanted, sum(fed.map((bed) => bed.most)));
  const month = farm.asOf === undefined ? undefined : calendarDate(farm.asOf).month;
  const served = feed.map((kg) =>
    kg === undefined ? undefined : wanted > 0 ? (kg / wanted) * plantedArea : 0,
  );
  const now = month === undefined ? undefined : feed[month - 1];
  return {
    month,
    feed,
    served,
    planted: plantedArea,
    waiting: sum(grown.map((bed) => (bed.in ? 0 : bed.area))),
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
