import type { CellPosition } from '@odoo/o-spreadsheet';
import { graphInSteps } from '../dependencies';
import type { Opening } from '../opening';
import type { Evaluated, EvaluationPlugin, PositionMap } from './evaluator-parts';
import type { Getters } from './plugin-in-turn';
import { computeLate, putCell, takeValues } from './take-values';

/** Opens with stored values, and keeps edits for later until all is in. */
export function openInTurn(plugin: EvaluationPlugin, getters: Getters, opening: Opening): void {
  const { evaluator } = plugin;
  const { evaluateAllCells, evaluateCells, updateDependencies } = evaluator;
  const evaluateAll = evaluateAllCells.bind(evaluator);
  let isBegun = false;
  evaluator.evaluateAllCells = () => {
    if (isBegun) {
      opening.finish();
      opening.dropValues();
      evaluateAll();
      return;
    }
    isBegun = true;
    const PositionMapOf = evaluator.evaluatedCells.constructor as new () => PositionMap;
    evaluator.evaluatedCells = new PositionMapOf();
    const { map } = evaluator.evaluatedCells;
    for (const sheetId of getters.getSheetIds()) {
      const take = () => takeValues(evaluator, getters, opening, sheetId);
      opening.expect(sheetId, 'values', take, map);
    }
  };
  /** Whether all that has to be computed at once is what the cell itself shows. */
  const isPlain = ({ sheetId, row, col }: CellPosition): boolean => {
    if (getters.getCell({ sheetId, row, col })?.isFormula) return false;
    opening.finishPart(sheetId, 'values');
    const zone = { top: row, bottom: row, left: col, right: col };
    const { spreadingRelations } = evaluator;
    return spreadingRelations.searchFormulaPositionsSpreadingOn(sheetId, zone).length === 0;
  };
  const keep = (position: CellPosition): void => {
    opening.keep(position, evaluator.evaluatedCells.get(position));
  };
  const writeDownEdits = (): void => {
    for (const { position } of opening.edits()) updateDependencies.call(evaluator, position);
  };
  evaluator.updateDependencies = (position) => {
    if (opening.isReady) updateDependencies.call(evaluator, position);
    else keep(position);
  };
  evaluator.evaluateCells = (changed) => {
    const positions = [...changed];
    if (!opening.isReady) {
      for (const position of positions) keep(position);
      if (positions.every(isPlain)) {
        for (const position of positions) {
          evaluator.evaluatedCells.delete(position);
          putCell(evaluator, position);
        }
        return;
      }
      opening.finish();
    }
    for (const { position, was } of opening.edits()) {
      // What hangs on a cell is computed where the cell is not as it was.
      if (was) evaluator.evaluatedCells.set(position, was as Evaluated);
      else evaluator.evaluatedCells.delete(position);
      positions.push(position);
    }
    opening.forgetEdits();
    evaluateCells.call(evaluator, positions);
  };
  opening.takeEditsWith({
    writeDown(enough) {
      const isDone = graphInSteps(evaluator)?.advance(enough) ?? true;
      if (!isDone || !computeLate(evaluator, opening, enough)) return false;
      writeDownEdits();
      return true;
    },
    compute: (positions) => plugin.positionsToUpdate.push(...positions),
  });
}
