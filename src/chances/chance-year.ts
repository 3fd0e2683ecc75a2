/** The weeks to come of a farm, played once with what chance makes of growth, deaths, seeds, days, yields and prices. */
import { fishOfFarm } from '../ahead/fish-farm';
import { harvestShares } from '../ahead/harvest-spread';
import { airMeans } from '../ahead/needed';
import { speciesOf } from '../ahead/own-tables';
import type { Season } from '../ahead/season';
import { seasonOfFarm } from '../ahead/season-of-farm';
import { type StandingPlanting, standingPlantings } from '../ahead/standing-plantings';
import { dailySurvival, meanDaysToGrow } from '../core/month-water';
import { fishLog, type FishFarm, type FishRow } from '../core/fish-log';
import { type TankTurns, tankYear } from '../core/fish-turns';
import { isoText } from '../core/serial-date';
import type { RandomSource } from '../experience/random-source';
import type { Farm } from '../plan/farm';
import { fishRowsOf } from '../plan/registers-of-farm';
import { type Input, inputs, type Spreads } from './spreads';

export const results = ['fish', 'weeks', 'feed', 'income'] as const;
export type Result = (typeof results)[number];

export const resultWords: Readonly<Record<Result, string>> = {
  fish: 'Fish sold',
  weeks: 'Market weeks served, share',
  feed: 'Feed given against feed that the beds call for',
  income: 'Income from fish and crops',
};

export interface ChanceYear {
  readonly results: Readonly<Record<Result, number>>;
  /**
   * Week by week: fish and income as sold so far, market weeks as served so far of all that there are, feed against
   * beds of the week itself.
   */
  readonly courses: Readonly<Record<Result, Float64Array>>;
  /** The year's mean draw of each input, 1 where all came as planned. */
  readonly draws: Readonly<Record<Input, number>>;
}

const sum = (list: readonly number[]): number => list.reduce((all, value) => all + value, 0);

/** What of a week's want must be there for the week to count as served. */
const SERVED = 0.98;

interface BatchAhead {
  readonly crop: number;
  readonly units: number;
  readonly daysInBed: number;
  /** Whether seeds and days are still open: the batch is not in its bed yet. */
  readonly isAhead: boolean;
  readonly shares: readonly (readonly [week: number, share: number])[];
}

/** What the forecast cannot know because no row says it. */
function rowsMissing({ fishLog: fish, plantings, asOf }: Farm): string[] {
  const isAhead = ({ planned, day }: { planned?: string | undefined; day: number | undefined }) =>
    planned === 'planned' && day !== undefined && day >= asOf;
  return [
    ...(fish.some((row) => isAhead({ planned: row.planned, day: row.date }))
      ? [
          'Fish that no row of the Fish log stocks are in no chance: a tank that is sold empty stays empty unless a row stocks it again.',
        ]
      : [
          'No row of the Fish log is planned: what is in the tanks is sold at its selling weight, and nothing is stocked after it.',
        ]),
    ...(plantings.some((row) => isAhead({ planned: row.planned, day: row.planted ?? row.sown }))
      ? []
      : [
          'No row of the Plantings is planned: beds stand empty once what is in them is cleared, and market weeks after that are not served.',
        ]),
  ];
}

/** Share of the bed area in use, above which the rows still say what the beds hold: common practice, no source. */
const BEDS_KNOWN = 0.5;

/**
 * Weeks in which most of the beds in use hold a batch or wait for one that a row plans. What beds without rows will
 * call for nobody knows, so that feed is held against the beds in these weeks alone.
 */
function weeksWithBeds(
  { beds, from }: Season,
  inBeds: readonly StandingPlanting[],
  weeks: number,
): number {
  const used = beds.flatMap(({ name, area }) => {
    const own = inBeds.filter(({ bed, batch }) => bed === name && batch.cleared > from);
    return own.length === 0
      ? []
      : [{ area, until: Math.max(...own.map(({ batch }) => batch.cleared)) }];
  });
  const all = sum(used.map(({ area }) => area));
  let week = 0;
  while (week < weeks) {
    const monday = from + 7 * week;
    const known = sum(used.map(({ area, until }) => (until > monday ? area : 0)));
    if (known === 0 || known < BEDS_KNOWN * all) break;
    week++;
  }
  return week;
}

