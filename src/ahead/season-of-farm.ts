import { wrongValue } from '../core/errors';
import { USUAL_PROTEIN } from '../core/load';
import { nearestName } from '../core/nearest-name';
import { isoText } from '../core/serial-date';
import { type Crop, usual } from '../core/tables/crops';
import { feedOfBed } from '../plan/bed-feed';
import type { BedEntry, Farm, MarketEntry } from '../plan/farm';
import { toShown } from '../plan/quantities';
import { unitsPerPlant } from '../plan/units-per-plant';
import { cropOf, speciesOf } from './own-tables';
import { batchPlantedOn, seasonableBatch } from './crop-season';
import { harvestShares } from './harvest-spread';
import { firstMonday } from './planner-rows';
import { type BedHold, type Season, type SeasonBed, type SeasonCrop, WEEK } from './season';
import { type StandingPlanting, standingPlantings } from './standing-plantings';
import { airMeans } from './needed';

export interface SeasonWishes {
  /** Weeks to plan, 8 to 60. */
  readonly weeks: number;
  /** Feed given in each week of the horizon, g/day; left out, feed does not count. */
  readonly feed?: (week: number) => number;
  /** Plants crops in months that do not suit them, too. */
  readonly outOfSeason?: boolean;
  /** Whether a bed should not take a family after itself. */
  readonly rotate?: boolean;
  /** Seedlings that the nursery holds. */
  readonly nursery?: number;
  /** Days that every bed rests after a crop; left out: by the crop table. */
  readonly restDays?: number;
  /** Beds in which tall crops shade nobody; left out: all. */
  readonly trellis?: readonly string[];
  /** Beds that are left alone. */
  readonly without?: readonly string[];
}

/** Crops that grow higher than this shade their neighbours, cm. Common practice, no source. */
const TALL = 100;
/** Days that a bed rests where the crop table does not say. Common practice, no source. */
const REST_DAYS = 2;

const nameKey = (name: string): string => name.trim().toLowerCase();

/** Names of beds as the farm spells them; a name that no bed has is an error. */
function bedsNamed(farm: Farm, names: readonly string[], what: string): ReadonlySet<string> {
  const known = new Map(farm.beds.map(({ name }) => [nameKey(name), name]));
  return new Set(
    names.map((name) => {
      const bed = known.get(nameKey(name));
      if (bed !== undefined) return bed;
      const near = nearestName(name, [...known.values()]);
      throw wrongValue(`there is no bed "${name.trim()}" ${what}; the nearest name is "${near}"`);
    }),
  );
}

/** Weeks beyond those that are reported, at the most, which the model looks at. */
const MAX_TAIL = 16;

const kindsOf = (crop: Crop): readonly string[] => crop.beds.split(', ');

export interface FarmSeason {
  readonly season: Season;
  /** What the reader must know: beds left out, dates that are missing. */
  readonly notes: readonly string[];
}

/** Rows of one crop as one: wants in the unit of the first row, price as what a unit brings in the mean. */
function together(
  farm: Farm,
  rows: readonly MarketEntry[],
): {
  crop: Crop;
  unit: MarketEntry['unit'];
  perPlant: number;
  perWeek: number;
  price: number | undefined;
  firstHarvest: number;
} {
  const [first] = rows as [MarketEntry, ...MarketEntry[]];
  const crop = cropOf(farm, first.crop);
  const perPlant = unitsPerPlant(crop, first);
  const inFirstUnit = (row: MarketEntry): number =>
    (row.perWeek * perPlant) / unitsPerPlant(crop, row);
  const perWeek = rows.reduce((sum, row) => sum + inFirstUnit(row), 0);
  const income = rows.reduce((sum, row) => sum + row.perWeek * (row.price ?? 0), 0);
  return {
    crop,
    unit: first.unit,
    perPlant,
    perWeek,
    price: income > 0 && perWeek > 0 ? income / perWeek : undefined,
    // Without a day: from the first on that can be.
    firstHarvest: Math.min(...rows.map((row) => row.firstHarvest ?? farm.asOf)),
  };
}

