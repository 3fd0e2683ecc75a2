import { GillError } from '../../src/core/errors';
import { isoText, serialFromIsoText } from '../../src/core/serial-date';
import { cellAddress } from '../../src/plan/addresses';
import { type Cell, type Step, placeOf } from '../../src/guides/guide';
import { computedValues } from '../../src/engine/engine';
import type { CellModel, WorkbookModel } from '../../src/plan/workbook-model';

type Value = number | string | boolean | GillError | undefined;

/** The value of a cell, by its address. */
export type Sheet = (address: string) => Value;

const SHEET = 'Guide';
/** Lines of the sheet: room for every block that fills downwards. */
const LINES = 80;
const isDay = (text: string): boolean => /^\d{4}-\d\d-\d\d$/.test(text);

function modelCell(cell: Cell): CellModel | undefined {
  if ('enter' in cell) {
    const { enter } = cell;
    const serial = typeof enter === 'string' && isDay(enter) ? serialFromIsoText(enter) : undefined;
    return { value: serial ?? enter, look: 'input' };
  }
  return cell.formula === undefined
    ? undefined
    : { formula: cell.formula.replace(/^=/, ''), look: 'computed' };
}

/** Types the cells of some steps into an empty sheet of the grid and computes it. */
export function typed(steps: readonly Step[]): Sheet {
  const rows: (CellModel | undefined)[][] = Array.from({ length: LINES }, () => []);
  for (const cell of steps.flatMap(({ cells = [] }) => cells)) {
    const made = modelCell(cell);
    if (!made) continue;
    const { row, column } = placeOf(cell.at);
    (rows[row] as (CellModel | undefined)[])[column] = made;
  }
  const model: WorkbookModel = {
    title: SHEET,
    formulas: 'live',
    made: '2026-01-01',
    farm: '',
    names: [],
    sheets: [
      {
        name: SHEET,
        question: '',
        columnWidths: [],
        rows: rows.map((row) => Array.from(row)),
        merges: [],
        tables: [],
        validations: [],
        conditions: [],
        charts: [],
        frozen: { rows: 0, columns: 0 },
        print: { landscape: false, headRows: 0 },
      },
    ],
  };
  const values = computedValues(model);
  return (address) => {
    const { row, column } = placeOf(address);
    return values(SHEET, row, column) as Value;
  };
}

/** A value written in the manner of the text that a guide shows: as a day, a share or with its decimals. */
export function inTheMannerOf(text: string, value: Value): string {
  if (value === undefined) return '';
  if (value instanceof GillError) return value.code;
  if (typeof value !== 'number') return String(value);
  if (isDay(text)) return isoText(value);
  const decimals = /\.(\d+)/.exec(text)?.[1]?.length ?? 0;
  return / %$/.test(text) ? `${(value * 100).toFixed(decimals)} %` : value.toFixed(decimals);
}

/** Each cell of a block with its address and the text that is shown in it. */
export function blockCells(
  at: string,
  shows: string | readonly (readonly string[])[],
): readonly (readonly [string, string])[] {
  const { row, column } = placeOf(at);
  const block = typeof shows === 'string' ? [[shows]] : shows;
  return block.flatMap((line, r) =>
    line.map((text, c) => [cellAddress(row + r, column + c), text] as const),
  );
}
