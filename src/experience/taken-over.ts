/** Own figures written into a farm file, and the switches that say which of them count. */
import { isoText } from '../core/serial-date';
import { noAnswer } from '../core/errors';
import { type Farm, type OwnFigureEntry, readFarm } from '../plan/farm';
import {
  acts,
  FEWEST_BATCHES,
  fewBatches,
  type FigureUse,
  figureWords,
  ownFigureNames,
  rowKey,
} from '../plan/own-figure-rows';
import { type OwnRecord, ownRecords } from './figures-of-registers';
import { partOf } from './records-text';

/** What counts from now on: the farm's own figure, the one between both, or the table's again. */
export const ways = ['own', 'blend', 'table'] as const satisfies readonly FigureUse[];
export type Way = (typeof ways)[number];

/** Fields of a farm file, as its JSON has them. */
type File = Record<string, unknown>;

/** A row of own figures as a farm file has it: days as text. */
type Row = Omit<OwnFigureEntry, 'upTo'> & { readonly upTo?: string };

/** Five figures: more than any batch is known to, and what the grower reads is what the file holds. */
const tidy = (value: number): number => Number(value.toPrecision(5));

const rowsIn = (file: File): readonly Row[] => (file['ownFigures'] ?? []) as readonly Row[];

function rowOf(record: OwnRecord, upTo: number): Row {
  const { figure, of, unit, batches, mean, range, interval, table, blend } = record;
  const part = partOf(record);
  return {
    figure: figureWords[figure],
    ...(of !== '' && { of }),
    ...(part !== undefined && { part }),
    ...(unit !== '' && { unit }),
    batches,
    mean: tidy(mean),
    lowest: tidy(range[0]),
    highest: tidy(range[1]),
    ...(interval && { low: tidy(interval[0]), high: tidy(interval[1]) }),
    ...(table && part === undefined && { weight: tidy(blend.own) }),
    upTo: isoText(upTo),
  };
}

const isInUse = ({ use }: Row): boolean => use === 'own' || use === 'blend';

/** Whole years first, figure by figure; then seasons and months, each crop's together. */
const inOrder = (rows: readonly Row[]): Row[] => {
  const place = (row: Row): number =>
    (row.part === undefined ? 0 : 1000) +
    ownFigureNames.findIndex((name) => figureWords[name] === row.figure);
  return rows
    .map((row, at) => ({ row, at }))
    .sort((a, b) => place(a.row) - place(b.row) || a.at - b.at)
    .map(({ row }) => row);
};

/**
 * The farm file with what its registers come to on the day of the plan. Switches stay as the grower put them; a
 * figure that is in use stays, too, where the registers say nothing of it any more.
 */
export function withRecords(file: File, farm: Farm): File {
  const before = new Map(rowsIn(file).map((row) => [rowKey(row), row]));
  const rows = ownRecords(farm).map((record): Row => {
    const row = rowOf(record, farm.asOf);
    const earlier = before.get(rowKey(row));
    before.delete(rowKey(row));
    const { use, few } = earlier ?? {};
    // Rows were taken out of a register: what was counted before is what the switch was set for.
    if (earlier && isInUse(earlier) && few !== 'yes' && row.batches < FEWEST_BATCHES)
      return earlier;
    return { ...row, ...(use && { use }), ...(few && { few }) };
  });
  const kept = [...before.values()].filter(isInUse);
  const all = inOrder([...rows, ...kept]);
  const rest = { ...file };
  delete rest['ownFigures'];
  return all.length === 0 ? rest : { ...rest, ownFigures: all };
}

/** The farm with its registers counted, as a plan of it shows them. */
export function countedFarm(farm: Farm): Farm {
  const file = withRecords(JSON.parse(farm.file) as File, farm);
  return 'ownFigures' in file ? readFarm(file) : farm;
}

export interface Choice {
  readonly record: OwnRecord;
  readonly way: Way;
  /** The grower's word that few batches are enough. */
  readonly fewAreEnough?: boolean;
}

/**
 * The farm file with one figure switched. Throws where it rests on too few batches without the grower's word, or
 * is of a part of the year or of nothing that the plan computes with.
 */
export function takenOver(
  farm: Pick<Farm, 'asOf'>,
  file: File,
  { record, way, fewAreEnough = false }: Choice,
): File {
  const { of, figure, batches, planted, month } = record;
  const words = `${figureWords[figure]}${of === '' ? '' : ` of ${of}`}`;
  if (planted !== undefined || month !== undefined) {
    throw noAnswer(
      `${words}: the plan has one figure for the whole year; take that of the whole year`,
    );
  }
  if (!acts(figure)) throw noAnswer(`${words}: nothing in the plan computes with it`);
  const isFew = batches < FEWEST_BATCHES && way !== 'table';
  if (isFew && !fewAreEnough) throw noAnswer(`${words} ${fewBatches(batches)}`);
  const row: Row = {
    ...rowOf(record, farm.asOf),
    use: way,
    ...(isFew && { few: 'yes' as const }),
  };
  const others = rowsIn(file).filter((candidate) => rowKey(candidate) !== rowKey(row));
  return { ...file, ownFigures: inOrder([...others, row]) };
}
