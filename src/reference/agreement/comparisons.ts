import { cropTable } from '../../functions/crop-table';
import { presets } from '../../plan/presets';
import type { Comparison, FarmRecord } from './farm-record';
import { Figures } from './farm-record';
import {
  bedOf,
  cropOf,
  cycleDays,
  figure,
  groupOf,
  lightShare,
  CatalogueModel,
  cropWater,
  NoAnswer,
  proteinOf,
  speciesOf,
  waterOf,
  weightsOf,
} from './farm-estimates';

type Answer = (f: Figures, model: CatalogueModel) => number;

/** One kind of question about a farm, recognised by its words. */
interface Rule {
  readonly asks: RegExp;
  /** Said of every answer of this rule. */
  readonly how: string;
  readonly answer: Answer;
}

const density: Answer = (f, model) =>
  model.ask(
    'STOCK.DENSITY',
    figure(f, 'stocked_per_m3') * (figure(f, 'survival_percent') / 100),
    figure(f, 'end_weight_g'),
    1000,
  );

/** m3 in which the fish of one record grow. */
const tankVolume = (f: Figures): number =>
  f.number('fish_tank_m3_total') ??
  f.number('tank_m3') ??
  figure(f, 'fish_tank_m3_each') * figure(f, 'fish_tanks');

const WEEKS = 365 / 7;

const yearlyFish: Answer = (f, model) =>
  (density(f, model) * tankVolume(f) * WEEKS) / figure(f, 'cycle_weeks');

const conversion: Answer = (f, model) => {
  const weights = weightsOf(f);
  const species = speciesOf(f);
  if (!weights) return model.ask('FACT.FISH', species, 'fcr');
  const [from, to] = weights;
  const water = waterOf(f, model);
  const days = Math.ceil(model.ask('GROWTH.DAYS', from, to, water, species));
  const curve = model.rows('GROWTH.CURVE', from, days, 1, water, species);
  const feed = curve.slice(0, -1).reduce((sum, row) => sum + Number(row[2]), 0);
  return feed / (Number(curve.at(-1)?.[1]) - from);
};

/** kg a day: what a year's growth takes at the model's own conversion between the two weights. */
const feedDay: Answer = (f, model) => {
  const stocked = figure(f, 'stocked_per_m3') * figure(f, 'start_weight_g') * 1e-3;
  const gain = ((density(f, model) - stocked) * tankVolume(f) * WEEKS) / figure(f, 'cycle_weeks');
  return (gain * conversion(f, model)) / 365;
};

const bedArguments = (f: Figures, model: CatalogueModel, id: string): (string | number)[] =>
  model.takes(id, 'bed') ? [bedOf(f), proteinOf(f)] : [];

const feedOverArea: Answer = (f, model) =>
  /stock|the same/.test((f.comparison.given ?? []).join())
    ? (1000 * feedDay(f, model)) / figure(f, 'bed_area_m2')
    : model.ask('FEED.WANTED', 1, groupOf(f), ...bedArguments(f, model, 'FEED.WANTED'));

const feedGiven = (f: Figures): number => {
  const said = /(\d+(?:\.\d+)?) (k?g)\/day/.exec(f.comparison.ask);
  if (said) return Number(said[1]) * (said[2] === 'kg' ? 1000 : 1);
  return 1000 * figure(f, 'feed_kg_per_day');
};

const areaForFeed: Answer = (f, model) =>
  model.ask('FEED.AREA', feedGiven(f), groupOf(f), ...bedArguments(f, model, 'FEED.AREA'));

const base: Answer = (f, model) => {
  const tan = model.ask('LOAD.TAN', 1000, proteinOf(f));
  // All nitrate leaves through plants or as gas: the most that can come back.
  const shares = model.takes('LOAD.ALKALINITY', 'uptake') ? [0.7, 0.3] : [];
  return model.ask('LOAD.ALKALINITY', tan, ...shares);
};

const crop = (f: Figures): string => {
  const found = cropOf(f);
  if (found === undefined) throw new NoAnswer('the record names no crop of the table');
  return found;
};

/** Part of the harvest that falls into the days that are asked; the whole of what is cut once. */
function harvestPart(f: Figures, model: CatalogueModel, name: string): number {
  const days = Number(/in (\d+) (?:days|harvest days)/.exec(f.comparison.ask)?.[1] ?? NaN);
  if (!Number.isFinite(days) || cropTable.book.find(name)?.cut === 'once') return 1;
  return days / model.ask('FACT.CROP', name, 'harvest days');
}

/** kg/m2: a whole crop of the table, the part that falls into the days that are asked, in the light of the season. */
const cropYield: Answer = (f, model) => {
  const name = crop(f);
  const part = harvestPart(f, model, name);
  return model.ask('FACT.CROP', name, 'kg per m2') * part * lightShare(f, model, name);
};

const cropYear: Answer = (f, model) =>
  (model.ask('FACT.CROP', crop(f), 'kg per m2') * 365) / cycleDays(model, crop(f));

