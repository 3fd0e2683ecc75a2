import type { CellPosition } from '@odoo/o-spreadsheet';
import { cellAddress } from '../../../plan/addresses';
import type { SheetContents } from '../../sheet-contents';
import { computeShallow } from '../deep-chains';
import { AT_A_TIME, putInPlace, type Opening } from '../opening';
import { PlaceMap } from '../place-map';
import { noteTyped } from '../values-on-demand';
import type { Evaluator, PositionMap } from './evaluator-parts';
import type { Getters } from './plugin-in-turn';

/** Computes cells with what is stored in the place of formulas, and nothing else because of them. */
function withStored<T>(evaluator: Evaluator, stored: SheetContents['values'], work: () => T): T {
  const { computeFormulaCell, invalidatePositionsDependingOnSpread } = evaluator;
  const library = Object.getPrototypeOf(evaluator) as Evaluator;
  try {
    evaluator.invalidatePositionsDependingOnSpread = () => undefined;
    evaluator.computeFormulaCell = (position, cell) => {
      const result = stored[cellAddress(position.row, position.col)];
      const compiledFormula = { execute: () => result };
      return library.computeFormulaCell.call(evaluator, position, { ...cell, compiledFormula });
    };
    return work();
  } finally {
    Object.assign(evaluator, { computeFormulaCell, invalidatePositionsDependingOnSpread });
  }
}

/** Has a cell show what it holds. */
export function putCell(evaluator: Evaluator, position: CellPosition): void {
  if (noteTyped(evaluator.evaluatedCells, position)) return;
  const cell = evaluator.computeCell(position);
  if (cell.value !== null || cell.format !== undefined) {
    evaluator.evaluatedCells.set(position, cell);
  }
}

/** The values of a sheet from what is stored. */
export function* takeValues(
  evaluator: Evaluator,
  getters: Getters,
  opening: Opening,
  sheetId: string,
): Generator<void> {
  const PositionMapOf = evaluator.evaluatedCells.constructor as new () => PositionMap;
  const staged = new PositionMapOf();
  const stored = opening.contents(sheetId).values;
  const cells = getters.getCells(sheetId);
  const without: CellPosition[] = [];
  yield;
  for (let first = 0; first < cells.length; first += AT_A_TIME) {
    const { evaluatedCells } = evaluator;
    evaluator.evaluatedCells = staged;
    try {
      withStored(evaluator, stored, () => {
        for (const { id } of cells.slice(first, first + AT_A_TIME)) {
          const position = getters.tryGetCellPosition(id);
          if (!position) continue;
          const { row, col } = position;
          const isFormula = getters.getCell(position)?.isFormula;
          if (isFormula && stored[cellAddress(row, col)] === undefined) {
            without.push(position);
          } else putCell(evaluator, position);
        }
      });
    } finally {
      evaluator.evaluatedCells = evaluatedCells;
    }
    yield;
  }
  putInPlace(evaluator.evaluatedCells.map, sheetId, staged.map[sheetId] ?? {});
  opening.computeLater(without);
}

/** Puts the late cells of an opening, and some that were taken out, after those that they read. */
function putLateInOrder(
  opening: Opening,
  taken: readonly CellPosition[],
  formulas: readonly CellPosition[],
): void {
  const late = [...taken];
  while (opening.hasLate()) for (const cell of opening.takeLate(AT_A_TIME)) late.push(cell);
  const places = new PlaceMap<number>();
  formulas.forEach((position, i) => places.set(position, i));
  const placeOf = (position: CellPosition): number => places.get(position) ?? -1;
  // The last one is taken first.
  opening.computeLater(late.sort((a, b) => placeOf(b) - placeOf(a)));
}

/** Computes cells without a stored value, once the others have theirs; true when that is done. */
export function computeLate(
  evaluator: Evaluator,
  opening: Opening,
  enough: () => boolean,
): boolean {
  if (!opening.hasLate()) return true;
  evaluator.updateCompilationParameters();
  while (opening.hasLate()) {
    if (enough()) return false;
    let cells = opening.takeLate(AT_A_TIME);
    computeShallow(
      evaluator,
      () => {
        for (const position of cells) putCell(evaluator, position);
      },
      (formulas) => {
        putLateInOrder(opening, cells, formulas);
        cells = opening.takeLate(AT_A_TIME);
      },
    );
  }
  // What was computed before a block was there that it reads.
  const again = [...evaluator.nextRangesToUpdate];
  evaluator.nextRangesToUpdate.clear();
  if (again.length > 0) evaluator.evaluate(again);
  return true;
}
