import fc from 'fast-check';
import { readXlsx } from 'hucre/xlsx';
import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { changeWorkbook, type WorkbookChanges } from '../../src/ooxml/change-workbook';
import { type CellChange, type FileValue, RefusedChange } from '../../src/ooxml/cell-changes';
import { Package } from '../../src/ooxml/package';
import { readSheetCells, type SheetCell } from '../../src/ooxml/sheet-cells';
import { sharedTexts, valueOf } from '../../src/ooxml/stored-cell';
import { readWorkbookParts } from '../../src/ooxml/workbook-parts';
import { placeAddress, readArea } from '../../src/plan/addresses';
import { changedParts, writersWorkbooks } from '../tools/foreign-workbooks';
import { schemaErrors } from '../tools/schema';
import { howMany } from '../tools/how-many';

const books = writersWorkbooks();
const bookOf = (name: string): Uint8Array => {
  const found = books.find((one) => one.name === name);
  if (!found) throw new Error(`There is no workbook ${name}`);
  return found.bytes;
};
const sheetOf = (bytes: Uint8Array): string =>
  readWorkbookParts(Package.open(bytes)).sheets[0]?.name ?? '';

const change = (bytes: Uint8Array, changes: WorkbookChanges): Uint8Array => {
  const file = Package.open(bytes);
  changeWorkbook(file, changes);
  return file.bytes();
};
const inSheet = (bytes: Uint8Array, sheet: string, cells: readonly CellChange[]): Uint8Array =>
  change(bytes, { cells: new Map([[sheet, cells]]) });

const at = (address: string, cell: CellChange['cell']): CellChange => {
  const { row, column } = readArea(address) as { row: number; column: number };
  return { row, column, ...(cell && { cell }) };
};

/** Cells of a sheet by address. */
function cellsOf(bytes: Uint8Array, sheet: string): Map<string, SheetCell> {
  const file = Package.open(bytes);
  const { part } = readWorkbookParts(file).sheets.find(({ name }) => name === sheet) as {
    part: string;
  };
  const cells = readSheetCells(file, part).rows.flatMap((row) => row.cells);
  return new Map(cells.map((cell) => [placeAddress(cell), cell]));
}

const kinds: Readonly<Record<string, string>> = {
  s: 'text',
  str: 'text',
  inlineStr: 'text',
  b: 'boolean',
  e: 'error',
  n: 'number',
};

/** Type and value of a cell, as the file says. */
function typed(bytes: Uint8Array, sheet: string, address: string): [string, unknown] {
  const file = Package.open(bytes);
  const cell = cellsOf(bytes, sheet).get(address);
  if (!cell || (cell.value === undefined && cell.type !== 'inlineStr')) return ['blank', undefined];
  return [
    kinds[cell.type] ?? cell.type,
    valueOf(cell, sharedTexts(file, readWorkbookParts(file).part)),
  ];
}

const kindOf = (value: FileValue): [string, unknown] =>
  value === undefined
    ? ['blank', undefined]
    : value instanceof GillError
      ? ['error', value.code]
      : [typeof value === 'string' ? 'text' : typeof value, value];

/** Texts that look like something else, and such that XML or the format treat in their own way. */
const oddTexts = fc.oneof(
  fc.constantFrom(
    ...['00000105438', '=1+2', 'TRUE', '#N/A', '1e5', '2026-01-01', '-', '+1', "'0450", ' 7 '],
    ...['_x0041_', 'a\nb', '\u0007', '<&>"', '12,5', '1904', '', '@SUM', '3/4', '\u{1F41F}'],
  ),
  fc.string({ unit: 'grapheme' }).filter((text) => !/[\r\uFFFE\uFFFF]/.test(text)),
);
const values: fc.Arbitrary<FileValue> = fc.oneof(
  oddTexts,
  fc.double({ noNaN: true, noDefaultInfinity: true }).map((n) => (Object.is(n, -0) ? 0 : n)),
  fc.boolean(),
  fc
    .constantFrom('#N/A', '#DIV/0!', '#VALUE!', '#REF!', '#NAME?', '#NUM!', '#NULL!')
    .map((code) => new GillError(code as never, 'planted')),
  fc.constant(undefined),
);

