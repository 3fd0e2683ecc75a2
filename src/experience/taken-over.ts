/** Own figures put in the place of the table's in a farm file. */
import { noAnswer } from '../core/errors';
import { cropTable } from '../functions/crop-table';
import type { Farm } from '../plan/farm';
import { unitOf } from './crop-records';
import { FEWEST_BATCHES, figureWords, type OwnRecord } from './figures-of-registers';

/** How a figure is taken over: as the farm's own, or weighed against the table. */
export const ways = ['own', 'blend'] as const;
export type Way = (typeof ways)[number];

/** Fields of a farm file, as its JSON has them. */
type File = Record<string, unknown>;
type Rows = readonly File[];

const wrap = (value: unknown): File => (value ?? {}) as File;

/** Five figures: more than any batch is known to, and what the grower reads is what the file holds. */
const tidy = (value: number): number => Number(value.toPrecision(5));

export interface Choice {
  readonly record: OwnRecord;
  readonly way: Way;
  /** The grower's word that few batches are enough. */
  readonly fewAreEnough?: boolean;
}

/** Changes the row of the crop's market; undefined where it has none. */
function withMarket(file: File, crop: string, change: (market: File) => File): File | undefined {
  const markets = (file['markets'] ?? []) as Rows;
  const isOf = (market: File): boolean =>
    cropTable.book.find(String(market['crop']))?.name === crop;
  if (!markets.some(isOf)) return undefined;
  return { ...file, markets: markets.map((market) => (isOf(market) ? change(market) : market)) };
}

const withFact = (
  file: File,
  list: 'crops' | 'species',
  name: string,
  fact: string,
  value: number,
): File => {
  const all = wrap(file[list]);
  return { ...file, [list]: { ...all, [name]: { ...wrap(all[name]), [fact]: value } } };
};

/**
 * The farm file with one figure taken over. Throws where it rests on too few batches without the grower's word,
 * or is of a part of the year, for which a plan has no place.
 */
export function takenOver(
  farm: Pick<Farm, 'markets'>,
  file: File,
  { record, way, fewAreEnough = false }: Choice,
): File {
  const { of, figure, batches, mean, blend, planted, month } = record;
  const words = `${figureWords[figure]}${of === '' ? '' : ` of ${of}`}`;
  if (planted !== undefined || month !== undefined) {
    throw noAnswer(
      `${words}: the plan has one figure for the whole year; take that of the whole year`,
    );
  }
  if (batches < FEWEST_BATCHES && !fewAreEnough) {
    throw noAnswer(
      `${words} rests on ${batches} ${batches === 1 ? 'batch' : 'batches'}, and fewer than ${FEWEST_BATCHES} are not taken over unless you say that few are enough`,
    );
  }
  const value = tidy(way === 'own' ? mean : blend.figure);
  switch (figure) {
    case 'tgc':
      return withFact(file, 'species', of, 'tgc', value);
    case 'survival':
      return { ...file, stock: { ...wrap(file['stock']), survival: Math.min(1, value) } };
    case 'plants_per_seed': {
      const losses = farm.markets.find(({ crop }) => crop === of)?.losses ?? 0;
      const germination = Math.min(1, tidy(value / (1 - losses)));
      return (
        withMarket(file, of, (market) => ({ ...market, germination })) ??
        withFact(file, 'crops', of, 'germination', germination)
      );
    }
    case 'units_per_plant': {
      const changed = withMarket(file, of, (market) => ({ ...market, perPlant: value }));
      if (changed !== undefined) return changed;
      const crop = cropTable.book.find(of);
      if (crop === undefined || unitOf(farm.markets, of) !== 'kg') {
        throw noAnswer(`${words}: there is no row of the crop on Sowing to put it in`);
      }
      return withFact(file, 'crops', crop.name, 'kg_per_plant', value);
    }
    case 'price': {
      const changed = withMarket(file, of, (market) => ({ ...market, price: value }));
      if (changed === undefined) {
        throw noAnswer(`${words}: there is no row of the crop on Sowing to put it in`);
      }
      return changed;
    }
    default:
      return withFact(file, 'crops', of, figure, value);
  }
}