const plantYear: Answer = (f, model) =>
  (model.ask('FACT.CROP', crop(f), 'kg per plant') * 365) / cycleDays(model, crop(f));

const cropTonnes: Answer = (f, model) => {
  const area = Number(/on (\d+(?:\.\d+)?) m2/.exec(f.comparison.ask)?.[1]);
  return (cropYear(f, model) * (Number.isFinite(area) ? area : figure(f, 'bed_area_m2'))) / 1000;
};

/** Heads a week from a bed: the inverse of the area for one head a week. */
const headsWeek: Answer = (f, model) => {
  const said = (f.comparison.given ?? []).join();
  const plants = Number(/(\d+)\/m2/.exec(said)?.[1]) || figure(f, 'plants_per_m2', 'heads_per_m2');
  const days = figure(f, 'days_in_bed', 'days');
  return figure(f, 'bed_area_m2') / model.ask('BED.AREA', 1, days / 7, plants);
};

const vegetablesPerFeed: Answer = (f, model) => {
  const name = cropOf(f) ?? (groupOf(f) === 'fruiting' ? 'tomato' : 'lettuce');
  const daily = model.ask('FACT.CROP', name, 'kg per m2') / cycleDays(model, name);
  return daily * model.ask('FEED.AREA', 1000, groupOf(f), ...bedArguments(f, model, 'FEED.AREA'));
};

const nitrogenKept: Answer = (f, model) => {
  const nitrogen = 1000 * proteinOf(f) * 0.16;
  const faeces = (f.number('nitrogen_in_faeces_percent') ?? 10) / 100;
  return 1 - model.ask('LOAD.TAN', 1000, proteinOf(f)) / nitrogen - faeces;
};

/** Share of all the water that leaves with the solids a day, as the plan has it. */
const DISCHARGE = presets.Plant_discharge.usual ?? 0;

const allWater = (f: Figures): number => 1000 * figure(f, 'total_water_m3', 'system_m3');

const makeUp: Answer = (f, model) => {
  const drunk = cropWater(f, model, figure(f, 'bed_area_m2', 'planted_m2'));
  return model.ask('WATER.BALANCE', drunk, 0, DISCHARGE * allWater(f));
};

const makeUpPercent: Answer = (f, model) => (100 * makeUp(f, model)) / allWater(f);

const drunkByPlant: Answer = (f, model) =>
  cropWater(
    f,
    model,
    1 / (f.number('plants_per_m2') ?? model.ask('FACT.CROP', crop(f), 'plants per m2')),
  );

/** Lift of the water and depth of the stones, m, where a record is silent (common practice). */
const LIFT = 1.5;
const DEPTH = 1;
const OXYGEN_IN_WATER = 5;

/** kW of the pump for the stated flow, and of blown air for the oxygen of the feed. */
const electricity: Answer = (f, model) => {
  const flow = Number(/flow (\d+) L\/min/.exec(f.said)?.[1] ?? NaN) * 60;
  if (!Number.isFinite(flow)) throw new NoAnswer('the record does not state the flow');
  const oxygen = model.ask('LOAD.OXYGEN', 1000 * feedDay(f, model)) / 24;
  const air = model.ask('AIR.DIFFUSED', oxygen, DEPTH, waterOf(f, model), OXYGEN_IN_WATER);
  return (model.ask('FLOW.WATTS', flow, LIFT) + model.ask('AIR.BLOWER', air, DEPTH)) / 1000;
};

/** Of the feed's nitrogen: what the fish keep, and what the harvest of the beds that it supplies carries off. */
const nitrogenUsed: Answer = (f, model) => {
  const name = cropOf(f) ?? (groupOf(f) === 'fruiting' ? 'tomato' : 'lettuce');
  const content = groupOf(f) === 'fruiting' ? 'tomato' : 'lettuce';
  const nitrogen = 1000 * proteinOf(f) * 0.16;
  const daily = model.ask('FACT.CROP', name, 'kg per m2') / cycleDays(model, name);
  const area = model.ask('FEED.AREA', 1000, groupOf(f), ...bedArguments(f, model, 'FEED.AREA'));
  return nitrogenKept(f, model) + model.ask('NUTRIENT.CROP', daily * area, content, 'N') / nitrogen;
};

const unanswered =
  (why: string): Answer =>
  () => {
    throw new NoAnswer(why);
  };

