/** The farm that the open workbook holds, read from its cells as the terminal reads it, and rows of the planner in it. */
import type { AheadPlanned } from '../../ahead/plan-ahead';
import { ownRows, type RowPlaces } from '../../ahead/planner-rows';
import { bookChange, type TypedChange } from '../../ahead/rows-in-book';
import { type WrittenRows, writtenRows } from '../../ahead/written-rows';
import { isoText } from '../../core/serial-date';
import { openBook } from '../../ooxml/open-book';
import { typedIntoBook } from '../../ooxml/typed-into-book';
import { BookCells, type Cells, placeText } from '../../plan/book-snapshot';
import { type Farm, readFarm } from '../../plan/farm';
import { type BookReading, plansIn, readBook } from '../../plan/read-book';
import type { Host } from '../host';

export interface OpenFarm {
  readonly bytes: Uint8Array;
  readonly cells: Cells;
  readonly reading: BookReading;
  readonly farm: Farm;
  /** What the names of the plan end with. */
  readonly suffix: string;
}

/** Cells of the workbook are wrong; each with a sentence. */
export class WrongCells extends Error {
  constructor(readonly sentences: readonly string[]) {
    super(sentences.join('\n'));
  }
}

/** Throws NoPlanFound or WrongCells. */
export async function openFarm(host: Pick<Host, 'fileBytes'>): Promise<OpenFarm> {
  const bytes = await host.fileBytes();
  const cells = new BookCells(openBook(bytes));
  const reading = readBook(cells);
  if (!reading.farm) throw new WrongCells(reading.faults.map(({ says }) => says));
  return { bytes, cells, reading, farm: reading.farm, suffix: plansIn(cells)[0] ?? '' };
}

/** The same farm as it stands on another day. */
export const onDay = ({ reading }: Pick<OpenFarm, 'reading'>, day: number): Farm =>
  readFarm({ ...reading.file, asOf: isoText(day) });

/** What a plan, or taking rows back, does to the workbook. */
export interface PlanChange {
  /** Cells that get another value, the day of the plan among them. */
  readonly cells: readonly TypedChange[];
  /** The day of the plan from now on, where it becomes another. */
  readonly day?: number;
  readonly rows: WrittenRows;
  readonly gone: RowPlaces;
  /** Rows that find no line in their register. */
  readonly left: { readonly fishLog: number; readonly plantings: number };
}

const NO_ROWS: WrittenRows = { fishLog: [], plantings: [] };

function changeOf(
  { reading, cells }: OpenFarm,
  farm: Farm,
  gone: RowPlaces,
  rows: WrittenRows,
): PlanChange {
  const { dayShift = 0 } = cells;
  const change = bookChange(reading, farm, gone, rows, { dayShift });
  const day = reading.places.get('asOf');
  const moved = day && reading.farm && farm.asOf !== reading.farm.asOf;
  if (moved && day.formula !== undefined) {
    throw new Error(
      `The day of the plan is given by a formula, in ${placeText(day)}, which is not written over: type the day there, then plan from the day of the plan.`,
    );
  }
  return {
    rows,
    ...(moved && { day: farm.asOf }),
    gone,
    left: change.left,
    cells: moved
      ? [
          { sheet: day.sheet, row: day.row, column: day.column, value: farm.asOf - dayShift },
          ...change.cells,
        ]
      : change.cells,
  };
}

/** `farm`: as it was planned, its day with it. */
export function changeOfPlan(open: OpenFarm, farm: Farm, planned: AheadPlanned): PlanChange {
  const own = ownRows(farm, 'ahead');
  const gone = {
    fishLog: planned.fish ? own.fishLog : [],
    plantings: planned.beds ? own.plantings : [],
  };
  return changeOf(open, farm, gone, writtenRows(farm, planned.fish?.rows, planned.beds?.plantings));
}

/** Takes all rows out again that a planner wrote and nobody touched. */
export const changeOfTakingBack = (open: OpenFarm): PlanChange =>
  changeOf(open, open.farm, ownRows(open.farm, 'all'), NO_ROWS);

const FORGOTTEN: ReadonlySet<string> = new Set(['waterTests', 'presets']);

/** Whether two readings say the same to a planner. */
export const isSameFarm = (one: OpenFarm, other: OpenFarm): boolean => {
  const words = ({ reading }: OpenFarm): string =>
    JSON.stringify(reading.file, (key, value: unknown) => (FORGOTTEN.has(key) ? undefined : value));
  return words(one) === words(other);
};

/** The whole workbook with the change in it, its registers grown where they are short. */
export const changedFile = ({ bytes, reading }: OpenFarm, { cells }: PlanChange): Uint8Array =>
  typedIntoBook(bytes, cells, [...reading.places.values()]);
