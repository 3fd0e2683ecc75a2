import { registries, type CellPosition } from '@odoo/o-spreadsheet';
import { needParts, replacePlugin, type Patch } from './patch';

interface Command {
  readonly type: string;
}

interface Zone {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface EvaluationPlugin {
  readonly evaluator: { updateDependencies(position: CellPosition): void };
  readonly shouldRebuildDependenciesGraph: boolean;
  readonly positionsToUpdate: CellPosition[];
  beforeHandle(command: Command): void;
  handle(command: Command): void;
}

const NAME = 'undo-evaluation';

/** Above so many cells it is no slower to compute the whole workbook. */
const MAX_CELLS_TAKEN_BACK = 500;

const cellsOfZone = (sheetId: string, { left, right, top, bottom }: Zone): CellPosition[] =>
  Array.from({ length: (right - left + 1) * (bottom - top + 1) }, (_, k) => ({
    sheetId,
    col: left + (k % (right - left + 1)),
    row: top + Math.floor(k / (right - left + 1)),
  }));

/** The cells that a step may have changed; undefined where it changed more than cells, or many. */
function changedBy(step: Command): CellPosition[] | undefined {
  switch (step.type) {
    case 'UPDATE_CELL':
    case 'CLEAR_CELL': {
      const { sheetId, col, row } = step as Command & CellPosition;
      return [{ sheetId, col, row }];
    }
    case 'DELETE_CONTENT':
    case 'CLEAR_CELLS': {
      const { sheetId, target } = step as Command & { sheetId: string; target: readonly Zone[] };
      const cells = target.reduce(
        (sum, { left, right, top, bottom }) => sum + (right - left + 1) * (bottom - top + 1),
        0,
      );
      return cells > MAX_CELLS_TAKEN_BACK
        ? undefined
        : target.flatMap((zone) => cellsOfZone(sheetId, zone));
    }
    default:
      return undefined;
  }
}

/** The cells that an undone or redone step changed; undefined for other commands, and where all may differ. */
function cellsTakenBack(command: Command): CellPosition[] | undefined {
  if (command.type !== 'UNDO' && command.type !== 'REDO') return undefined;
  const { commands } = command as Command & { commands: readonly Command[] };
  const cells: CellPosition[] = [];
  for (const step of commands) {
    const changed = changedBy(step);
    if (!changed || cells.length + changed.length > MAX_CELLS_TAKEN_BACK) return undefined;
    cells.push(...changed);
  }
  return cells;
}

/** Computes after an undo or redo what depends on the cells that were changed back. */
export const undoEvaluation: Patch = {
  name: NAME,
  upstream: 'Every undo and redo computes the whole workbook: a second for the demo plan.',
  until: 'the library computes after an undo no more than after the edit',
  apply: () =>
    replacePlugin(
      NAME,
      registries.coreViewsPluginRegistry,
      'evaluation',
      ['beforeHandle', 'handle'],
      (Original: new (config: unknown) => EvaluationPlugin) =>
        class extends Original {
          constructor(config: unknown) {
            super(config);
            needParts(NAME, this, ['evaluator', 'positionsToUpdate']);
            needParts(NAME, this, ['shouldRebuildDependenciesGraph']);
            needParts(NAME, this.evaluator, ['updateDependencies']);
          }

          override beforeHandle(command: Command): void {
            if (!cellsTakenBack(command)) super.beforeHandle(command);
          }

          override handle(command: Command): void {
            const cells = cellsTakenBack(command);
            if (!cells) return super.handle(command);
            if (this.shouldRebuildDependenciesGraph) return;
            for (const cell of cells) this.evaluator.updateDependencies(cell);
            this.positionsToUpdate.push(...cells);
          }
        },
    ),
};
