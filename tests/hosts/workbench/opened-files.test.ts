import { readFileSync } from 'node:fs';
import { Model } from '@odoo/o-spreadsheet';
import fc from 'fast-check';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { GillError } from '../../../src/core/errors';
import { computedValues } from '../../../src/engine/engine';
import { gridFrom } from '../../../src/engine/grid-data';
import type { FileValue } from '../../../src/ooxml/cell-changes';
import { changeWorkbook } from '../../../src/ooxml/change-workbook';
import { Package } from '../../../src/ooxml/package';
import { readSheetCells } from '../../../src/ooxml/sheet-cells';
import { sharedTexts, valueOf } from '../../../src/ooxml/stored-cell';
import { UnreadableFile } from '../../../src/ooxml/unreadable-file';
import { readWorkbookParts } from '../../../src/ooxml/workbook-parts';
import { writeXlsx } from '../../../src/ooxml/write-xlsx';
import { cellAddress, placeAddress, readArea } from '../../../src/plan/addresses';
import { editedParts } from '../../tools/edited-parts';
import { everythingModel } from '../../tools/everything-model';
import {
  changedParts,
  foreignFolder,
  foreignWorkbooks,
  writersWorkbooks,
} from '../../tools/foreign-workbooks';
import { openOnGrid } from '../../tools/workbench-file';
import { howMany } from '../../tools/how-many';

const books = writersWorkbooks();
const bookOf = (name: string): Uint8Array =>
  books.find((one) => one.name === name)?.bytes ?? new Uint8Array();

/** Cells of a sheet by address: type, value, formula, style. */
function cellsOf(bytes: Uint8Array, sheet = 0): Record<string, readonly unknown[]> {
  const file = Package.open(bytes);
  const book = readWorkbookParts(file);
  const texts = sharedTexts(file, book.part);
  const { rows } = readSheetCells(file, book.sheets[sheet]?.part ?? '');
  return Object.fromEntries(
    rows.flatMap((row) =>
      row.cells.map((cell) => [
        placeAddress(cell),
        [cell.type === 's' ? 'inlineStr' : cell.type, valueOf(cell, texts), cell.formula],
      ]),
    ),
  );
}

/** The same bytes with another text in one part. */
const edited = (bytes: Uint8Array, part: string, change: (xml: string) => string): Uint8Array =>
  editedParts(bytes, { [part]: change });

/** A workbook of one sheet with these cells, as XML. */
const small = (cells: string, more = ''): Uint8Array =>
  zipSync({
    '[Content_Types].xml': strToU8(
      '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>',
    ),
    '_rels/.rels': strToU8(
      '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="/xl/workbook.xml"/></Relationships>',
    ),
    'xl/workbook.xml': strToU8(
      `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">${more}<sheets><sheet name="Data" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="/xl/worksheets/sheet1.xml"/></Relationships>',
    ),
    'xl/worksheets/sheet1.xml': strToU8(
      `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1">${cells}</row></sheetData></worksheet>`,
    ),
  });

const own = (() => {
  const live = everythingModel('live');
  return { name: 'a workbook of our own', bytes: writeXlsx(live, computedValues(live)) };
})();

