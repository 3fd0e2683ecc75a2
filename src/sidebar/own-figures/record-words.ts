/** An own figure in words for a reader. */
import type { OwnRecord } from '../../experience/figures-of-registers';
import { figureWords } from '../../plan/own-figure-rows';

const digits = (value: number): string => String(Number(value.toPrecision(3)));

/** "39 days", "84 %", "0.21 kg" */
export function withUnit(value: number, unit: string): string {
  if (unit === 'share') return `${digits(100 * value)} %`;
  if (unit === 'day') return `${digits(value)} ${digits(value) === '1' ? 'day' : 'days'}`;
  return unit === '' ? digits(value) : `${digits(value)} ${unit}`;
}

export const batchWord = ({ figure }: Pick<OwnRecord, 'figure'>, count: number): string =>
  figure === 'price'
    ? `${count} ${count === 1 ? 'sale' : 'sales'}`
    : `${count} ${count === 1 ? 'batch' : 'batches'}`;

export const titleOf = ({ figure }: Pick<OwnRecord, 'figure'>): string => figureWords[figure];

/** Shares below this are no difference that a grower would see. */
const SAME = 0.005;

/** How the own figure differs from the table's, and whether so many batches can tell. */
export function differenceInWords(record: OwnRecord): string {
  const { mean, table, interval, unit } = record;
  const own = `Own: ${withUnit(mean, unit)} in ${batchWord(record, record.batches)}.`;
  if (table === undefined || table.usual === 0) return `${own} The tables say nothing of it.`;
  const beside = `table: ${withUnit(table.usual, unit)}`;
  const share = mean / table.usual - 1;
  const differs =
    Math.abs(share) < SAME
      ? `as the table says (${beside})`
      : `${digits(Math.abs(100 * share))} % ${share > 0 ? 'above' : 'below'} the table (${beside})`;
  const sure =
    interval === undefined
      ? 'One batch cannot say how far others lie from it.'
      : interval[1] - interval[0] <= 1e-9 * Math.abs(mean)
        ? 'All of them are alike: look whether they were typed as planned.'
        : interval[0] <= table.usual && table.usual <= interval[1]
          ? 'The table lies within what these batches leave open.'
          : 'So many batches that lie so close together do differ from the table.';
  return `${own} That is ${differs}. ${sure}`;
}
