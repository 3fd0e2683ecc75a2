import type { CellPosition } from '@odoo/o-spreadsheet';
import { followedOnGrid } from './follow-kept';
import type { GridStep } from './grid-steps';

interface FormulaCell {
  readonly id: number;
  readonly isFormula: boolean;
  readonly compiledFormula: {
    readonly isBadExpression: boolean;
    toFormulaString(getters: object): string;
  };
}

/** What is asked of a grid about its cells. */
export interface CellGetters {
  getSheetIds(): readonly string[];
  getSheetName(sheetId: string): string;
  tryGetSheet(sheetId: string): object | undefined;
  getCells(sheetId: string): readonly FormulaCell[];
  getCellPosition(id: number): CellPosition;
}

/** A formula that the grid cannot read, or reads cells of its own in: it does not follow by itself. */
export interface UnreadFormula {
  readonly id: number;
  readonly sheetId: string;
  /** What its sheet is called before a step. */
  readonly sheet: string;
  readonly text: string;
}

/** Formulas that the grid cannot read, and those of other files, whose cells it takes for its own. */
export const unreadFormulas = (getters: CellGetters): UnreadFormula[] =>
  getters.getSheetIds().flatMap((sheetId) =>
    getters.getCells(sheetId).flatMap((cell): UnreadFormula[] => {
      if (!cell.isFormula) return [];
      const text = cell.compiledFormula.toFormulaString(getters);
      if (!cell.compiledFormula.isBadExpression && !text.includes('[')) return [];
      return [{ id: cell.id, sheetId, sheet: getters.getSheetName(sheetId), text }];
    }),
  );

/** Writes such formulas as they read after a step. */
export function followUnread(
  getters: CellGetters,
  unread: readonly UnreadFormula[],
  step: GridStep,
  update: (cell: CellPosition & { readonly content: string }) => void,
): void {
  const left = unread.filter(({ sheetId }) => getters.tryGetSheet(sheetId) !== undefined);
  const now = new Map(
    [...new Set(left.map(({ sheetId }) => sheetId))].flatMap((sheetId) =>
      getters.getCells(sheetId).map((cell) => [cell.id, cell] as const),
    ),
  );
  for (const { id, sheet, text } of left) {
    const cell = now.get(id);
    if (!cell?.isFormula) continue;
    const content = followedOnGrid(text, step, sheet);
    if (cell.compiledFormula.toFormulaString(getters) === content) continue;
    const { sheetId, row, col } = getters.getCellPosition(id);
    update({ sheetId, row, col, content });
  }
}
