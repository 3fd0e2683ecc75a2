import type { Model } from '@odoo/o-spreadsheet';
import { OUT_OF_DATE } from '../../src/engine/patches/kept-formulas';
import { cellAddress } from '../../src/plan/addresses';

const withoutQuotes = (text: string): string => text.replaceAll("'", '');

/**
 * What every cell of a grid holds and shows, by sheet and address, without the quotes around and in sheet names;
 * undefined for what cannot be computed and is out of date, which is saved without a value.
 */
function gridContents({ getters }: Model): Map<string, string | undefined> {
  const found = new Map<string, string | undefined>();
  for (const sheetId of getters.getSheetIds()) {
    for (const { row, col } of getters.getEvaluatedCellsPositions(sheetId)) {
      const cell = getters.getCell({ sheetId, row, col });
      const { value, message } = getters.getEvaluatedCell({ sheetId, row, col }) as {
        readonly value: unknown;
        readonly message?: { toString(): string };
      };
      const formula = cell?.isFormula
        ? withoutQuotes(cell.compiledFormula.toFormulaString(getters))
        : '';
      if (value === null && formula === '') continue;
      const where = `${withoutQuotes(getters.getSheetName(sheetId))}!${cellAddress(row, col)}`;
      const shown = typeof value === 'number' ? value.toPrecision(9) : String(value);
      const isOutOfDate = message?.toString() === OUT_OF_DATE;
      found.set(where, isOutOfDate ? undefined : `${formula} ${typeof value} ${shown}`);
    }
  }
  return found;
}

/** Where two grids hold or show something else, with what it is there; what is out of date is passed over. */
export function gridDifferences(a: Model, b: Model): string[] {
  const [one, other] = [gridContents(a), gridContents(b)];
  return [...new Set([...one.keys(), ...other.keys()])].flatMap((where) => {
    const [x, y] = [one, other].map((grid) => (grid.has(where) ? grid.get(where) : 'nothing'));
    return x === undefined || y === undefined || x === y ? [] : [`${where}: ${x} | ${y}`];
  });
}
