import { cropTable } from '../../functions/crop-table';
import { propose, type Proposal } from '../../size/proposal';
import { readWish } from '../../size/wish';
import { bedOf, CatalogueModel, cropOf, NoAnswer, speciesOf, waterOf } from './farm-estimates';
import { type FarmRecord, Figures } from './farm-record';

/** Published systems entered as a grower would wish for them: what they sell, and where; never what they built. */

const MONTHS = 12;
const YEAR = 365;
const WEEK = 7;
/** Day of the plan; nothing that is compared hangs on it. */
const DAY = 46000;
/** Where a record does not say where it lies: its months are entered alike, so that no figure hangs on it. */
const ANYWHERE = 45;

export type Compared = 'tanks' | 'feed' | 'beds';

/**
 * Least and most of model / published that counts as agreement, the same for every system. How densely fish
 * are kept is a choice from half to twice the usual; feed follows from growth; beds lie between.
 */
export const wishBands: Readonly<Record<Compared, readonly [number, number]>> = {
  tanks: [0.5, 2],
  feed: [0.7, 1.4],
  beds: [0.6, 1.6],
};

export const wishUnits: Readonly<Record<Compared, string>> = {
  tanks: 'm³',
  feed: 'g/day',
  beds: 'm²',
};

export interface WishFigure {
  readonly what: Compared;
  readonly published: number;
  readonly model: number;
  readonly ratio: number;
  readonly inside: boolean;
}

interface Marketed {
  readonly crop: string;
  readonly unit: 'piece' | 'kg';
  readonly perWeek: number;
}

export interface TypedWish extends Readonly<Record<string, unknown>> {
  readonly fish: { readonly species?: string; readonly kgPerMonth?: number };
  readonly market: readonly Marketed[];
}

export interface WishAnswer {
  readonly record: FarmRecord;
  /** The answers that were typed, as a wish file holds them. */
  readonly wish: TypedWish;
  readonly figures: Figures;
  readonly proposal: Proposal;
  readonly rows: readonly WishFigure[];
}

/** A record as far as one treatment of it goes, with what it shares with the record that it names as its place. */
function figuresOf(record: FarmRecord, all: readonly FarmRecord[]): Figures {
  const [first] = record.treatments ?? [];
  const others = all.filter(
    (other) =>
      other !== record &&
      (record.location === `as ${other.id}` || record.location === other.location),
  );
  const shared = others.flatMap((other) => {
    const names = ['latitude_deg', 'water_temperature_c'];
    // A trial in a system has its fish and tanks.
    if (record.location === `as ${other.id}`)
      names.push('species', 'fish_tanks', 'fish_tank_m3_each', 'start_weight_g', 'end_weight_g');
    const known = { ...other.treatments?.[0]?.figures, ...other.figures };
    return Object.entries(known).filter(([name]) => names.includes(name));
  });
  const figures = { ...Object.fromEntries(shared), ...record.figures, ...first?.figures };
  return new Figures({ ...record, figures, treatments: [] }, { ask: record.system });
}

/** kg a day from so many kg over the days that a record states. */
const overDays = (kg: number | undefined, days: number | undefined): number | undefined =>
  kg === undefined || days === undefined ? undefined : kg / days;

const times = (...factors: readonly (number | undefined)[]): number | undefined =>
  factors.reduce<number | undefined>(
    (product, factor) =>
      product === undefined || factor === undefined ? undefined : product * factor,
    1,
  );

function publishedTanks(f: Figures): number | undefined {
  const said = /(\d+)\D* tanks of ([\d,]+) L/.exec(f.text('fish_tanks') ?? '');
  if (said) return (Number(said[1]) * Number(said[2]?.replace(',', ''))) / 1000;
  return (
    f.number('fish_tank_m3_total') ??
    times(f.number('fish_tank_m3_each'), f.number('fish_tanks')) ??
    f.number('tank_m3', 'fish_tank_m3')
  );
}

const daysOfFish = (f: Figures): number | undefined =>
  times(f.number('cycle_weeks'), WEEK) ?? f.number('fish_days', 'days');

/** Weight of the fish that are taken out of a m3 in the end. */
const harvestOfTank = (f: Figures): number | undefined =>
  f.number('harvest_kg_per_m3') ??
  times(
    f.number('stocked_per_m3'),
    times(f.number('survival_percent'), 0.01),
    times(f.number('end_weight_g'), 0.001),
  );

/** kg of fish a month that the system sold or grew. */
function fishSold(f: Figures): number | undefined {
  const yearly = f.number('yearly_fish_kg', 'fish_gain_kg_per_year');
  if (yearly !== undefined) return yearly / MONTHS;
  const batch =
    f.number('end_biomass_kg') ??
    f.number('fish_gain_kg') ??
    times(harvestOfTank(f), publishedTanks(f));
  return times(overDays(batch, daysOfFish(f)), YEAR / MONTHS);
}

/** Figures of a record that bear the name of their crop before these words. */
const RATES = ['heads_per_week', 'kg_per_m2_year_best'] as const;