/** Questions by their words; the first that fits answers. */
const rules: readonly Rule[] = [
  { asks: /kg\/m3/, how: 'fish that live times their weight, by volume', answer: density },
  { asks: /yearly fish/, how: 'density, volume and length of the cycle', answer: yearlyFish },
  {
    asks: /^days from .* g\b/,
    how: 'growth from weight to weight',
    answer: (f, model) => {
      const weights = weightsOf(f);
      if (!weights) throw new NoAnswer('the question names no weights');
      return model.ask('GROWTH.DAYS', ...weights, waterOf(f, model), speciesOf(f));
    },
  },
  {
    asks: /^feed conversion/,
    how: 'feed over gain of the growth curve; without weights the usual one',
    answer: conversion,
  },
  {
    asks: /^feed, kg\/day/,
    how: 'growth of a year at the model’s own conversion',
    answer: feedDay,
  },
  {
    asks: /^feed over bed area/,
    how: 'feed over planted area, or the ratio of the kind of bed',
    answer: feedOverArea,
  },
  { asks: /bed area/, how: 'area that the stated feed can supply', answer: areaForFeed },
  {
    asks: /^base, g/,
    how: 'alkalinity that nitrifying takes, less what plants and denitrifying give back',
    answer: base,
  },
  { asks: /heads a week/, how: 'area over the area of one head a week', answer: headsWeek },
  {
    asks: /per kg feed/,
    how: 'bed that a kg of feed a day supplies, times its yield a day',
    answer: vegetablesPerFeed,
  },
  {
    asks: /feed nitrogen kept/,
    how: 'nitrogen of the feed less ammonia and faeces',
    answer: nitrogenKept,
  },
  {
    asks: /share of feed nitrogen/,
    how: 'what the fish keep, and what the harvest of the beds that the feed supplies carries off',
    answer: nitrogenUsed,
  },
  {
    asks: /make-up water, L/,
    how: 'water that the crops drink, and what leaves with the solids',
    answer: makeUp,
  },
  {
    asks: /make-up water, %|water lost, %/,
    how: 'water that the crops drink, and what leaves with the solids, over all the water',
    answer: makeUpPercent,
  },
  {
    asks: /water drunk, L per/,
    how: 'water that the crop drinks on the place of a plant',
    answer: drunkByPlant,
  },
  {
    asks: /^electricity/,
    how: 'pump for the flow, air for the oxygen of the feed',
    answer: electricity,
  },
  {
    asks: /energy|heating/,
    how: '',
    answer: unanswered(
      'the record does not state how cold its months are, nor its cover, which the heat hangs on',
    ),
  },
  {
    asks: /kg per plant and year/,
    how: 'yield of a plant over the days of a whole crop',
    answer: plantYear,
  },
  { asks: /kg\/m2\/year/, how: 'yield of an area over the days of a whole crop', answer: cropYear },
  {
    asks: /per year on .* m2/,
    how: 'yield of an area over the days of a whole crop, times the area',
    answer: cropTonnes,
  },
  {
    asks: /autumn yield over a summer/,
    how: 'light of the season over what the crop wants',
    answer: (f, model) => lightShare(f, model, cropOf(f) ?? 'cucumber'),
  },
  {
    asks: /days in winter/,
    how: 'light that the crop wants over that of the season',
    answer: (f, model) => {
      const name = crop(f);
      return 1 / lightShare(f, model, name);
    },
  },
  {
    asks: /kg\/m2/,
    how: 'yield of an area, for the days asked, in the light of the season',
    answer: cropYield,
  },
  {
    asks: /\bover\b|\bratio\b/,
    how: 'no function tells the two apart: the model gives both the same',
    answer: () => 1,
  },
];

export interface ComparisonRow {
  readonly record: FarmRecord;
  readonly comparison: Comparison;
  readonly published: number | null;
  readonly band: readonly [low: number, high: number];
  readonly how: string;
  /** Formulas that gave the answer, as they are typed. */
  readonly calls: readonly string[];
  /** Undefined where no function answers; `why` says what is missing. */
  readonly model: number | undefined;
  readonly why?: string;
  /** Model over published; the answer itself where nothing but its bounds is published. */
  readonly ratio: number | undefined;
  readonly inside: boolean | undefined;
}

function row(record: FarmRecord, comparison: Comparison, published: number | null): ComparisonRow {
  const [low = NaN, high = NaN] = comparison.model_over_published ?? [];
  const rule = rules.find(({ asks }) => asks.test(comparison.ask));
  const model = new CatalogueModel();
  const about = { record, comparison, published, band: [low, high] as const };
  const none = {
    how: rule?.how ?? '',
    calls: [],
    model: undefined,
    ratio: undefined,
    inside: undefined,
  };
  if (!rule) return { ...about, ...none, why: 'no function answers such a question' };
  try {
    const found = rule.answer(new Figures(record, comparison), model);
    if (!Number.isFinite(found))
      throw new NoAnswer('the record lacks a figure that the answer needs');
    const ratio = found / (published ?? 1);
    // Without a band there is nothing to lie inside of.
    if (!(low <= high)) throw new NoAnswer('the record states no band for the answer');
    const inside = ratio >= low && ratio <= high;
    return { ...about, how: rule.how, calls: model.calls, model: found, ratio, inside };
  } catch (error) {
    if (error instanceof NoAnswer) return { ...about, ...none, why: error.message };
    throw error;
  }
}

/** Each published figure of each record beside what the functions give for the same farm. */
export const comparisonRows = (records: readonly FarmRecord[]): readonly ComparisonRow[] =>
  records.flatMap((record) =>
    (record.compare ?? []).flatMap((comparison) =>
      [comparison.expected ?? null].flat().map((published) => row(record, comparison, published)),
    ),
  );
