import { GillError } from '../../core/errors';
import { callCard } from '../../functions/call';
import { cropTable } from '../../functions/crop-table';
import { findCard } from '../../functions/card-list';
import type { Argument } from '../../functions/parameter';
import { speciesTable } from '../../functions/species-table';
import { callText } from '../function-page';
import type { Figures } from './farm-record';

/** The model does not answer: what it would need. */
export class NoAnswer extends Error {}

/** Asks functions of the catalogue and keeps what was asked, so that a page can show it. */
export class CatalogueModel {
  readonly calls: string[] = [];

  #cell(id: string, args: readonly Argument[]): ReturnType<typeof callCard> {
    const card = findCard(id);
    if (!card) throw new NoAnswer(`no function ${id} yet`);
    const cell = callCard(card, args);
    if (cell instanceof GillError) throw new NoAnswer(`GILL.${id}: ${cell.message}`);
    this.calls.push(callText(card, args as never));
    return cell;
  }

  ask(id: string, ...args: readonly Argument[]): number {
    const cell = this.#cell(id, args);
    if (typeof cell !== 'number') throw new NoAnswer(`GILL.${id} gives no number here`);
    return cell;
  }

  rows(id: string, ...args: readonly Argument[]): readonly (readonly unknown[])[] {
    const cell = this.#cell(id, args);
    return Array.isArray(cell) ? cell : [];
  }

  /** Whether a function takes a parameter of that name. */
  takes(id: string, name: string): boolean {
    return findCard(id)?.parameters.some((parameter) => parameter.name === name) ?? false;
  }
}

const wanted = <T>(value: T | undefined, what: string): T => {
  if (value === undefined) throw new NoAnswer(`the record does not state ${what}`);
  return value;
};

export const figure = (f: Figures, ...names: readonly string[]): number =>
  wanted(f.number(...names), (names[0] ?? '').replaceAll('_', ' '));

/** The species of the table that is meant: its own name, or the one whose family name is said. */
export function speciesOf(f: Figures): string {
  const said = `${f.text('species') ?? ''} ${f.said}`.toLowerCase();
  // The longest name first: an improved strain is not its wild kind.
  const names = [...speciesTable.book.names].sort((a, b) => b.length - a.length);
  const named = names.find((name) => said.includes(name.toLowerCase()));
  if (named !== undefined) return named;
  if (/tilapia/.test(said)) return 'Nile tilapia';
  if (/\bcarp\b/.test(said)) return 'common carp';
  if (/\btrout\b/.test(said)) return 'rainbow trout';
  throw new NoAnswer(`the table has no figures for ${f.text('species') ?? 'this fish'}`);
}

/** The crop that is said; the crop of the record; undefined where only its group is known. */
export function cropOf(f: Figures): string | undefined {
  const names = [...cropTable.book.names, ...(cropTable.book.otherNames ?? [])]
    .filter((name) => name.length > 3)
    .sort((a, b) => b.length - a.length);
  const find = (text: string): string | undefined =>
    names.find((name) => new RegExp(`\\b${name}s?\\b`, 'i').test(text));
  const found = find(f.comparison.ask) ?? find(f.said) ?? find(f.text('crop') ?? '');
  return found && cropTable.book.find(found)?.name;
}

export const groupOf = (f: Figures): string =>
  /fruiting|tomato|cucumber|aubergine|pepper/i.test(`${f.said} ${f.text('crop') ?? ''}`)
    ? 'fruiting'
    : 'leafy';

/** The kind of bed in the words that the functions take. */
export function bedOf(f: Figures): string {
  const said = `${f.said} ${f.text('bed_kind') ?? ''}`;
  if (/\braft/i.test(said)) return 'raft';
  if (/film|shallow|trough/i.test(said)) return 'film';
  return 'gravel';
}

/** Protein of the feed as a share; the usual one where the record is silent. */
export function proteinOf(f: Figures): number {
  const said = /(\d+(?:\.\d+)?) % protein/.exec(f.said)?.[1];
  return (said === undefined ? (f.number('feed_protein_percent') ?? 32) : Number(said)) / 100;
}

/** Water of the record, or the middle of what suits its fish best where it is silent. */
export function waterOf(f: Figures, model: CatalogueModel): number {
  const said = /at (\d+(?:\.\d+)?) degC/.exec(f.said)?.[1];
  if (said !== undefined) return Number(said);
  const stated = f.number('water_temperature_c');
  if (stated !== undefined) return stated;
  const species = speciesOf(f);
  const ends = ['best low', 'best high'].map((fact) => model.ask('FACT.FISH', species, fact));
  return ends.reduce((sum, end) => sum + end, 0) / ends.length;
}

