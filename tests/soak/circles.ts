import { helpers, type CellPosition, type Model } from '@odoo/o-spreadsheet';
import type { Area, Areas } from '../../src/engine/patches/dependency-graph';

interface Evaluator {
  getCellsDependingOn(areas: Iterable<Area>): Areas;
}

const evaluatorOf = (model: Model): Evaluator =>
  (
    (model as unknown as { uiHandlers: readonly { evaluator?: Evaluator }[] }).uiHandlers.find(
      (handler) => handler.evaluator,
    ) as { evaluator: Evaluator }
  ).evaluator;

function* cellsOf({ sheetId, zone }: Area): Generator<CellPosition> {
  for (let col = zone.left; col <= zone.right; col++) {
    for (let row = zone.top; row <= zone.bottom; row++) yield { sheetId, col, row };
  }
}

/** Cells that stand in a circle, or whose block finds its way barred. */
export function circles({ getters }: Model): CellPosition[] {
  return getters.getSheetIds().flatMap((sheetId) =>
    getters.getEvaluatedCellsPositions(sheetId).filter((position) => {
      const { value } = getters.getEvaluatedCell(position);
      return value === '#CYCLE' || value === '#SPILL!';
    }),
  );
}

/** These cells and all that follow from them, through the blocks that they fill, too: sheet, row and column. */
export function touchedBy(model: Model, cells: readonly CellPosition[]): Set<string> {
  const { getters } = model;
  const touched = new Set<string>();
  let next = [...cells];
  while (next.length > 0) {
    const areas = next.map((cell) => ({
      sheetId: cell.sheetId,
      zone: getters.getSpreadZone(cell, { ignoreSpillError: true }) ?? helpers.positionToZone(cell),
    }));
    const following = [...areas, ...evaluatorOf(model).getCellsDependingOn(areas)].flatMap(
      (area) => [...cellsOf(area)],
    );
    next = following.filter((cell) => {
      const key = `${getters.getSheetName(cell.sheetId)} ${cell.row} ${cell.col}`;
      if (touched.has(key)) return false;
      touched.add(key);
      return true;
    });
  }
  return touched;
}
