import type { CellPosition } from '@odoo/o-spreadsheet';
import type { Area, Getters } from './dependencies';

interface Waiting extends Iterable<Area> {
  isEmpty(): boolean;
}

export interface Computing {
  readonly getters: Getters;
  readonly nextRangesToUpdate: Waiting;
  readonly cellsBeingComputed: Set<unknown>;
  readonly spreadingRelations: { isArrayFormula(position: CellPosition): boolean };
  evaluate(ranges: Iterable<object>): void;
  computeCell(position: CellPosition): object;
}

function* positionsOf(areas: Iterable<Area>): Generator<CellPosition> {
  for (const { sheetId, zone } of areas) {
    for (let col = zone.left; col <= zone.right; col++) {
      for (let row = zone.top; row <= zone.bottom; row++) yield { sheetId, col, row };
    }
  }
}

/**
 * Where a block that a formula fills moves what the formula reads, the engine gives up after thirty rounds and
 * leaves cells empty that hold a formula, or with the value of some round. Here the formulas of such blocks
 * are a circle, as one that refers to its own cell, and what depends on them is computed with that error.
 */
export function endTheEndless(evaluator: Computing): void {
  const { getters } = evaluator;
  const evaluate = evaluator.evaluate.bind(evaluator);
  const compute = evaluator.computeCell.bind(evaluator);
  const circles = new Set<unknown>();
  evaluator.computeCell = (position) => {
    const cell = circles.size > 0 ? getters.getCell(position) : undefined;
    // What the engine finds being computed when it comes to compute it is a circle to it.
    if (cell && circles.has(cell.id)) evaluator.cellsBeingComputed.add(cell.id);
    return compute(position);
  };
  evaluator.evaluate = (ranges) => {
    circles.clear();
    evaluate(ranges);
    while (!evaluator.nextRangesToUpdate.isEmpty()) {
      const waiting = [...evaluator.nextRangesToUpdate];
      const known = circles.size;
      for (const position of positionsOf(waiting)) {
        if (!evaluator.spreadingRelations.isArrayFormula(position)) continue;
        const cell = getters.getCell(position);
        if (cell) circles.add(cell.id);
      }
      if (circles.size === known) return;
      evaluate(waiting);
    }
  };
}