function bedsMissing(covered: number, weeks: number, from: number): string[] {
  if (covered === weeks) return [];
  return covered === 0
    ? [
        'No bed holds a batch or waits for one that a row plans: there is nothing to hold the feed against.',
      ]
    : [
        `From ${isoText(from + 7 * covered)} on most beds have no row of the Plantings: feed is held against the beds in the ${covered} ${covered === 1 ? 'week' : 'weeks'} before. Plan the beds further and play again.`,
      ];
}

/** Everything of a farm that chance does not touch, worked out once. */
export interface YearsAhead {
  readonly weeks: number;
  /** Weeks, from the first on, in which the rows say what most of the beds hold. */
  readonly bedWeeks: number;
  readonly season: Season;
  readonly fish: FishFarm;
  readonly rows: readonly FishRow[];
  readonly turns: readonly TankTurns[];
  readonly batches: readonly BatchAhead[];
  /** Share of those stocked that is alive after so many days. */
  readonly survival: { readonly share: number; readonly days: number };
  readonly fishPrice: number;
  readonly notes: readonly string[];
}

/** Throws a sentence where the farm lacks what the forecast needs. */
export function yearsAhead(farm: Farm, weeks: number): YearsAhead {
  const { season, notes } = seasonOfFarm(farm, { weeks });
  const { wanted } = fishOfFarm(farm, { weeks });
  const tanks = farm.tanks.map(({ name, volume, species }) => ({
    name,
    volume,
    species: speciesOf(farm, species),
  }));
  const { inBeds } = standingPlantings(farm, season.from, airMeans(farm));
  const bedWeeks = weeksWithBeds(season, inBeds, weeks);
  const batches = inBeds.flatMap(({ crop, plants, batch }): BatchAhead[] => {
    const c = season.crops.findIndex(({ name }) => name === crop.name);
    if (c < 0) return [];
    return [
      {
        crop: c,
        units: plants * (season.crops[c] as Season['crops'][number]).unitsPerPlant,
        daysInBed: batch.firstCut - Math.max(season.from, batch.plantedOut),
        isAhead: batch.plantedOut > season.from,
        shares: harvestShares(season, batch),
      },
    ];
  });
  return {
    weeks,
    bedWeeks,
    season,
    fish: {
      tanks,
      water: wanted.water,
      asOf: farm.asOf,
    },
    rows: fishRowsOf(farm.fishLog),
    turns: tanks.map(({ species: { name, facts } }) => ({
      sellAt: name === wanted.species.name ? wanted.sellWeight : facts.harvest_weight[0],
      // Fish that no row stocks are in no plan.
      head: 0,
      startWeight: wanted.startWeight,
      first: Infinity,
      handled: [facts.handling_low[0], facts.handling_high[0]],
    })),
    batches,
    survival: {
      share: wanted.survival,
      days: meanDaysToGrow(wanted.species, wanted.water, wanted.coefficient, {
        from: wanted.startWeight,
        to: wanted.sellWeight,
      }),
    },
    fishPrice: farm.stock.fishPrice ?? 0,
    notes: [...notes, ...rowsMissing(farm), ...bedsMissing(bedWeeks, weeks, season.from)],
  };
}

/** Never below a twentieth: nothing here turns negative, however wide it is spread. */
const factor = (deviation: number, normal: number): number =>
  Math.max(0.05, 1 + deviation * normal);

interface FishWeeks {
  /** kg sold in each week. */
  readonly kg: Float64Array;
  /** g/day at the beginning of each week. */
  readonly feed: Float64Array;
}

/** Sold by rows, and from tanks without a row to come at the selling weight. */
function fishWeeks({ rows, turns, weeks }: YearsAhead, fish: FishFarm): FishWeeks {
  const kg = new Float64Array(weeks);
  const feed = new Float64Array(weeks);
  const sell = (week: number, grams: number): void => {
    if (week >= 0 && week < weeks) kg[week] = (kg[week] as number) + grams / 1000;
  };
  fishLog(rows, fish).rows.forEach(({ status, fish: heads = 0, weight = 0 }, at) => {
    const { kind, date = 0 } = rows[at] as FishRow;
    const sold = (kind ?? '').trim().toLowerCase() === 'sold' && status === 'planned';
    if (sold) sell(Math.ceil((date - fish.asOf) / 7) - 1, heads * weight);
  });
  for (const turn of tankYear(rows, fish, turns, weeks)) {
    if (turn.week >= weeks) continue;
    feed[turn.week] = (feed[turn.week] as number) + turn.feed;
    if (turn.soldInTurn) sell(turn.week, turn.fish * turn.weight);
  }
  return { kg, feed };
}

