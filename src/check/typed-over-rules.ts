import type { Finding } from './finding';
import { addressIn, type OpenSheet } from './open-sheet';

/** Where what stands in the lines follows from a register, and the head of their first column. */
const registers = new Map([
  ['tanks', { head: 'tank', from: 'Fish log' }],
  ['beds', { head: 'bed', from: 'Plantings' }],
]);

const isFormula = (cell: unknown): boolean => typeof cell === 'string' && cell.startsWith('=');
const isFilled = (cell: unknown): boolean => cell !== undefined && cell !== '';

/** Every cell of Tanks and Beds that was typed over the formula of its column. */
export function typedOverRules(sheet: OpenSheet): Finding[] {
  const register = registers.get(sheet.name.trim().toLowerCase());
  if (!register) return [];
  const head = sheet.values.findIndex(
    ([first]) => typeof first === 'string' && first.trim().toLowerCase() === register.head,
  );
  if (head < 0) return [];
  const heads = sheet.values[head] ?? [];
  const rows = sheet.formulas
    .map((cells, at) => ({ cells, at }))
    .filter(({ cells, at }) => at > head && cells.some(isFilled));
  return heads.flatMap((title, column): Finding[] => {
    const computed = rows.filter(({ cells }) => isFormula(cells[column])).length;
    // A formula or two of one's own do not make a column computed.
    if (computed * 2 <= rows.length) return [];
    return rows.flatMap(({ cells, at }): Finding[] => {
      if (isFormula(cells[column]) || !isFilled(sheet.values[at]?.[column])) return [];
      return [
        {
          level: 'watch',
          what: `${sheet.name}, line ${at + 1}: "${String(title)}" is typed over its formula.`,
          sheet: sheet.name,
          address: addressIn(sheet, at, column),
          why: `The figure stays as it was typed, whatever is written in the ${register.from} from then on.`,
          remedy: `Write what happened in the ${register.from}, and copy the formula of the cell above or below back into this one.`,
        },
      ];
    });
  });
}