/** The crop of the record, or the one whose rate it states. */
const cropSold = (f: Figures): string | undefined =>
  cropOf(f) ??
  cropTable.book.names.find((name) =>
    RATES.some((rate) => f.number(`${name}_${rate}`) !== undefined),
  );

/** What the system took to market a week. */
function marketed(f: Figures): Marketed | undefined {
  const crop = cropSold(f);
  if (crop === undefined) return undefined;
  const heads =
    f.number('heads_per_week', `${crop}_heads_per_week`) ??
    times(
      /lettuce/.test(f.text('crop') ?? '') ? f.number('plants_per_m2') : undefined,
      f.number('bed_area_m2'),
      overDays(WEEK, f.number('days_in_bed', 'days')),
    );
  if (heads !== undefined) return { crop, unit: 'piece', perWeek: heads };
  const yearly =
    times(f.number('yield_t_per_year', 'best_yield_t_per_year'), 1000) ??
    times(f.number(`${crop}_kg_per_m2_year_best`), f.number('bed_area_m2'));
  const daily = overDays(yearly, YEAR) ?? overDays(f.number('fruit_kg'), f.number('days'));
  return daily === undefined ? undefined : { crop, unit: 'kg', perWeek: daily * WEEK };
}

function publishedFeed(f: Figures): number | undefined {
  const kilograms = f.number('feed_kg_per_day', 'feed_kg_per_day_57');
  if (kilograms !== undefined) return 1000 * kilograms;
  const overArea = times(f.number('feed_g_per_m2_day'), f.number('bed_area_m2'));
  if (overArea !== undefined) return overArea;
  const [start, end] = [f.number('start_weight_g'), f.number('end_weight_g')];
  if (start === undefined || end === undefined) return undefined;
  const gain = times(harvestOfTank(f), publishedTanks(f), 1 - start / end);
  return times(overDays(gain, daysOfFish(f)), f.number('fcr'), 1000);
}

/** The species of the table; undefined where the table does not know the fish. */
function fishOf(f: Figures): string | undefined {
  try {
    return speciesOf(f);
  } catch (fault) {
    if (fault instanceof NoAnswer) return undefined;
    throw fault;
  }
}

function wishFrom(f: Figures): TypedWish | undefined {
  const species = fishOf(f);
  const kgPerMonth = species === undefined ? undefined : fishSold(f);
  const market = marketed(f);
  if (kgPerMonth === undefined && market === undefined) return undefined;
  const model = new CatalogueModel();
  // Crops get the air that suits them, and heated water; fish without a crop theirs.
  const air = market === undefined ? waterOf(f, model) : model.ask('FACT.CROP', market.crop, 'air');
  const [startWeight, harvestWeight] = [f.number('start_weight_g'), f.number('end_weight_g')];
  const isOneTank = f.number('tank_m3', 'fish_tank_m3') !== undefined;
  const tanks = f.number('fish_tanks') ?? (isOneTank ? 1 : undefined);
  const hasWeights =
    startWeight !== undefined && harvestWeight !== undefined && startWeight < harvestWeight;
  return {
    units: 'metric',
    latitude: f.number('latitude_deg') ?? ANYWHERE,
    coldest: air,
    warmest: air,
    heated: market !== undefined,
    fish: { ...(species && { species }), ...(kgPerMonth !== undefined && { kgPerMonth }) },
    market: market ? [market] : [],
    choices: {
      beds: bedOf(f),
      // What was sold is not in question: neither wish gives way.
      ...(kgPerMonth !== undefined && market && { excess: 'stays' }),
      ...(tanks !== undefined && species && { tanks }),
      ...(hasWeights && { startWeight, harvestWeight }),
    },
  };
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);

function answerOf(record: FarmRecord, all: readonly FarmRecord[]): WishAnswer | undefined {
  const figures = figuresOf(record, all);
  const wish = wishFrom(figures);
  if (wish === undefined) return undefined;
  const proposal = propose(readWish(wish, DAY));
  const { fish, beds } = proposal;
  const pairs: readonly (readonly [Compared, number | undefined, number | undefined])[] = [
    ['tanks', publishedTanks(figures), fish && sum(fish.tanks) / 1000],
    ['feed', publishedFeed(figures), fish?.meanFeed],
    [
      'beds',
      figures.number('bed_area_m2'),
      beds.length > 0 ? sum(beds.map(({ area }) => area)) : undefined,
    ],
  ];
  const rows = pairs.flatMap(([what, published, model]): WishFigure[] => {
    if (published === undefined || model === undefined) return [];
    const ratio = model / published;
    const [low, high] = wishBands[what];
    return [{ what, published, model, ratio, inside: ratio >= low && ratio <= high }];
  });
  return rows.length === 0 ? undefined : { record, wish, figures, proposal, rows };
}

/** The records that state enough for a wish, each with what is proposed for it beside what was built. */
export const wishAnswers = (records: readonly FarmRecord[]): readonly WishAnswer[] =>
  records.flatMap((record) => answerOf(record, records) ?? []);