/** What has come together by the end of each week. */
function soFar(weekly: Float64Array): Float64Array {
  let all = 0;
  return weekly.map((amount) => (all += amount));
}

/** Plays the weeks once. */
export function chanceYear(ahead: YearsAhead, spreads: Spreads, random: RandomSource): ChanceYear {
  const { weeks, bedWeeks, season, fish, batches, survival, fishPrice } = ahead;
  const totals: Record<Input, { sum: number; weight: number }> = {
    growth: { sum: 0, weight: 0 },
    survival: { sum: 0, weight: 0 },
    plants: { sum: 0, weight: 0 },
    days: { sum: 0, weight: 0 },
    yield: { sum: 0, weight: 0 },
    price: { sum: 0, weight: 0 },
  };
  const years = Object.fromEntries(
    inputs.map((input) => [input, factor(spreads[input].year, random.normal())]),
  ) as Record<Input, number>;
  const draw = (input: Input, weight: number): number => {
    const drawn = years[input] * factor(spreads[input].batch, random.normal());
    totals[input].sum += weight * drawn;
    totals[input].weight += weight;
    return drawn;
  };

  const alive = draw('survival', 1);
  const tanks = fish.tanks.map((tank) => ({
    ...tank,
    coefficient: (tank.coefficient ?? tank.species.facts.tgc[0]) * draw('growth', 1),
  }));
  const { kg, feed } = fishWeeks(ahead, {
    ...fish,
    tanks,
    dailySurvival: dailySurvival(Math.min(1, survival.share * alive), survival.days),
  });

  const supply = season.crops.map(() => new Float64Array(season.horizon));
  for (const { crop, units, daysInBed, isAhead, shares } of batches) {
    const grown =
      units * draw('yield', units) * (isAhead ? Math.min(1.2, draw('plants', units)) : 1);
    const late = daysInBed > 0 ? Math.round((daysInBed * (draw('days', units) - 1)) / 7) : 0;
    for (const [week, share] of shares) {
      const into = Math.max(0, week + late);
      if (week >= 0 && into < season.horizon) {
        const line = supply[crop] as Float64Array;
        line[into] = (line[into] as number) + share * grown;
      }
    }
  }
  let asked = 0;
  const served = new Float64Array(weeks);
  const income = new Float64Array(weeks);
  const add = (to: Float64Array, week: number, more: number): void => {
    to[week] = (to[week] as number) + more;
  };
  season.crops.forEach(({ wanted, price }, c) => {
    const paid = price === undefined ? 0 : price * draw('price', price);
    for (let week = 0; week < weeks; week++) {
      const [want, there] = [wanted[week] ?? 0, supply[c]?.[week] ?? 0];
      if (want > 0) {
        asked++;
        if (there >= SERVED * want) add(served, week, 1);
      }
      add(income, week, paid * Math.min(want, there));
    }
  });
  if (fishPrice > 0) {
    const paid = fishPrice * draw('price', fishPrice);
    kg.forEach((sold, week) => add(income, week, sold * paid));
  }
  const called = season.standingFeed.slice(0, bedWeeks);
  const given = feed.slice(0, bedWeeks);
  const courses = {
    fish: soFar(kg),
    weeks: soFar(served).map((count) => (asked === 0 ? NaN : count / asked)),
    feed: given.map((grams, week) =>
      (called[week] as number) > 0 ? grams / (called[week] as number) : NaN,
    ),
    income: soFar(income),
  };
  const calledInAll = sum(called);
  return {
    results: {
      fish: courses.fish[weeks - 1] as number,
      weeks: courses.weeks[weeks - 1] as number,
      feed: calledInAll === 0 ? NaN : sum([...given]) / calledInAll,
      income: courses.income[weeks - 1] as number,
    },
    courses,
    draws: Object.fromEntries(
      inputs.map((input) => {
        const { sum: all, weight } = totals[input];
        return [input, weight === 0 ? years[input] : all / weight];
      }),
    ) as Record<Input, number>,
  };
}
