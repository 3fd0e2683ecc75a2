import { addressIn, type OpenSheet } from '../check/open-sheet';
import { callsGill, displayedCalls } from '../functions/gill-calls';

/** A GILL formula that lost its binding on the way, and how it is to be entered again. */
export interface BrokenFormula {
  readonly sheet: string;
  readonly address: string;
  readonly was: string;
  readonly now: string;
}

/** GILL formulas of an open workbook that show #NAME? or carry a prefix that is not theirs. */
export function brokenFormulas(sheets: readonly OpenSheet[]): BrokenFormula[] {
  return sheets.flatMap((sheet) => {
    return sheet.formulas.flatMap((row, r) =>
      row.flatMap((was, c): BrokenFormula[] => {
        if (typeof was !== 'string' || !was.startsWith('=') || !callsGill(was)) return [];
        const now = `=${displayedCalls(was.slice(1))}`;
        const unknown = String(sheet.values[r]?.[c]).startsWith('#NAME?');
        const respelled =
          now.replace(/\s/g, '').toUpperCase() !== was.replace(/\s/g, '').toUpperCase();
        if (!unknown && !respelled) return [];
        return [
          {
            sheet: sheet.name,
            address: addressIn(sheet, r, c),
            was,
            now,
          },
        ];
      }),
    );
  });
}
