import type { FigureRange, LookupColumn, LookupMatrix } from '../functions/lookup';
import { readable, unitWord } from '../functions/unit-word';

/**
 * What a grower knows better than the tables of crops or species: by name and fact. Null is a figure that
 * was cleared, a list a line of a block such as the feed by weight.
 */
export type OwnFigures = Readonly<
  Record<string, Readonly<Record<string, number | string | null | readonly number[]>>>
>;

/** The figure of a row as the farm has it: its own, none where it was cleared, the table's. */
export function ownFigure<R>(
  own: OwnFigures | undefined,
  name: string,
  { fact, of }: LookupColumn<R>,
  row: R,
): number | string {
  const given = own?.[name]?.[fact];
  if (given === null) return '';
  return typeof given === 'number' || typeof given === 'string' ? given : of(row);
}

/** A line of a block as the farm has it. */
export function ownLine<R>(
  own: OwnFigures | undefined,
  name: string,
  { fact, of }: LookupMatrix<R>,
  row: R,
): readonly number[] {
  const given = own?.[name]?.[fact];
  return Array.isArray(given) ? (given as readonly number[]) : of(row);
}

/** "a number from 0.5 to 10"; of any range, "a number". */
export function rangeOfFigure(
  range: FigureRange | undefined,
  unit: string,
  what = 'a number',
): string {
  if (range === undefined) return what;
  // A share is written as one in the file: 1 is all of it.
  const measured = unit === '' ? '' : unit === 'share' ? ' (1 is 100 %)' : ` ${unitWord(unit)}`;
  return readable(`${what} from ${range[0]} to ${range[1]}${measured}`);
}