describe('changes written into a workbook that was opened', () => {
  it.each(books)('keep the type of every value in $name', ({ bytes }) => {
    const sheet = sheetOf(bytes);
    const places = fc.uniqueArray(
      fc.record({
        row: fc.integer({ min: 30, max: 60 }),
        column: fc.integer({ min: 0, max: 40 }),
        value: values,
      }),
      { minLength: 1, maxLength: 20, selector: ({ row, column }) => `${row},${column}` },
    );
    fc.assert(
      fc.property(places, (list) => {
        const after = inSheet(
          bytes,
          sheet,
          list.map(({ value, ...place }) => ({ ...place, cell: { kind: 'value', value } })),
        );
        for (const { value, ...place } of list) {
          expect(typed(after, sheet, placeAddress(place))).toEqual(kindOf(value));
        }
      }),
      { numRuns: howMany(4, 10) },
    );
  });

  it.each(books)(
    'leave every other part of $name to the byte, and bring in no fault of the schema',
    ({ bytes }) => {
      const sheet = sheetOf(bytes);
      const after = inSheet(bytes, sheet, [
        at('B2', { kind: 'value', value: '0042' }),
        at('Z99', { kind: 'value', value: 7.5 }),
        at('AA1', { kind: 'formula', formula: 'B3*2', value: 4 }),
      ]);
      expect(changedParts(bytes, after)).toEqual([
        readWorkbookParts(Package.open(bytes)).sheets[0]?.part,
      ]);
      expect(typed(after, sheet, 'B2')).toEqual(['text', '0042']);
      expect(schemaErrors(after)).toEqual(schemaErrors(bytes));
      const [before, now] = [cellsOf(bytes, sheet), cellsOf(after, sheet)];
      for (const [address, cell] of before) {
        if (address === 'B2') continue;
        expect([address, now.get(address)?.value, now.get(address)?.formula]).toEqual([
          address,
          cell.value,
          cell.formula,
        ]);
      }
    },
  );

  it('are read by a library that had no part in writing them', async () => {
    const bytes = bookOf('xlsx-populate.xlsx');
    const sheet = sheetOf(bytes);
    const after = inSheet(bytes, sheet, [
      at('F1', { kind: 'value', value: '00000105438' }),
      at('F2', { kind: 'value', value: '=1+2' }),
      at('F3', { kind: 'value', value: true }),
      at('F4', { kind: 'value', value: 12.25 }),
    ]);
    const book = await readXlsx(after);
    const rows = book.sheets.find(({ name }) => name === sheet)?.rows;
    expect([0, 1, 2, 3].map((row) => rows?.[row]?.[5])).toEqual([
      '00000105438',
      '=1+2',
      true,
      12.25,
    ]);
  });

  it('write a formula in full where it was stored with one that goes', () => {
    const bytes = bookOf('exceljs.xlsx');
    const after = inSheet(bytes, 'Tank records', [at('G2', { kind: 'value', value: 1 })]);
    const cells = cellsOf(after, 'Tank records');
    expect(['G2', 'G3', 'G7'].map((address) => cells.get(address)?.formula)).toEqual([
      undefined,
      'C3*2',
      'C7*2',
    ]);
    expect(cells.get('G3')?.value).toBe('1274');
  });

  it('give a formula another value and leave its text', () => {
    const bytes = bookOf('exceljs.xlsx');
    const after = inSheet(bytes, 'Tank records', [
      at('B15', { kind: 'result', value: 'seven' }),
      at('G2', { kind: 'result', value: 3 }),
    ]);
    const cells = cellsOf(after, 'Tank records');
    expect(cells.get('B15')).toMatchObject({
      formula: 'UNKNOWNFN(C2)',
      value: 'seven',
      type: 'str',
    });
    expect(cells.get('G2')).toMatchObject({ formula: 'C2*2', value: '3', shared: true });
    expect(cells.get('G3')).toMatchObject({ formula: 'C3*2', shared: true });
  });

  it('refuse a part of an array formula, and take the whole of it', () => {
    const bytes = bookOf('excelize.xlsx');
    const one = () => inSheet(bytes, 'Sheet1', [at('E3', { kind: 'value', value: 1 })]);
    expect(one).toThrow(RefusedChange);
    expect(one).toThrow('Sheet1!E3 is part of the array formula in E2:E5');
    const all = ['E2', 'E3', 'E4', 'E5'].map((where) => at(where, { kind: 'value', value: 1 }));
    expect(cellsOf(inSheet(bytes, 'Sheet1', all), 'Sheet1').get('E2')?.formula).toBeUndefined();
  });

  it('change the head of a table in the table, too, but no two of the same', () => {
    const bytes = bookOf('excelize.xlsx');
    const part = readWorkbookParts(Package.open(bytes)).tables[0]?.part ?? '';
    const after = inSheet(bytes, 'Sheet1', [at('G1', { kind: 'value', value: 'Cut & "washed"' })]);
    expect(changedParts(bytes, after)).toContain(part);
    expect(readWorkbookParts(Package.open(after)).tables[0]?.columns[0]).toBe('Cut & "washed"');
    const twice = () =>
      inSheet(after, 'Sheet1', [at('H1', { kind: 'value', value: 'cut & "WASHED"' })]);
    expect(twice).toThrow('has a column');
    const none = () => inSheet(after, 'Sheet1', [at('H1', { kind: 'value', value: undefined })]);
    expect(none).toThrow('needs a text');
  });

  it('set, move and remove names of the whole workbook', () => {
    const bytes = bookOf('exceljs.xlsx');
    const area = { row: 4, column: 2, rows: 2, columns: 1 };
    const after = change(bytes, {
      names: [
        { name: 'Größe', sheet: 'Tank records', area },
        { name: 'New_range', sheet: 'Log', area },
      ],
      namesGone: ['Fish_count'],
    });
    const { names } = readWorkbookParts(Package.open(after));
    expect(names.map(({ name, text }) => [name, text])).toEqual(
      expect.arrayContaining([
        ['Größe', "'Tank records'!$C$5:$C$6"],
        ['New_range', "'Log'!$C$5:$C$6"],
      ]),
    );
    expect(names.some(({ name }) => name === 'Fish_count')).toBe(false);
    expect(names.some(({ name }) => name === '_xlnm.Print_Area')).toBe(true);
  });
});
