import { assignBeds } from './bed-assignment';
import { bedClasses } from './bed-classes';
import { bedModel } from './bed-model';
import { harvestShares } from './harvest-spread';
import type { PlannedBatch, Season, SeasonCrop } from './season';
import { seasonValues } from './season-value';
import type { SolveOptions, Solver, SolveStatus } from './solver';

/** Supply against want of one crop in one week, in its unit. */
export interface SupplyWeek {
  /** Monday. */
  readonly week: number;
  readonly wanted: number;
  readonly supply: number;
}

export interface CropOutlook {
  readonly crop: string;
  readonly unit: string;
  readonly weeks: readonly SupplyWeek[];
  /** Units wanted and not there, over the weeks. */
  readonly short: number;
  /** Units there and not wanted. */
  readonly surplus: number;
  /** Why wishes were given up; undefined where none was. */
  readonly why: string | undefined;
}

export interface BedPlan {
  readonly status: SolveStatus;
  readonly plantings: readonly PlannedBatch[];
  readonly outlook: readonly CropOutlook[];
  /** Beds times weeks in which nothing stands in them, rest days not counted; parts of beds count as parts. */
  readonly emptyBedWeeks: number;
  readonly objective: number;
  readonly bound: number;
  /** How far the plan can be from the best possible, as a share. */
  readonly gap: number;
  readonly seconds: number;
}

/** What stands and what is planted gives in each week of the horizon, by crop. */
export function suppliedUnits(
  season: Season,
  plantings: readonly PlannedBatch[],
): readonly (readonly number[])[] {
  return season.crops.map((crop) => {
    const supply = Array.from({ length: season.horizon }, (_, week) => crop.standing[week] ?? 0);
    for (const planting of plantings.filter((planting) => planting.crop === crop.name)) {
      for (const [week, share] of harvestShares(season, planting)) {
        if (week < 0 || week >= season.horizon) continue;
        supply[week] = (supply[week] ?? 0) + share * planting.plants * crop.unitsPerPlant;
      }
    }
    return supply;
  });
}

const commonest = (texts: readonly string[]): string | undefined => {
  const counts = new Map<string, number>();
  for (const text of texts) counts.set(text, (counts.get(text) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
};

/** Why weeks of a crop stay short: no batch can be cut in them, or the beds serve what is worth more. */
function reasonOf(
  season: Season,
  crop: SeasonCrop,
  shortWeeks: readonly number[],
): string | undefined {
  if (shortWeeks.length === 0) return undefined;
  const reached = new Set(
    crop.batches.flatMap((batch) =>
      'why' in batch ? [] : harvestShares(season, batch).map(([week]) => week),
    ),
  );
  const first = reached.size === 0 ? -1 : Math.min(...reached);
  const early = shortWeeks.filter((week) => week < first);
  const shut = shortWeeks.filter((week) => week > first && !reached.has(week));
  const open = shortWeeks.length - early.length - shut.length;
  const weeks = (count: number): string => `${count} ${count === 1 ? 'week' : 'weeks'}`;
  return [
    ...(early.length > 0
      ? [`${weeks(early.length)} before anything sown from now on can be cut`]
      : []),
    ...(shut.length > 0
      ? [
          `${weeks(shut.length)} ${commonest(crop.batches.flatMap((batch) => ('why' in batch && batch.season ? [batch.season] : []))) ?? 'out of reach'}`,
        ]
      : []),
    ...(open > 0 ? [`${weeks(open)} in which beds, nursery or feed serve what is worth more`] : []),
  ].join('; ');
}

/** Supply against want, week by week of the weeks that are reported. */
export function marketOutlook(
  season: Season,
  plantings: readonly PlannedBatch[],
): readonly CropOutlook[] {
  const supplies = suppliedUnits(season, plantings);
  return season.crops.map((crop, c) => {
    const weeks = Array.from({ length: season.weeks }, (_, week) => ({
      week: season.from + 7 * week,
      wanted: crop.wanted[week] ?? 0,
      supply: supplies[c]?.[week] ?? 0,
    }));
    const short = weeks.reduce((sum, { wanted, supply }) => sum + Math.max(0, wanted - supply), 0);
    const surplus = weeks.reduce(
      (sum, { wanted, supply }) => sum + Math.max(0, supply - wanted),
      0,
    );
    return {
      crop: crop.name,
      unit: crop.unit,
      weeks,
      short,
      surplus,
      why: reasonOf(
        season,
        crop,
        weeks.flatMap(({ wanted, supply }, week) => (wanted - supply > 1e-6 ? [week] : [])),
      ),
    };
  });
}

/** Beds times weeks that stand empty: not planted, not kept by what stands already, not at rest. */
export function emptyBedWeeks(season: Season, plantings: readonly PlannedBatch[]): number {
  const days = 7 * season.weeks;
  const end = season.from + days;
  return season.beds.reduce((sum, bed) => {
    const kept = (from: number, to: number): number =>
      Math.max(0, Math.min(to, end) - Math.max(from, season.from));
    const before = kept(season.from, bed.freeFrom);
    const planted = plantings
      .filter((planting) => planting.bed === bed.name)
      .reduce(
        (all, planting) =>
          all +
          (kept(planting.plantedOut, planting.cleared + season.restDays) * planting.area) /
            bed.area,
        0,
      );
    return sum + Math.max(0, days - before - planted) / 7;
  }, 0);
}

/** Plans the beds of a season. Throws where the solver finds no plan in its time. */
export function planBeds(solve: Solver, season: Season, options: SolveOptions = {}): BedPlan {
  const classes = bedClasses(season);
  const { model, choices } = bedModel(season, classes, seasonValues(season));
  const solved = solve(model, { gap: 0.015, ...options });
  const { values, objective, bound } = solved;
  if (!values || objective === undefined || bound === undefined) {
    throw new Error('No plan of the beds was found in the time that was given; give more.');
  }
  const planted = choices
    .map((choice) => ({ choice, count: values[choice.count] ?? 0 }))
    .filter(({ count }) => count > 0);
  const plantings = classes.flatMap((bedClass, k) =>
    assignBeds(
      season,
      bedClass,
      planted.filter(({ choice }) => choice.bedClass === k),
    ),
  );
  const inSeason = plantings
    .filter((planting) => planting.plantedOut < season.from + 7 * season.weeks)
    .sort((a, b) => a.plantedOut - b.plantedOut || a.bed.localeCompare(b.bed));
  return {
    status: solved.status,
    plantings: inSeason,
    outlook: marketOutlook(season, inSeason),
    emptyBedWeeks: emptyBedWeeks(season, inSeason),
    objective,
    bound,
    gap: solved.gap ?? Number.POSITIVE_INFINITY,
    seconds: solved.seconds,
  };
}
