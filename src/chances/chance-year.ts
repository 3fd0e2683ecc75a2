/** The weeks to come of a farm, played once with what chance makes of growth, deaths, seeds, days, yields and prices. */
import { fishOfFarm } from '../ahead/fish-farm';
import { harvestShares } from '../ahead/harvest-spread';
import { airMeans } from '../ahead/needed';
import { speciesOf } from '../ahead/own-tables';
import type { Season } from '../ahead/season';
import { seasonOfFarm } from '../ahead/season-of-farm';
import { standingPlantings } from '../ahead/standing-plantings';
import { dailySurvival, meanDaysToGrow } from '../core/month-water';
import { fishLog, type FishFarm, type FishRow } from '../core/fish-log';
import { type TankTurns, tankYear } from '../core/fish-turns';
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
  /** The year's mean draw of each input, 1 where all came as planned. */
  readonly draws: Readonly<Record<Input, number>>;
}

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
      ? []
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

/** Everything of a farm that chance does not touch, worked out once. */
export interface YearsAhead {
  readonly weeks: number;
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
    notes: [...notes, ...rowsMissing(farm)],
  };
}

/** Never below a twentieth: nothing here turns negative, however wide it is spread. */
const factor = (deviation: number, normal: number): number =>
  Math.max(0.05, 1 + deviation * normal);

const sum = (list: readonly number[]): number => list.reduce((all, one) => all + one, 0);

/** kg sold: by rows, and of tanks without a row to come at the selling weight. */
function kgSold({ rows, turns, weeks }: YearsAhead, fish: FishFarm): { kg: number; feed: number } {
  const until = fish.asOf + 7 * weeks;
  const log = fishLog(rows, fish);
  const byRows = log.rows.map(({ status, fish: heads = 0, weight = 0 }, at) => {
    const { kind, date = 0 } = rows[at] as FishRow;
    const sold = (kind ?? '').trim().toLowerCase() === 'sold' && status === 'planned';
    return sold && date > fish.asOf && date <= until ? (heads * weight) / 1000 : 0;
  });
  const year = tankYear(rows, fish, turns, weeks);
  const inTurn = year.map(({ soldInTurn, fish: heads, weight }) =>
    soldInTurn ? (heads * weight) / 1000 : 0,
  );
  return { kg: sum(byRows) + sum(inTurn), feed: sum(year.map(({ feed }) => feed)) };
}

/** Plays the weeks once. */
export function chanceYear(ahead: YearsAhead, spreads: Spreads, random: RandomSource): ChanceYear {
  const { weeks, season, fish, batches, survival, fishPrice } = ahead;
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
  const { kg, feed } = kgSold(ahead, {
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
  let [served, asked, income] = [0, 0, 0];
  season.crops.forEach(({ wanted, price }, c) => {
    const paid = price === undefined ? 0 : price * draw('price', price);
    for (let week = 0; week < weeks; week++) {
      const [want, there] = [wanted[week] ?? 0, supply[c]?.[week] ?? 0];
      if (want > 0) {
        asked++;
        if (there >= SERVED * want) served++;
      }
      income += paid * Math.min(want, there);
    }
  });
  if (fishPrice > 0) income += kg * fishPrice * draw('price', fishPrice);
  const called = sum(season.standingFeed.slice(0, weeks));
  return {
    results: {
      fish: kg,
      weeks: asked === 0 ? NaN : served / asked,
      feed: called === 0 ? NaN : feed / ((weeks + 1) / weeks) / called,
      income,
    },
    draws: Object.fromEntries(
      inputs.map((input) => {
        const { sum: all, weight } = totals[input];
        return [input, weight === 0 ? years[input] : all / weight];
      }),
    ) as Record<Input, number>,
  };
}
