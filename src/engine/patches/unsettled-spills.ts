import { type CellPosition } from '@odoo/o-spreadsheet';
import type { Area, Getters } from './dependency-graph';
import { mendEvaluator, needParts, type Patch } from './patch';

interface Waiting extends Iterable<Area> {
  isEmpty(): boolean;
}

interface Evaluator {
  readonly getters: Getters;
  readonly nextRangesToUpdate: Waiting;
  readonly cellsBeingComputed: Set<unknown>;
  readonly spreadingRelations: { isArrayFormula(position: CellPosition): boolean };
  evaluate(ranges: Iterable<object>): void;
  computeCell(position: CellPosition): object;
}

const NAME = 'unsettled-spills';

function* positionsOf(areas: Iterable<Area>): Generator<CellPosition> {
  for (const { sheetId, zone } of areas) {
    for (let col = zone.left; col <= zone.right; col++) {
      for (let row = zone.top; row <= zone.bottom; row++) yield { sheetId, col, row };
    }
  }
}

function endInCircles(evaluator: Evaluator): void {
  const { getters } = evaluator;
  const evaluate = evaluator.evaluate.bind(evaluator);
  const compute = evaluator.computeCell.bind(evaluator);
  const circles = new Set<unknown>();
  evaluator.computeCell = (position) => {
    const cell = circles.size > 0 ? getters.getCell(position) : undefined;
    // What the library finds being computed when it comes to compute it is a circle to it.
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

/**
 * Formulas whose blocks move each other are a circle, as a formula that refers to its own cell is, and what
 * depends on them is computed with that error.
 */
export const unsettledSpills: Patch = {
  name: NAME,
  upstream:
    'Where a block that a formula fills moves what the formula reads, the library gives up after thirty rounds, and leaves formulas without a value or with that of some round.',
  until: 'the library shows an error in such cells',
  apply: () =>
    mendEvaluator<Evaluator>(NAME, (evaluator) => {
      needParts(NAME, evaluator, ['getters', 'nextRangesToUpdate', 'cellsBeingComputed']);
      needParts(NAME, evaluator, ['spreadingRelations', 'evaluate', 'computeCell']);
      needParts(NAME, evaluator.nextRangesToUpdate, ['isEmpty']);
      needParts(NAME, evaluator.spreadingRelations, ['isArrayFormula']);
      endInCircles(evaluator);
    }),
};