/** The season ahead of a farm, from the Monday on or after the day of the plan. */
export function seasonOfFarm(farm: Farm, wishes: SeasonWishes): FarmSeason {
  const notes: string[] = [];
  const from = firstMonday(farm);
  const means = airMeans(farm);
  const restDays = wishes.restDays ?? REST_DAYS;
  const apart = bedsNamed(farm, wishes.without ?? [], 'to leave out');
  const trellis = wishes.trellis && bedsNamed(farm, wishes.trellis, 'for tall crops');
  const inWords = (degrees: number): string =>
    `${Number(toShown(degrees, 'temperature', farm.units).toFixed(1))} ${farm.units === 'US' ? '°F' : '°C'}`;

  const rowsRead = standingPlantings(farm, from, means);
  const { inBeds, seedlings, shut } = rowsRead;
  notes.push(...rowsRead.notes);
  const rows = new Map<string, MarketEntry[]>();
  for (const row of farm.markets) rows.set(row.crop, [...(rows.get(row.crop) ?? []), row]);
  const wishesOf = [...rows.values()].map((same) => together(farm, same));

  const slowest = Math.max(
    0,
    ...wishesOf.map(({ crop }) =>
      Math.ceil((usual(crop, 'transplant_days') + usual(crop, 'bed_days')) / WEEK),
    ),
  );
  const horizon = wishes.weeks + Math.min(MAX_TAIL, slowest);
  const endless = from + WEEK * horizon;

  const restOf = (crop: Crop): number => wishes.restDays ?? usual(crop, 'rest_days') ?? REST_DAYS;
  const placeOf = (bed: BedEntry) => ({
    name: bed.name,
    kind: bed.kind,
    area: bed.length * bed.width,
    tall: trellis === undefined || trellis.has(bed.name),
  });
  const holdOf = ({ crop, share, batch }: StandingPlanting): BedHold => ({
    from: batch.plantedOut,
    to: batch.cleared + restOf(crop),
    share,
    crop: crop.name,
    family: crop.family,
  });
  const beds: SeasonBed[] = farm.beds.map((bed) => {
    if (apart.has(bed.name) || shut.has(bed.name)) return { ...placeOf(bed), freeFrom: endless };
    const holds = inBeds
      .filter((planting) => planting.bed === bed.name)
      .map(holdOf)
      .sort((a, b) => a.from - b.from);
    const last = holds.filter((hold) => hold.from <= from).at(-1);
    const freeFrom = Math.max(
      from,
      ...holds.flatMap(({ from: begins, to, share }) =>
        share >= 1 && begins < from + WEEK ? [to] : [],
      ),
    );
    const held = holds.filter(({ to }) => to > freeFrom);
    return {
      ...placeOf(bed),
      freeFrom,
      ...(held.length > 0 && { held }),
      ...(last?.family !== undefined && { family: last.family }),
    };
  });

  const kindsUsed = (crop: Crop): readonly string[] => [
    ...new Set([
      ...kindsOf(crop),
      ...farm.beds
        .filter(({ name }) =>
          inBeds.some((planting) => planting.bed === name && planting.crop.name === crop.name),
        )
        .map(({ kind }) => kind),
    ]),
  ];
  const fed = {
    // Where no fish are kept yet, the feed for which the ratios were found.
    protein:
      farm.feed.protein ??
      (farm.stock.species === undefined
        ? USUAL_PROTEIN
        : speciesOf(farm, farm.stock.species).facts.protein[0]),
    figures: farm.figures,
  };
  /** Feed that so much of a crop calls for, g/day. */
  const wantedOn = (kind: BedEntry['kind'], area: number, crop: Crop): number =>
    feedOfBed({ kind, area, ratio: usual(crop, 'feed_ratio') }, fed).wanted;
  const weekly = (each: (week: number) => number): readonly number[] =>
    Array.from({ length: horizon }, (_, week) => each(week));

  const seasonCrops: SeasonCrop[] = wishesOf.map(
    ({ crop, unit, perPlant, perWeek, price, firstHarvest }) => {
      const own = inBeds.filter((held) => held.crop.name === crop.name);
      const supply = weekly(() => 0) as number[];
      for (const { batch, plants } of own) {
        for (const [week, share] of harvestShares({ from }, batch)) {
          if (week >= 0 && week < horizon)
            supply[week] = (supply[week] ?? 0) + share * plants * perPlant;
        }
      }
      const sold = own.length > 0 || farm.harvests.some((harvest) => harvest.crop === crop.name);
      const begins = sold ? from : firstHarvest;
      return {
        name: crop.name,
        family: crop.family,
        tall: (usual(crop, 'height') ?? 0) > TALL,
        restDays: restOf(crop),
        unit,
        unitsPerPlant: perPlant,
        density: usual(crop, 'plants_per_m2'),
        kinds: kindsUsed(crop),
        price,
        feedRatio: (kind) => wantedOn(kind as BedEntry['kind'], 1, crop),
        nurseryWeeks:
          crop.start === 'in place' ? 0 : Math.ceil(usual(crop, 'transplant_days') / WEEK),
        wanted: weekly((week) => (from + WEEK * week + WEEK > begins ? perWeek : 0)),
        standing: supply,
        batches: Array.from({ length: horizon }, (_, week) => {
          const plantedOut = from + WEEK * week;
          const batch = wishes.outOfSeason
            ? batchPlantedOn(crop, plantedOut, means)
            : seasonableBatch(crop, plantedOut, means, inWords);
          if ('why' in batch || batch.sown >= from) return batch;
          return {
            why: `${crop.name} planted out on ${isoText(plantedOut)} would have been sown before ${isoText(from)}`,
          };
        }),
      };
    },
  );

  const season: Season = {
    from,
    weeks: wishes.weeks,
    horizon,
    beds,
    crops: seasonCrops,
    standingFeed: weekly((week) =>
      inBeds.reduce((sum, { bed: name, crop, share, batch }) => {
        const monday = from + WEEK * week;
        if (monday < batch.plantedOut || monday >= batch.cleared) return sum;
        const bed = farm.beds.find((place) => place.name === name) as BedEntry;
        return sum + wantedOn(bed.kind, share * bed.length * bed.width, crop);
      }, 0),
    ),
    feed: wishes.feed && weekly(wishes.feed),
    restDays,
    nursery: wishes.nursery,
    nurseryHeld: weekly((week) =>
      seedlings.reduce((sum, { plants, from: sown, to }) => {
        const monday = from + WEEK * week;
        return sum + (sown < monday + WEEK && to > monday ? plants : 0);
      }, 0),
    ),
    rotate: wishes.rotate ?? false,
  };
  return { season, notes };
}
