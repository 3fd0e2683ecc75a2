import { tokenize } from '@borgar/fx';
import type { CellPosition, Model } from '@odoo/o-spreadsheet';
import { cellAddress, columnNumber, readArea, splitSheet } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import type { KeptFormula, ReadArea } from './patches/kept-formulas';
import { type StoredResult, type StoredValues, UNSTEADY } from './patches/open-with-stored-values';
import { quietly } from './quietly';

type Result = StoredValues[string][string];

const isBlock = (result: Result): result is readonly (readonly StoredResult[])[] =>
  Array.isArray(result);

const blockOf = (result: Result): readonly (readonly StoredResult[])[] =>
  isBlock(result) ? result : [[result]];

/** Spreadsheets agree to about twelve figures; a blank and 0 or an empty text are told apart by nobody. */
function agree(a: StoredResult | undefined, b: StoredResult | undefined): boolean {
  const [x, y] = [a?.value ?? '', b?.value ?? ''];
  if (typeof x === 'number' && typeof y === 'number') {
    return x === y || Math.abs(x - y) <= 1e-9 * Math.max(1e-3, Math.abs(x), Math.abs(y));
  }
  return x === y || (x === '' && y === 0) || (x === 0 && y === '');
}

function sameBlock(computed: Result, stored: Result): boolean {
  const [a, b] = [blockOf(computed), blockOf(stored)];
  return (
    a.length === b.length &&
    a.every(
      (column, c) =>
        column.length === b[c]?.length && column.every((cell, r) => agree(cell, b[c]?.[r])),
    )
  );
}

interface Computing {
  evaluateFormulaResult(sheetId: string, formula: string, place: CellPosition): Result;
}

/** Further than any sheet reaches. */
const MANY = 2_000_000;

/** Whole columns ("B:D") or rows ("2:3"). */
function linesArea(address: string): Area | undefined {
  const [first = '', last = '', ...more] = address.replaceAll('$', '').split(':');
  if (more.length > 0) return undefined;
  if ([first, last].every((line) => /^[A-Z]{1,3}$/i.test(line))) {
    const [from, to] = [columnNumber(first), columnNumber(last)].sort((a, b) => a - b);
    return { row: 0, rows: MANY, column: from ?? 0, columns: (to ?? 0) - (from ?? 0) + 1 };
  }
  if (![first, last].every((line) => /^\d{1,7}$/.test(line))) return undefined;
  const [from, to] = [Number(first) - 1, Number(last) - 1].sort((a, b) => a - b);
  return { row: from ?? 0, rows: (to ?? 0) - (from ?? 0) + 1, column: 0, columns: MANY };
}

/** The cells that a formula names; 'all' where a reference cannot be followed. */
function readsOf(
  formula: string,
  own: string,
  { getters }: Model,
): NonNullable<KeptFormula['reads']> {
  const areas: ReadArea[] = [];
  const tokens = tokenize(formula.replace(/^=/, ''), { mergeRefs: true });
  for (const [n, { type, value }] of tokens.entries()) {
    // What stands in another file ("[1]!Name", too) does not change with this one.
    if (!/^(?:range|structured)/.test(type) || /^'?\[|\]\w*'?!/.test(value)) continue;
    if (tokens[n - 1]?.value === '!' && tokens[n - 2]?.value === ']') continue;
    // Letters of the formula's own, and functions that it hands on.
    if (/^_xl(?:pm|eta)\./i.test(value)) continue;
    const named =
      type === 'range_named' &&
      getters.getNamedRanges().find(({ name }) => name.toLowerCase() === value.toLowerCase());
    if (named) {
      areas.push({ sheetId: named.range.sheetId, zone: named.range.zone });
      continue;
    }
    const { sheet, address } = splitSheet(value);
    // "First:Last" means every sheet from one to the other.
    const ends = sheet?.split(':').map((name) => getters.getSheetIdByName(name)) ?? [own];
    const ids = getters.getSheetIds();
    const places = ends.map((id) => ids.indexOf(id ?? ''));
    const area = readArea(address) ?? linesArea(address);
    if (places.includes(-1) || !area) return 'all';
    const { row, column, rows, columns } = area;
    const zone = { top: row, left: column, bottom: row + rows - 1, right: column + columns - 1 };
    const between = ids.slice(Math.min(...places), Math.max(...places) + 1);
    areas.push(...between.map((sheetId) => ({ sheetId, zone })));
  }
  return areas;
}

/**
 * Computes every formula of a workbook that was opened with stored values, each from what the cells that it reads
 * hold, and puts those that give something else into `kept`: the engine computes them otherwise than the
 * program of the file. Works in steps; `pause` is awaited between them.
 */
export async function findKeptFormulas(
  model: Model,
  stored: StoredValues,
  kept: Record<string, Record<string, KeptFormula>>,
  pause: (share: number) => Promise<void> | undefined,
): Promise<void> {
  const { getters } = model;
  const computing = getters as unknown as Computing;
  const cells = getters
    .getSheetIds()
    .flatMap((sheetId) =>
      getters.getCells(sheetId).flatMap((cell) => (cell.isFormula ? [{ sheetId, cell }] : [])),
    );
  let done = 0;
  for (const { sheetId, cell } of cells) {
    done += 1;
    const waiting = pause(done / cells.length);
    if (waiting) await waiting;
    const { col, row } = getters.getCellPosition(cell.id);
    const address = cellAddress(row, col);
    const result = stored[sheetId]?.[address];
    if (result === undefined) continue;
    const formula = cell.compiledFormula.toFormulaString(getters);
    if (!cell.compiledFormula.isBadExpression) {
      if (UNSTEADY.test(formula)) continue;
      const computed = quietly(() =>
        computing.evaluateFormulaResult(sheetId, formula, { sheetId, col, row }),
      );
      if (sameBlock(computed, result)) continue;
    }
    (kept[sheetId] ??= {})[address] = {
      formula,
      result,
      ...(cell.compiledFormula.isBadExpression && { reads: readsOf(formula, sheetId, model) }),
    };
  }
}