/** Start and end weight of the fish, g: as asked ("from 79 to 814 g", "170-500 g"), or of the record. */
export function weightsOf(f: Figures): readonly [from: number, to: number] | undefined {
  const said = /(\d+(?:\.\d+)?)(?: to |-)(\d+(?:\.\d+)?) g\b/.exec(f.said);
  if (said) return [Number(said[1]), Number(said[2])];
  const [from, to] = [f.number('start_weight_g'), f.number('end_weight_g')];
  if (from !== undefined && to !== undefined && to > from) return [from, to];
  // Trials that call their fish small or fingerlings: what is usually meant.
  return /fingerling|\bsmall\b/i.test(f.said) ? [15, 100] : undefined;
}

const months = [
  ...['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August'],
  ...['September', 'October', 'November', 'December'],
];
/** A month for a season that a record names without its months; the one that is asked about comes first. */
const seasons: readonly (readonly [RegExp, month: string])[] = [
  [/\bwinter\b/, 'December'],
  [/\bautumn\b/, 'October'],
  [/\bspring\b/, 'April'],
  [/\bsummer\b/, 'June'],
];

function monthsOf(f: Figures): readonly number[] {
  const text = `${f.said} ${f.place}`;
  const named = months.flatMap((month, i) => (new RegExp(`\\b${month}\\b`).test(text) ? [i] : []));
  // From one month to another all between them are meant.
  const span = new RegExp(`\\b(${months.join('|')}) to (${months.join('|')})\\b`).exec(text);
  if (span) {
    const [from, to] = [months.indexOf(span[1] as string), months.indexOf(span[2] as string)];
    return months
      .map((_, i) => i)
      .filter((i) => (from <= to ? i >= from && i <= to : i >= from || i <= to));
  }
  if (named.length > 0) return named;
  const season = seasons.find(([words]) => words.test(text))?.[1];
  return season === undefined ? [] : [months.indexOf(season)];
}

/** Light inside in the season that is said, over what the crop wants, at most 1; 1 where none is said. */
export function lightShare(f: Figures, model: CatalogueModel, crop: string): number {
  const latitude =
    f.number('latitude_deg') ?? Number(/(\d+(?:\.\d+)?) degN/.exec(f.said)?.[1] ?? NaN);
  const said = monthsOf(f);
  if (said.length === 0 || !Number.isFinite(latitude)) return 1;
  const shares = said.map((month) => {
    const day = `2026-${String(month + 1).padStart(2, '0')}-15`;
    const outside = model.ask('SUN.RADIATION', latitude, day) * CLEARNESS * LIGHT_IN_MEGAJOULE;
    return Math.min(1, (outside * COVER) / model.ask('FACT.CROP', crop, 'daily light'));
  });
  return shares.reduce((sum, share) => sum + share, 0) / shares.length;
}

/** Share of the sun above the air that reaches the ground over a year in a temperate climate (recalled). */
const CLEARNESS = 0.5;
/** mol of light for plants in a MJ of sun: 45 % of it, 4.57 µmol/J (Akitsu et al. 2022). */
const LIGHT_IN_MEGAJOULE = 0.45 * 4.57;
/** Light that a greenhouse lets through, frame and all (recalled; film trials of Purdue give 0.6 to 0.8). */
const COVER = 0.7;

/** K between the highest and the lowest air of a day, where a record is silent (common practice). */
const DAY_RANGE = 8;

/** L/day that the crops of an area drink, as a mean of the months that are said, or of the year. */
export function cropWater(f: Figures, model: CatalogueModel, area: number): number {
  const latitude = figure(f, 'latitude_deg');
  const crop = cropOf(f) ?? 'lettuce';
  const air = f.number('water_temperature_c') ?? model.ask('FACT.CROP', crop, 'air');
  const said = monthsOf(f);
  const days = said.length > 0 ? said : months.map((_, i) => i);
  const sum = days.reduce((water, month) => {
    const day = `2026-${String(month + 1).padStart(2, '0')}-15`;
    const [high, low] = [air + DAY_RANGE / 2, air - DAY_RANGE / 2];
    return water + model.ask('WATER.USE', area, high, low, latitude, day, crop);
  }, 0);
  return sum / days.length;
}

/** Days that a whole crop takes its bed, cleaning included. */
export const cycleDays = (model: CatalogueModel, crop: string): number =>
  7 * model.ask('BED.PLANTS', 1, crop) + model.ask('FACT.CROP', crop, 'rest days');
