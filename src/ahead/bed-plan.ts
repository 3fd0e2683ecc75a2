import { assignBeds } from './bed-assignment';
import { type BedClass, bedClasses } from './bed-classes';
import { bedModel, type EarlierChoice } from './bed-model';
import { harvestShares } from './harvest-spread';
import { type PlannedBatch, restAfter, type Season, weekOf } from './season';
import { seasonValues } from './season-value';
import { type Shortfall, shortfalls, shortfallText } from './shortfall';
import { gapOf, type SolveOptions, type Solver, type SolveStatus } from './solver';

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

const weekCount = (count: number): string => `${count} ${count === 1 ? 'week' : 'weeks'}`;

/** Why weeks of a crop stay short: no batch can be cut in them, or what one more part of a bed would meet. */
function reasonOf(
  season: Season,
  c: number,
  shortWeeks: readonly number[],
  why: (crop: number, week: number) => Shortfall,
): string | undefined {
  const crop = season.crops[c];
  if (shortWeeks.length === 0 || !crop) return undefined;
  const reached = new Set(
    crop.batches.flatMap((batch) =>
      'why' in batch ? [] : harvestShares(season, batch).map(([week]) => week),
    ),
  );
  const first = reached.size === 0 ? -1 : Math.min(...reached);
  const early = shortWeeks.filter((week) => week < first);
  const shut = shortWeeks.filter((week) => week > first && !reached.has(week));
  const open = new Map<Shortfall, number>();
  for (const week of shortWeeks.filter((week) => reached.has(week))) {
    const shortfall = why(c, week);
    open.set(shortfall, (open.get(shortfall) ?? 0) + 1);
  }
  return [
    ...(early.length > 0
      ? [`${weekCount(early.length)} before anything sown from now on can be cut`]
      : []),
    ...(shut.length > 0
      ? [
          `${weekCount(shut.length)} ${commonest(crop.batches.flatMap((batch) => ('why' in batch && batch.season ? [batch.season] : []))) ?? 'out of reach'}`,
        ]
      : []),
    ...[...open].map(([shortfall, count]) => shortfallText(shortfall, count)),
  ].join('; ');
}

/** Supply against want, week by week of the weeks that are reported. */
export function marketOutlook(
  season: Season,
  plantings: readonly PlannedBatch[],
): readonly CropOutlook[] {
  const supplies = suppliedUnits(season, plantings);
  const shortfall = shortfalls(season, plantings, supplies);
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
        c,
        weeks.flatMap(({ wanted, supply }, week) => (wanted - supply > 1e-6 ? [week] : [])),
        shortfall,
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
    const before =
      kept(season.from, bed.freeFrom) +
      (bed.held ?? []).reduce(
        (all, { from, to, share }) => all + share * kept(Math.max(from, bed.freeFrom), to),
        0,
      );
    const planted = plantings
      .filter((planting) => planting.bed === bed.name)
      .reduce(
        (all, planting) =>
          all +
          (kept(planting.plantedOut, planting.cleared + restAfter(season, planting.crop)) *
            planting.area) /
            bed.area,
        0,
      );
    return sum + Math.max(0, days - before - planted) / 7;
  }, 0);
}

/** Gap that is good enough where none is asked for. */
const GAP = 0.02;

/** The plan in which nothing is planted, which is always possible. */
function emptyPlan(
  season: Season,
  classes: readonly BedClass[],
  earlier: readonly EarlierChoice[],
  solve: Solver,
): Float64Array {
  const { model, choices } = bedModel(season, classes, seasonValues(season), earlier);
  for (const { count } of choices) model.fix(count, 0);
  const { values } = solve(model);
  if (!values) throw new Error('even a plan without plants was not found');
  return values;
}

/** What of an earlier plan is still ahead, as choices of the model. */
function earlierChoices(
  season: Season,
  classes: readonly BedClass[],
  earlier: readonly PlannedBatch[],
): EarlierChoice[] {
  const choices = new Map<string, EarlierChoice>();
  for (const { crop: name, bed, area, ...batch } of earlier) {
    const week = weekOf(season, batch.plantedOut);
    const crop = season.crops.findIndex((candidate) => candidate.name === name);
    const bedClass = classes.findIndex(({ beds }) => beds.some((member) => member.name === bed));
    const within = classes[bedClass];
    if (week < 0 || week >= season.horizon || crop < 0 || !within) continue;
    const sown = batch.sown < season.from;
    const key = JSON.stringify([crop, bedClass, week, sown]);
    const places = Math.round(area / within.placeArea) + (choices.get(key)?.places ?? 0);
    choices.set(key, { crop, bedClass, week, places, batch, sown });
  }
  return [...choices.values()];
}

export interface BedPlanOptions extends SolveOptions {
  /**
   * An earlier plan, its dates as they are expected now: what of it is sown is kept, the rest changed little.
   * What is planted out already is not among it: it stands in the beds of the season.
   */
  readonly earlier?: readonly PlannedBatch[];
}

/** Plans the beds of a season. */
export function planBeds(
  solve: Solver,
  season: Season,
  { earlier = [], ...options }: BedPlanOptions = {},
): BedPlan {
  const classes = bedClasses(season);
  const kept = earlierChoices(season, classes, earlier);
  const { model, choices } = bedModel(season, classes, seasonValues(season), kept);
  const solved = solve(model, { gap: GAP, ...options });
  const values = solved.values ?? emptyPlan(season, classes, kept, solve);
  const objective = model.objectiveOf(values);
  const bound = solved.bound ?? Number.NEGATIVE_INFINITY;
  const planted = choices
    .map((choice) => ({ choice, count: values[choice.count] ?? 0 }))
    .filter(({ count }) => count > 0);
  const plantings = classes.flatMap((bedClass, k) =>
    assignBeds(
      season,
      bedClass,
      planted.filter(({ choice }) => choice.bedClass === k),
      earlier,
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
    gap: gapOf(objective, bound) ?? Number.POSITIVE_INFINITY,
    seconds: solved.seconds,
  };
}
