import type { OpenSheet } from '../check/open-sheet';
import { columnLetters } from '../functions/cell-address';
import { mayCallGill, rewriteCalls } from '../functions/gill-calls';

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
    const corner = /([A-Z]+)(\d+)/i.exec(sheet.from);
    const firstRow = Number(corner?.[2] ?? 1);
    const firstColumn =
      [...(corner?.[1] ?? 'A').toUpperCase()].reduce(
        (sum, letter) => sum * 26 + letter.charCodeAt(0) - 64,
        0,
      ) - 1;
    return sheet.formulas.flatMap((row, r) =>
      row.flatMap((was, c): BrokenFormula[] => {
        if (typeof was !== 'string' || !was.startsWith('=') || !mayCallGill(was)) return [];
        let calls = 0;
        const now = `=${rewriteCalls(was.slice(1), (call) => {
          calls += 1;
          return `GILL.${call.card.id}(${call.args.join(',')})`;
        })}`;
        const unknown = String(sheet.values[r]?.[c]).startsWith('#NAME?');
        const respelled =
          now.replace(/\s/g, '').toUpperCase() !== was.replace(/\s/g, '').toUpperCase();
        if (calls === 0 || !(unknown || respelled)) return [];
        return [
          {
            sheet: sheet.name,
            address: `${columnLetters(firstColumn + c)}${firstRow + r}`,
            was,
            now,
          },
        ];
      }),
    );
  });
}
