import { invalidateEvaluationCommands, type Model } from '@odoo/o-spreadsheet';
import { reachesMore } from '../../engine/what-takes-long';

/** A command as the grid gets it from whoever works on it. */
export interface GridCommand {
  readonly type: string;
  readonly sheetId?: string;
  readonly col?: number;
  readonly row?: number;
  readonly target?: readonly Zone[];
  readonly zone?: Zone;
  readonly content?: string;
  readonly dimension?: 'ROW' | 'COL';
}

interface Zone {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface Area {
  readonly sheetId: string;
  readonly zone: Zone;
}

/**
 * A telephone is a quarter as fast as a desk's machine: what takes that a tenth of a second is as much as these.
 * Cells of a workbook of which all are looked at or computed;
 */
const CELLS = 2_000;
/** cells that are written; */
const WRITTEN = 500;
/** formulas that are computed. */
const COMPUTED = 250;

/** Commands after which all is computed, moved or measured anew. */
const WHOLE: ReadonlySet<string> = new Set([
  ...[...invalidateEvaluationCommands].filter((type) => !type.endsWith('_PIVOT')),
  ...['MOVE_RANGES', 'MOVE_COLUMNS_ROWS', 'INSERT_CELL', 'DELETE_CELL', 'SORT_CELLS'],
  ...['PASTE', 'PASTE_FROM_OS_CLIPBOARD', 'REPLACE_SEARCH', 'UPDATE_FILTER'],
  ...['HIDE_COLUMNS_ROWS', 'UNHIDE_COLUMNS_ROWS'],
]);

/** Commands that write into the cells they name, or into those that are selected. */
const WRITING: ReadonlySet<string> = new Set([
  ...['UPDATE_CELL', 'CLEAR_CELL', 'CLEAR_CELLS', 'DELETE_CONTENT', 'DELETE_UNFILTERED_CONTENT'],
  ...['AUTOFILL', 'AUTOFILL_AUTO', 'REMOVE_DUPLICATES', 'TRIM_WHITESPACE', 'SUM_SELECTION'],
  'SPLIT_TEXT_INTO_COLUMNS',
]);

/** Commands that change how such cells look. */
const LOOKS: ReadonlySet<string> = new Set([
  ...['SET_FORMATTING', 'SET_FORMATTING_WITH_PIVOT', 'CLEAR_FORMATTING', 'SET_DECIMAL'],
  'SET_ZONE_BORDERS',
]);

const linesOf = ({ dimension }: GridCommand): string => (dimension === 'COL' ? 'Columns' : 'Rows');

function wordsOf(command: GridCommand): string {
  switch (command.type) {
    case 'ADD_COLUMNS_ROWS':
      return `${linesOf(command)} come in`;
    case 'REMOVE_COLUMNS_ROWS':
      return `${linesOf(command)} go out`;
    case 'RENAME_SHEET':
      return 'The sheet gets its name';
    case 'DELETE_SHEET':
      return 'The sheet goes out';
    case 'REQUEST_UNDO':
      return 'Going back a step';
    case 'REQUEST_REDO':
      return 'Going on a step';
    case 'UPDATE_CELL':
      return 'Computing what hangs on the cell';
    default:
      return 'Changing the cells';
  }
}

/** Whether what looks at all cells of a workbook takes long. */
export function hasMoreCells({ getters }: Model, cells = CELLS): boolean {
  let left = cells;
  for (const sheetId of getters.getSheetIds()) {
    left -= getters.getCells(sheetId).length;
    if (left < 0) return true;
  }
  return false;
}

function areasOf({ getters }: Model, command: GridCommand): Area[] {
  const { sheetId = getters.getActiveSheetId(), col, row, target, zone } = command;
  if (col !== undefined && row !== undefined) {
    return [{ sheetId, zone: { left: col, right: col, top: row, bottom: row } }];
  }
  const zones = target ?? (zone ? [zone] : getters.getSelectedZones());
  return zones.map((one) => ({ sheetId, zone: one }));
}

const cellsIn = (areas: readonly Area[]): number =>
  areas.reduce(
    (sum, { zone: { left, right, top, bottom } }) => sum + (right - left + 1) * (bottom - top + 1),
    0,
  );

interface Revision {
  readonly commands?: readonly GridCommand[];
}

interface History {
  readonly undoStack: readonly string[];
  readonly redoStack: readonly string[];
  readonly session: {
    readonly revisions: { get(id: string): Revision };
    getLastLocalNonEmptyRevision(): Revision | undefined;
  };
}

/** The commands that an undo takes back or a redo does once more. */
function stepsOf(model: Model, type: string): readonly GridCommand[] {
  const { handlers } = model as unknown as { readonly handlers: readonly object[] };
  const history = handlers.find((one): one is History => 'undoStack' in one && 'redoStack' in one);
  if (!history) return [];
  const { undoStack, redoStack, session } = history;
  const id = (type === 'REQUEST_UNDO' ? undoStack : redoStack).at(-1);
  const step =
    id === undefined ? session.getLastLocalNonEmptyRevision() : session.revisions.get(id);
  return step?.commands ?? [];
}

function isLong(model: Model, command: GridCommand): boolean {
  const { type } = command;
  if (type === 'REQUEST_UNDO' || type === 'REQUEST_REDO') {
    const steps = stepsOf(model, type);
    return steps.length > WRITTEN || steps.some((step) => isLong(model, step));
  }
  if (WHOLE.has(type)) return hasMoreCells(model);
  if (LOOKS.has(type)) return cellsIn(areasOf(model, command)) > WRITTEN;
  if (!WRITING.has(type)) return false;
  // How a cell looks is no reason to compute.
  if (type === 'UPDATE_CELL' && command.content === undefined) return false;
  const areas = areasOf(model, command);
  return (
    cellsIn(areas) > WRITTEN ||
    (reachesMore(model, areas, COMPUTED) && hasMoreCells(model, COMPUTED))
  );
}

/** What is said while a command is done that may take longer than a tenth of a second; undefined of others. */
export const longWords = (model: Model, command: GridCommand): string | undefined =>
  isLong(model, command) ? wordsOf(command) : undefined;

/** The same where the workbook is large, for a command that all cells are looked at for. */
export const wordsOfWhole = (command: GridCommand): string | undefined =>
  WHOLE.has(command.type) ? wordsOf(command) : undefined;
