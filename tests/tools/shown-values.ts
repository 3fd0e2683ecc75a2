import type { Model } from '@odoo/o-spreadsheet';

/** Everything that the sheets of a workbook on the workbench show. */
export function shownValues({ getters }: Model): Record<string, string> {
  const shown: Record<string, string> = {};
  for (const sheetId of getters.getSheetIds()) {
    for (const position of getters.getEvaluatedCellsPositions(sheetId)) {
      const { value } = getters.getEvaluatedCell(position);
      if (value === null) continue;
      shown[`${getters.getSheetName(sheetId)} ${position.row} ${position.col}`] = String(value);
    }
  }
  return shown;
}
