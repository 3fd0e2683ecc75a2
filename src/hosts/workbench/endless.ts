import type { CellPosition } from '@odoo/o-spreadsheet';
import type { Getters } from './dependencies';

/** Ranges that wait to be computed. */
interface Waiting extends Iterable<{
  readonly sheetId: string;
  readonly zone: { readonly left: number; readonly right: number; top: number; bottom: number };
}> {
  isEmpty(): boolean;
  clear(): void;
}

export interface Computing {
  readonly getters: Getters;
  readonly nextRangesToUpdate: Waiting;
  readonly cellsBeingComputed: Set<unknown>;
  readonly evaluatedCells: {
    set(position: CellPosition, cell: object): void;
    delete(position: CellPosition): void;
  };
  evaluate(ranges: Iterable<object>): void;
  computeCell(position: CellPosition): object;
}

function* positionsOf(waiting: Waiting): Generator<CellPosition> {
  for (const { sheetId, zone } of [...waiting]) {
    for (let col = zone.left; col <= zone.right; col++) {
      for (let row = zone.top; row <= zone.bottom; row++) yield { sheetId, col, row };
    }
  }
}

/**
 * Where a block that a formula fills moves what the formula reads, the engine gives up after thirty rounds and
 * leaves cells empty that hold a formula, or with the value of some round. Here they are a circle, as where a
 * formula refers to its own cell.
 */
export function endTheEndless(evaluator: Computing): void {
  const evaluate = evaluator.evaluate.bind(evaluator);
  evaluator.evaluate = (ranges) => {
    evaluate(ranges);
    const ended = new Set<unknown>();
    while (!evaluator.nextRangesToUpdate.isEmpty()) {
      const positions = [...positionsOf(evaluator.nextRangesToUpdate)];
      evaluator.nextRangesToUpdate.clear();
      for (const position of positions) {
        const cell = evaluator.getters.getCell(position);
        if (!cell || ended.has(cell.id)) continue;
        ended.add(cell.id);
        evaluator.evaluatedCells.delete(position);
        // What the engine finds being computed while it computes it is a circle to it.
        if (cell.isFormula) evaluator.cellsBeingComputed.add(cell.id);
        evaluator.evaluatedCells.set(position, evaluator.computeCell(position));
      }
    }
  };
}
