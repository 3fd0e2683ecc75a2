/** Own figures in lines for a reader. */
import { MONTH_NAMES } from '../core/month-names';
import { FEWEST_BATCHES, figureWords } from '../plan/own-figure-rows';
import { type OwnRecord, SURE } from './figures-of-registers';

const digits = (value: number): string => String(Number(value.toPrecision(3)));

/** What a record is of, as it is asked for: "lettuce: bed_days". */
export const recordName = ({ of, figure }: Pick<OwnRecord, 'of' | 'figure'>): string =>
  of === '' ? figure : `${of}: ${figure}`;

/** The part of the year that a record is of; undefined for the whole of it. */
export const partOf = ({ planted, month }: OwnRecord): string | undefined =>
  planted !== undefined
    ? `planted out ${planted}`
    : month !== undefined
      ? MONTH_NAMES[month - 1]
      : undefined;

export function recordLine(record: OwnRecord): string {
  const { batches, mean, range, interval, table, blend, unit } = record;
  const part = partOf(record);
  const head = `${recordName(record)}${part === undefined ? '' : `, ${record.month === undefined ? '' : 'in '}${part}`} (${figureWords[record.figure]}${unit === '' ? '' : `, ${unit}`})`;
  const [one, several] = record.figure === 'price' ? ['sale', 'sales'] : ['batch', 'batches'];
  const own =
    batches === 1
      ? `${digits(mean)} in one ${one}`
      : `${digits(mean)} in ${batches} ${several} from ${digits(range[0])} to ${digits(range[1])}`;
  const sure =
    interval === undefined
      ? 'how far others lie from it is not known'
      : `their mean lies between ${digits(interval[0])} and ${digits(interval[1])} with ${100 * SURE} % certainty`;
  const beside =
    table === undefined
      ? 'nothing to compare with'
      : `table ${digits(table.usual)}, weighed together ${digits(blend.figure)} (${Math.round(100 * blend.own)} % own)`;
  const few = batches < FEWEST_BATCHES ? `; few ${several}` : '';
  return `${head}: ${own}; ${sure}; ${beside}${few}`;
}