describe('a file on the workbench', () => {
  it.each([...books, own])(
    '$name: saved untouched, every part stays to the byte',
    async ({ bytes }) => {
      const grid = await openOnGrid(bytes);
      const { bytes: saved, losses } = grid.save();
      expect(changedParts(bytes, saved)).toEqual([]);
      expect(losses).toEqual([]);
    },
  );

  it.each([...books, own])(
    '$name: one cell typed, one part changes, and in it one cell',
    async ({ bytes }) => {
      const grid = await openOnGrid(bytes);
      grid.type(0, 'H30', "'0042");
      const { bytes: saved, losses } = grid.save();
      const [sheet] = readWorkbookParts(Package.open(bytes)).sheets;
      expect(changedParts(bytes, saved)).toEqual([sheet?.part]);
      expect(losses).toEqual([]);
      const [before, after] = [cellsOf(bytes), cellsOf(saved)];
      expect(after['H30']).toEqual(['inlineStr', '0042', undefined]);
      expect({ ...after, H30: before['H30'] }).toEqual({ ...before, H30: before['H30'] });
    },
  );

  it('computes every formula of a plan that was saved, names over empty rows included', async () => {
    const bytes = new Uint8Array(readFileSync('sample-workbooks/larkfield-school-live.xlsx'));
    const grid = await openOnGrid(bytes);
    expect(grid.opened.kept).toEqual({});
    expect(changedParts(bytes, grid.save().bytes)).toEqual([]);
  });

  it('draws the charts of a plan that was saved, each with its own cells, and leaves them in the file', async () => {
    const model = everythingModel('plain');
    const bytes = writeXlsx(model, computedValues(model));
    const grid = await openOnGrid(bytes);
    const drawn = grid.model.exportData().sheets.map(({ name, figures }) => ({
      name,
      charts: figures.map(({ data }) => {
        const { title, type, dataSource, dataSetStyles } = data as Record<string, unknown>;
        return { title, type, dataSource, dataSetStyles };
      }),
    }));
    const meant = new Model(gridFrom(model)).exportData().sheets.map(({ name, figures }) => ({
      name,
      charts: figures.map(({ data }) => {
        const { title, type, dataSource, dataSetStyles } = data as Record<string, unknown>;
        return { title, type, dataSource, dataSetStyles };
      }),
    }));
    expect(meant.some(({ charts }) => charts.length > 0)).toBe(true);
    expect(drawn.map(({ charts }) => charts)).toEqual(meant.map(({ charts }) => charts));
    expect(changedParts(bytes, grid.save().bytes)).toEqual([]);
    expect(grid.unseen).not.toContain('Some charts or pictures');
  });
  it('says where a chart is of a kind that the grid does not draw', async () => {
    const model = everythingModel('plain');
    const bytes = writeXlsx(model, computedValues(model));
    const lying = edited(bytes, 'xl/charts/chart2.xml', (xml) =>
      xml.replace('<c:barDir val="col"/>', '<c:barDir val="bar"/>'),
    );
    const grid = await openOnGrid(lying);
    expect(grid.unseen).toContain('Some charts or pictures');
    expect(changedParts(lying, grid.save().bytes)).toEqual([]);
  });
  it('shows every value with its type as in the file', async () => {
    const texts = ['00000105438', '=1+2', 'TRUE', 'false', '#N/A', '1e5', '2026-01-01', "'0450"];
    const odd = [' 7 ', '12,5', '50%', '$5', '1/2', '@SUM', '-', '+1', 'a\nb', '[a](b)', '13:00'];
    const values: fc.Arbitrary<FileValue> = fc.oneof(
      fc.constantFrom(...texts, ...odd),
      fc.string({ unit: 'grapheme-ascii', minLength: 1 }).filter((text) => text.trim() !== ''),
      fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e15, max: 1e15 }),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.boolean(),
      fc
        .constantFrom('#N/A', '#DIV/0!', '#VALUE!', '#REF!', '#NAME?', '#NUM!')
        .map((code) => new GillError(code as never, 'planted')),
    );
    const bytes = bookOf('xlsx-populate.xlsx');
    const name = readWorkbookParts(Package.open(bytes)).sheets[0]?.name ?? '';
    await fc.assert(
      fc.asyncProperty(fc.array(values, { minLength: 30, maxLength: 30 }), async (list) => {
        const file = Package.open(bytes);
        const cells = list.map((value, i) => ({
          row: 30 + i,
          column: 5,
          cell: { kind: 'value' as const, value: Object.is(value, -0) ? 0 : value },
        }));
        changeWorkbook(file, { cells: new Map([[name, cells]]) });
        const planted = file.bytes();
        const grid = await openOnGrid(planted);
        list.forEach((value, i) => {
          const wanted = value instanceof GillError ? value.code : value;
          expect(grid.shown(0, cellAddress(30 + i, 5))).toEqual(Object.is(wanted, -0) ? 0 : wanted);
        });
        expect(changedParts(planted, grid.save().bytes)).toEqual([]);
      }),
      { numRuns: howMany(3, 8) },
    );
  });

  it('writes what follows from a change, and no more', async () => {
    const bytes = bookOf('exceljs.xlsx');
    const grid = await openOnGrid(bytes);
    grid.type(0, 'C3', '700');
    const [before, after] = [cellsOf(bytes), cellsOf(grid.save().bytes)];
    const differing = Object.keys(after).filter(
      (address) => JSON.stringify(after[address]) !== JSON.stringify(before[address]),
    );
    // C3 is read by biomass, by twice the fish and by the subtotal.
    expect(differing.sort()).toEqual(['B14', 'C3', 'E3', 'G3']);
    expect(after['B14']).toEqual(['n', 3795 - 637 + 700, 'SUBTOTAL(9,C2:C7)']);
    expect(after['G3']).toEqual(['n', 1400, 'C3*2']);
  });

  it('keeps text and value of a formula that it cannot compute, until what it reads changes', async () => {
    const bytes = bookOf('exceljs.xlsx');
    const grid = await openOnGrid(bytes);
    expect(grid.shown(0, 'B15')).toBe(7);
    expect(grid.notes.join(' ')).toContain('Tank records!B15');
    grid.type(0, 'C2', '641');
    expect(grid.shown(0, 'B15')).toBe('#VALUE!');
    const { bytes: saved, losses } = grid.save();
    expect(cellsOf(saved)['B15']).toEqual(['n', '', 'UNKNOWNFN(C2)']);
    expect(losses.join(' ')).toContain('Tank records!B15');
    expect(Package.open(saved).text('xl/workbook.xml')).toContain('fullCalcOnLoad="1"');
  });

  it('keeps days that count from 1904 where they are', async () => {
    const bytes = edited(bookOf('xlsx-populate.xlsx'), 'xl/workbook.xml', (xml) =>
      xml.replace(/<workbookPr[^>]*\/>/, '<workbookPr date1904="1"/>'),
    );
    const serial = cellsOf(bytes)['A9']?.[1] as number;
    const grid = await openOnGrid(bytes);
    expect(grid.shown(0, 'A9')).toBe(serial + 1462);
    grid.type(0, 'A9', String(serial + 1463));
    expect(cellsOf(grid.save().bytes)['A9']?.[1]).toBe(serial + 1);
  });

  it('gives a cell another look and leaves all other looks', async () => {
    const bytes = bookOf('exceljs.xlsx');
    const grid = await openOnGrid(bytes);
    const target = [{ top: 1, bottom: 1, left: 3, right: 3 }];
    grid.model.dispatch('SET_FORMATTING', {
      sheetId: 'file-1',
      target,
      style: { bold: true, fillColor: '#FFEE00' },
    });
    const saved = grid.save().bytes;
    expect(changedParts(bytes, saved).sort()).toEqual([
      'xl/styles.xml',
      'xl/worksheets/sheet1.xml',
    ]);
    const again = await openOnGrid(saved);
    const style = again.model.getters.getCellStyle({ sheetId: 'file-1', row: 1, col: 3 });
    expect(style).toMatchObject({ bold: true, fillColor: '#FFEE00' });
  });

  // What another reader, or saving through the grid's own export, lost of files; each would change a part or a cell.
  const planted: readonly (readonly [what: string, bytes: () => Uint8Array])[] = [
    [
      'a subtotal',
      () =>
        small(
          '<c r="A1"><f>SUBTOTAL(9,B1:C1)</f><v>3</v></c><c r="B1"><v>1</v></c><c r="C1"><v>2</v></c>',
        ),
    ],
    ['a text of figures', () => small('<c r="A1" t="inlineStr"><is><t>00000105438</t></is></c>')],
    ['a text with an equals sign', () => small('<c r="A1" t="inlineStr"><is><t>=1+2</t></is></c>')],
    ['a text TRUE', () => small('<c r="A1" t="inlineStr"><is><t>TRUE</t></is></c>')],
    ['a text of an error', () => small('<c r="A1" t="inlineStr"><is><t>#N/A</t></is></c>')],
    [
      'runs of a text',
      () =>
        small('<c r="A1" t="inlineStr"><is><r><t>a</t></r><r><rPr><b/></rPr><t>b</t></r></is></c>'),
    ],
    [
      'an array formula',
      () =>
        small(
          '<c r="A1"><f t="array" ref="A1:B1">C1:D1*2</f><v>2</v></c><c r="B1"><v>4</v></c><c r="C1"><v>1</v></c><c r="D1"><v>2</v></c>',
        ),
    ],
    [
      'a table of what would be',
      () => small('<c r="A1"><f t="dataTable" ref="A1:A1" dt2D="0" dtr="0" r1="B1"/><v>4</v></c>'),
    ],
    ['a formula of an unknown function', () => small('<c r="A1"><f>FOO.BAR(B1)</f><v>9</v></c>')],
    ['a link to another file', () => small('<c r="A1"><f>[1]Sheet1!$A$1</f><v>9</v></c>')],
    ['a sum over sheets', () => small('<c r="A1"><f>SUM(Data:Data!B1)</f><v>9</v></c>')],
    [
      'an implicit intersection',
      () =>
        small('<c r="A1"><f>B1:C1*2</f><v>2</v></c><c r="B1"><v>1</v></c><c r="C1"><v>7</v></c>'),
    ],
    ['a formula without a value', () => small('<c r="A1"><f>1+1</f></c>')],
    ['an empty text of a formula', () => small('<c r="A1" t="str"><f>""</f><v></v></c>')],
    ['an ISO date', () => small('<c r="A1" t="d"><v>2026-03-01T12:00:00</v></c>')],
    ['a value behind a picture', () => small('<c r="A1" t="e" vm="1"><v>#VALUE!</v></c>')],
    ['an odd address', () => small('<c r="A0"><v>1</v></c>')],
    ['a cell without an address', () => small('<c><v>1</v></c><c><v>2</v></c>')],
    ['a cell far out', () => small('<c r="A1"><v>1</v></c><c r="XFD1"><v>2</v></c>')],
    [
      'a long number',
      () =>
        small(
          '<c r="A1"><v>1.7976931348623157E+308</v></c><c r="B1"><v>5.0000000000000001E-3</v></c>',
        ),
    ],
    [
      'a formula under a merge',
      () =>
        edited(
          small('<c r="A1"><v>1</v></c><c r="B1"><f>A1</f><v>1</v></c>'),
          'xl/worksheets/sheet1.xml',
          (xml) =>
            xml.replace(
              '</sheetData>',
              '</sheetData><mergeCells count="1"><mergeCell ref="A1:B1"/></mergeCells>',
            ),
        ),
    ],
    ['another calendar', () => small('<c r="A1"><v>44000</v></c>', '<workbookPr date1904="1"/>')],
    ['protection, filter, print and links', () => bookOf('exceljs.xlsx')],
    ['a hidden column and a list', () => bookOf('xlsx-populate.xlsx')],
    ['a chart, a sparkline and a comment', () => bookOf('excelize.xlsx')],
  ];

  it.each(planted)('keeps %s', async (_, make) => {
    const bytes = make();
    const grid = await openOnGrid(bytes);
    expect(changedParts(bytes, grid.save().bytes)).toEqual([]);
    grid.type(0, 'G20', '5');
    const [before, after] = [cellsOf(bytes), cellsOf(grid.save().bytes)];
    expect({ ...after, G20: before['G20'] }).toEqual({ ...before, G20: before['G20'] });
  });

  // The folder of other projects' test workbooks lies beside the project where there is one.
  const foreign = foreignWorkbooks().filter(
    ({ bytes }, i) => bytes.length < 30_000 && i % 40 === 3,
  );
  it.skipIf(foreignFolder === undefined)(
    'opens, changes and saves some of the workbooks of others',
    async () => {
      const wrong: string[] = [];
      for (const { name, bytes } of foreign) {
        try {
          const grid = await openOnGrid(bytes);
          if (changedParts(bytes, grid.save().bytes).length > 0)
            wrong.push(`${name}: changed unasked`);
          const id = grid.model.getters.getSheetIds()[0] ?? '';
          const address = cellAddress(3, grid.model.getters.getNumberCols(id) - 2);
          grid.type(0, address, "'0042");
          const saved = grid.save().bytes;
          if (changedParts(bytes, saved).length !== 1) wrong.push(`${name}: more than one part`);
          expect(readArea(address)).toBeDefined();
          if (cellsOf(saved)[address]?.[1] !== '0042') wrong.push(`${name}: not written`);
        } catch (fault) {
          if (!(fault instanceof UnreadableFile)) wrong.push(`${name}: ${String(fault)}`);
        }
      }
      expect(wrong).toEqual([]);
    },
  );
  if (foreignFolder === undefined) {
    console.log('The workbooks of other projects are not there: their test is left out.');
  }
});
