import { readArea } from '../../plan/addresses';
import type { Area } from '../../plan/workbook-model';
import type { Host, OpenSheet, Selection } from '../host';
import { cellAddress } from '../../plan/addresses';

/** The cell where a formula would go: the first of the selection, and what stands in it. */
export interface Target {
  readonly sheet: string;
  readonly address: string;
  readonly holds: string;
}

export function targetOf(selection: Selection): Target {
  const [first = 'A1'] = selection.address.split(':');
  return {
    sheet: selection.sheet,
    address: first.replaceAll('$', ''),
    holds: String(selection.values[0]?.[0] ?? ''),
  };
}

export const targetText = ({ sheet, address }: Target): string => `${sheet}!${address}`;

const filled = (sheet: OpenSheet | undefined, block: Area): boolean => {
  if (!sheet) return false;
  const from = readArea(sheet.from);
  if (!from) return false;
  for (let r = 0; r < block.rows; r++) {
    for (let c = 0; c < block.columns; c++) {
      const value = sheet.formulas[block.row + r - from.row]?.[block.column + c - from.column];
      if (value !== undefined && value !== '') return true;
    }
  }
  return false;
};

const MAX_ROWS_BELOW = 200;

/** The first cell at or below a target from which `rows` × `columns` cells are free; undefined where there is none near. */
export async function firstFreeBlockBelow(
  host: Host,
  from: Target,
  rows: number,
  columns: number,
): Promise<Target | undefined> {
  const start = readArea(from.address);
  if (!start) return undefined;
  const sheet = (await host.readSheets()).find(({ name }) => name === from.sheet);
  for (let step = 0; step < MAX_ROWS_BELOW; step++) {
    const row = start.row + step;
    if (!filled(sheet, { row, column: start.column, rows, columns })) {
      return { sheet: from.sheet, address: cellAddress(row, start.column), holds: '' };
    }
  }
  return undefined;
}

/**
 * Empties a table that was put there: `column` below each other, and beside each a formula of the card. Throws a
 * sentence where something else stands in one of its cells by now.
 */
export async function takeTableOut(
  host: Host,
  from: Target,
  column: readonly (string | number)[],
  card: string,
): Promise<void> {
  const area = readArea(from.address) as Area;
  const sheet = (await host.readSheets()).find(({ name }) => name === from.sheet);
  const corner = sheet && readArea(sheet.from);
  const at = (row: number, aside: number): unknown =>
    sheet?.formulas[area.row + row - (corner?.row ?? 0)]?.[
      area.column + aside - (corner?.column ?? 0)
    ];
  const isAsPut = column.every((value, row) => {
    const beside = String(at(row, 1)).toUpperCase();
    const ours = row === 0 ? beside === card : beside.includes(`${card}(`);
    return ours && (typeof value === 'number' ? Number(at(row, 0)) : at(row, 0)) === value;
  });
  if (!isAsPut) {
    throw new Error(
      `Something else stands in the table at ${targetText(from)} by now: it stays; clear it yourself.`,
    );
  }
  await host.enter(
    column.flatMap((_, row) =>
      [0, 1].map((aside) => ({
        sheet: from.sheet,
        row: area.row + row,
        column: area.column + aside,
        value: undefined,
      })),
    ),
    [],
  );
}

const MAX_COLUMNS_ASIDE = 50;

/**
 * The first cell to the right of a picked column from which `rows` × `columns` cells are free;
 * undefined where there is none near.
 */
export async function firstFreeCellBeside(
  host: Host,
  picked: Selection,
  rows: number,
  columns: number,
): Promise<Target | undefined> {
  const block = readArea(picked.address);
  if (!block) return undefined;
  const sheets = await host.readSheets();
  const sheet = sheets.find((sheet) => sheet.name === picked.sheet);
  for (let step = 0; step < MAX_COLUMNS_ASIDE; step++) {
    const column = block.column + block.columns + step;
    if (!filled(sheet, { row: block.row, column, rows, columns })) {
      return { sheet: picked.sheet, address: cellAddress(block.row, column), holds: '' };
    }
  }
  return undefined;
}
