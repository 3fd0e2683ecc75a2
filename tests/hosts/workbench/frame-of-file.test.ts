import { Model } from '@odoo/o-spreadsheet';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gridFrom } from '../../../src/engine/grid-data';
import { exportedData } from '../../../src/engine/patches/exported-data';
import { quietly } from '../../../src/engine/quietly';
import { joinWorkbooks } from '../../../src/hosts/workbench/join-workbooks';
import { saveIntoFile } from '../../../src/hosts/workbench/save-into-file';
import { farmPartOf } from '../../../src/ooxml/farm-part';
import { Package } from '../../../src/ooxml/package';
import { readWorkbookParts } from '../../../src/ooxml/workbook-parts';
import { everythingModel } from '../../tools/everything-model';
import { changedParts, writersWorkbooks } from '../../tools/foreign-workbooks';
import { framedWorkbook } from '../../tools/framed-workbook';
import { gridDifferences } from '../../tools/grid-contents';
import { schemaErrors } from '../../tools/schema';
import { type OnGrid, openOnGrid } from '../../tools/workbench-file';
import { howMany } from '../../tools/how-many';

const framed = framedWorkbook();

type Said = string[];

async function opened(bytes = framed): Promise<{ grid: OnGrid; said: Said }> {
  const said: Said = [];
  return { grid: await openOnGrid(bytes, (sentence) => said.push(sentence)), said };
}

function act(grid: OnGrid, type: string, payload: object): boolean {
  return grid.model.dispatch(type as never, payload as never).isSuccessful;
}

const nameOf = (grid: OnGrid, sheetId: string): string => grid.model.getters.getSheetName(sheetId);

const insert = (grid: OnGrid, dimension: 'ROW' | 'COL', base: number, quantity = 1): boolean =>
  act(grid, 'ADD_COLUMNS_ROWS', {
    ...{ sheetId: 'file-1', sheetName: nameOf(grid, 'file-1'), dimension, base, quantity },
    position: 'before',
  });
const remove = (grid: OnGrid, dimension: 'ROW' | 'COL', elements: number[]): boolean =>
  act(grid, 'REMOVE_COLUMNS_ROWS', {
    ...{ sheetId: 'file-1', sheetName: nameOf(grid, 'file-1'), dimension, elements },
  });
const rename = (grid: OnGrid, sheetId: string, newName: string): boolean =>
  act(grid, 'RENAME_SHEET', { sheetId, oldName: nameOf(grid, sheetId), newName });
const removeSheet = (grid: OnGrid, sheetId: string): boolean =>
  act(grid, 'DELETE_SHEET', { sheetId, sheetName: nameOf(grid, sheetId) });

const texts = (bytes: Uint8Array): string => {
  const file = Package.open(bytes);
  return file.names.map((part) => file.text(part)).join('\n');
};
const part = (bytes: Uint8Array, name: string): string => Package.open(bytes).text(name);

async function expectSameAgain(grid: OnGrid): Promise<Uint8Array> {
  const { bytes } = grid.save();
  const again = await openOnGrid(bytes);
  expect(gridDifferences(grid.model, again.model)).toEqual([]);
  return bytes;
}

describe('the frame of a file that was opened', () => {
  it('inserts rows, and everything that refers to the rows below follows', async () => {
    const { grid } = await opened();
    expect(insert(grid, 'ROW', 2, 2)).toBe(true);
    const saved = await expectSameAgain(grid);
    const [sheet, book] = [part(saved, 'xl/worksheets/sheet1.xml'), part(saved, 'xl/workbook.xml')];
    // A rule, a list, a link, a merge, a break, a frozen line, a rule of the younger kind.
    for (const text of [
      ...['sqref="B2:B6"', 'B2&lt;$B$8/3', 'Log!$A$2:$A$6', 'location="Log!B8"', 'ref="A10:C10"'],
      ...['id="7"', 'ySplit="1"', '<xm:sqref>C2:C6</xm:sqref>', '<f>B5*0.02</f>', 'ref="E8"'],
    ]) {
      expect(sheet).toContain(text);
    }
    expect(book).toContain('Log!$A$1:$C$8');
    expect(book).toContain('Log!$1:$1');
    expect(book).toContain('Log!$B$8');
    expect(part(saved, 'xl/worksheets/sheet2.xml')).toContain('SUM(Log!B2:B6)');
    expect(part(saved, 'xl/worksheets/sheet2.xml')).toContain('COUNT(Log!2:5)');
    expect(part(saved, 'xl/charts/chart1.xml')).toContain('Log!$B$2:$B$6');
    expect(part(saved, 'xl/comments1.xml')).toContain('ref="B6"');
    expect(part(saved, 'xl/drawings/vmlDrawing1.vml')).toContain('<x:Row>5</x:Row>');
    expect(part(saved, 'xl/drawings/drawing1.xml')).toContain('<xdr:row>14</xdr:row>');
    // New rows look like the one that they were put in front of, in whole.
    expect(changedParts(framed, saved)).not.toContain('xl/styles.xml');
    const known = new Set(schemaErrors(framed));
    expect(schemaErrors(saved).filter((error) => !known.has(error))).toEqual([]);
  });

  it('removes rows with their note, and references to them alone become #REF!', async () => {
    const { grid } = await opened();
    expect(remove(grid, 'ROW', [3, 5])).toBe(true);
    const saved = await expectSameAgain(grid);
    expect(part(saved, 'xl/worksheets/sheet1.xml')).toContain('sqref="B2:B3"');
    expect(part(saved, 'xl/worksheets/sheet2.xml')).toContain('#REF!/All_fish');
    expect(part(saved, 'xl/comments1.xml')).not.toContain('counted');
    expect(part(saved, 'xl/drawings/vmlDrawing1.vml')).not.toContain('ClientData');
    expect(part(saved, 'xl/charts/chart1.xml')).toContain('Log!$B$2:$B$3');
  });

  it('removes the first row of a rule, whose formula then counts from the next one', async () => {
    const { grid } = await opened();
    expect(remove(grid, 'ROW', [1])).toBe(true);
    const saved = await expectSameAgain(grid);
    const sheet = part(saved, 'xl/worksheets/sheet1.xml');
    expect(sheet).toContain('sqref="B2:B3"');
    expect(sheet).toContain('B2&lt;$B$5/3');
    expect(sheet).toContain('C2&gt;Sums!$A$1');
  });

  it('inserts and removes columns', async () => {
    const { grid } = await opened();
    expect(insert(grid, 'COL', 1)).toBe(true);
    expect(remove(grid, 'COL', [0])).toBe(true);
    const saved = await expectSameAgain(grid);
    expect(part(saved, 'xl/worksheets/sheet2.xml')).toContain('SUM(Log!B2:B4)');
    expect(part(saved, 'xl/worksheets/sheet2.xml')).toContain('#REF!');
    expect(part(saved, 'xl/worksheets/sheet1.xml')).toContain('<col min="1" max="3"');
  });

  it('renames a sheet wherever it is referred to', async () => {
    const { grid } = await opened();
    expect(rename(grid, 'file-1', 'Fish of 2026')).toBe(true);
    const saved = await expectSameAgain(grid);
    // What is left of the old name is somebody's words.
    expect(texts(saved).match(/Log/g)?.length).toBe(3);
    expect(part(saved, 'xl/charts/chart1.xml')).toContain("'Fish of 2026'!$B$2:$B$4");
    expect(part(saved, 'xl/workbook.xml')).toContain("OFFSET('Fish of 2026'!$A$2");
    expect(changedParts(framed, saved).sort()).toEqual([
      ...['xl/charts/chart1.xml', 'xl/workbook.xml', 'xl/worksheets/sheet1.xml'],
      'xl/worksheets/sheet2.xml',
    ]);
  });

  it('adjusts the formulas and totals of a table, and keeps its heads and totals', async () => {
    const { grid, said } = await opened(framedWorkbook({ table: true }));
    insert(grid, 'ROW', 2);
    rename(grid, 'file-1', 'Fish');
    const table = part(await expectSameAgain(grid), 'xl/tables/table1.xml');
    expect(table).toContain('<calculatedColumnFormula>Fish!$B$7*2<');
    expect(table).toContain('<totalsRowFormula>SUM(Fish!B2:B5)<');
    const onSums = { sheetId: 'file-2', sheetName: 'Sums', dimension: 'ROW' };
    const more = { ...onSums, base: 4, quantity: 2, position: 'before' };
    expect(act(grid, 'ADD_COLUMNS_ROWS', more)).toBe(true);
    expect(part(await expectSameAgain(grid), 'xl/tables/table1.xml')).toContain('ref="E4:E8"');
    for (const elements of [[3], [7], [3, 4, 5, 6, 7]])
      expect(act(grid, 'REMOVE_COLUMNS_ROWS', { ...onSums, elements })).toBe(false);
    expect(said).toHaveLength(3);
    for (const sentence of said) expect(sentence).toContain('of the table Doubles');
  });

  it('undoes everything: the file stays byte for byte the same', async () => {
    const { grid } = await opened();
    insert(grid, 'ROW', 2);
    rename(grid, 'file-1', 'Other');
    grid.model.dispatch('REQUEST_UNDO');
    grid.model.dispatch('REQUEST_UNDO');
    expect(changedParts(framed, grid.save().bytes)).toEqual([]);
    grid.model.dispatch('REQUEST_REDO');
    await expectSameAgain(grid);
    expect(part(grid.save().bytes, 'xl/worksheets/sheet2.xml')).toContain('Log!B2:B5');
  });

  it('writes what is typed into inserted lines', async () => {
    const { grid } = await opened();
    insert(grid, 'ROW', 2);
    grid.type(0, 'B3', '50');
    grid.type(0, 'C3', '=B3*0.02');
    const saved = await expectSameAgain(grid);
    const again = await openOnGrid(saved);
    expect(again.shown(0, 'B7')).toBe(345);
    expect(again.shown(1, 'A1')).toBe(345);
  });

  it('removes a sheet that only formulas read, and refuses where a chart would be empty', async () => {
    const { grid, said } = await opened();
    expect(removeSheet(grid, 'file-1')).toBe(true);
    const saved = await expectSameAgain(grid);
    const file = Package.open(saved);
    expect(file.names.filter((name) => /sheet1|chart|drawing|comments/.test(name))).toEqual([]);
    expect(part(saved, 'xl/worksheets/sheet2.xml')).toContain('SUM(#REF!)');
    expect(part(saved, 'xl/workbook.xml')).not.toContain('Print_Area');
    expect(part(saved, 'xl/workbook.xml')).toContain('activeTab="0"');
    expect(said).toEqual([]);
    const known = new Set(schemaErrors(framed));
    expect(schemaErrors(saved).filter((error) => !known.has(error))).toEqual([]);

    const other = await opened();
    expect(removeSheet(other.grid, 'file-2')).toBe(false);
    expect(other.said[0]).toContain(
      'The sheet "Sums" cannot be removed: a rule or a link of "Log"',
    );
  });

  it('refuses, with a sentence, what cannot follow', async () => {
    const excelize = writersWorkbooks().find(({ name }) => name === 'exceljs.xlsx');
    const { grid, said } = await opened(excelize?.bytes);
    insert(grid, 'COL', 1);
    expect(said.join(' ')).toMatch(/columns|filter/);
    expect(changedParts(excelize?.bytes ?? framed, grid.save().bytes)).toEqual([]);

    const spelt = await opened();
    spelt.grid.type(1, 'A5', '=INDIRECT("Log!A1")');
    const saved = await opened(spelt.grid.save().bytes);
    expect(rename(saved.grid, 'file-1', 'Other')).toBe(false);
    expect(saved.said[0]).toContain('Sums!A5 spells the name of the sheet "Log" in a text');

    const block = await opened();
    expect(remove(block.grid, 'ROW', [1, 2, 3, 4, 5, 6, 7])).toBe(false);
    expect(block.said[0]).toContain('a rule or a small chart');
  });

  it('does not move whole lines, which would be moved only in part', async () => {
    const { grid, said } = await opened();
    const lines = { sheetId: 'file-1', sheetName: 'Log', dimension: 'ROW', elements: [1] };
    expect(act(grid, 'MOVE_COLUMNS_ROWS', { ...lines, base: 3, position: 'after' })).toBe(false);
    expect(said[0]).toContain('are not moved as a whole');
    expect(changedParts(framed, grid.save().bytes)).toEqual([]);
  });

  it('reports what stays behind where cells are cut', async () => {
    const { grid } = await opened();
    const cut = (row: number): void => {
      const zone = { left: 1, right: 1, top: row, bottom: row };
      grid.model.selection.selectZone({ cell: { col: 1, row }, zone });
      act(grid, 'CUT', {});
      act(grid, 'PASTE', { target: [{ left: 3, right: 3, top: row + 8, bottom: row + 8 }] });
    };
    cut(2);
    expect(grid.save().losses).toEqual([]);
    cut(3);
    expect(grid.save().losses.join(' ')).toContain('stay where cells were cut (Log)');
  });

  it('moves a sheet; what calls it by its place follows', async () => {
    const { grid } = await opened();
    expect(act(grid, 'MOVE_SHEET', { sheetId: 'file-1', delta: 1 })).toBe(true);
    const saved = await expectSameAgain(grid);
    const book = part(saved, 'xl/workbook.xml');
    expect(book.indexOf('name="Sums"')).toBeLessThan(book.indexOf('name="Log"'));
    expect(book).toContain('name="_xlnm.Print_Area" localSheetId="1"');
    expect(book).toContain('activeTab="0"');
  });

  it('accepts a plan that is built beside it: sheets, names, charts and the farm', async () => {
    const { grid } = await opened();
    const plan = everythingModel('live');
    const data = joinWorkbooks(exportedData(grid.model), gridFrom(plan, 'plan-'));
    const custom = { file: { bytes: framed }, keptFormulas: { ...grid.opened.kept } };
    const model = quietly(() => new Model(data, { custom }));
    const plans = { 'plan-': plan };
    const { bytes } = saveIntoFile(grid.opened, model, { plans, farm: plan.farm });
    const again = await openOnGrid(bytes);
    expect(gridDifferences(model, again.model)).toEqual([]);
    const file = Package.open(bytes);
    const book = readWorkbookParts(file);
    expect(book.sheets.map(({ name }) => name)).toEqual([
      ...['Log', 'Sums'],
      ...plan.sheets.map(({ name }) => name),
    ]);
    for (const { name } of plan.names) expect(book.names.map((one) => one.name)).toContain(name);
    expect(book.tables.map(({ name }) => name)).toEqual(
      plan.sheets.flatMap(({ tables }) => tables.map(({ name }) => name)),
    );
    const charts = file.names.filter((name) => /charts\/chart\d+\.xml$/.test(name));
    expect(charts.length).toBe(1 + plan.sheets.flatMap((sheet) => sheet.charts).length);
    expect(farmPartOf(file)).toBeDefined();
    // Nothing of what was there changes but the lists of sheets, styles and kinds of parts.
    expect(changedParts(framed, bytes).filter((name) => Package.open(framed).has(name))).toEqual([
      ...['[Content_Types].xml', 'xl/workbook.xml', 'xl/_rels/workbook.xml.rels', 'xl/styles.xml'],
    ]);
    const known = new Set(schemaErrors(framed));
    expect(schemaErrors(bytes).filter((error) => !known.has(error))).toEqual([]);
  });

  it('accepts a new sheet, with formulas both ways', async () => {
    const { grid } = await opened();
    act(grid, 'CREATE_SHEET', { sheetId: 'mine', position: 1, name: 'Mine' });
    act(grid, 'UPDATE_CELL', { sheetId: 'mine', row: 0, col: 0, content: '=Log!B6*2' });
    act(grid, 'UPDATE_CELL', { sheetId: 'mine', row: 1, col: 0, content: "'0042" });
    grid.type(1, 'A9', '=Mine!A1');
    const saved = await expectSameAgain(grid);
    const known = new Set(schemaErrors(framed));
    expect(schemaErrors(saved).filter((error) => !known.has(error))).toEqual([]);
    expect(changedParts(framed, saved)).not.toContain('xl/worksheets/sheet1.xml');
  });

  it('matches the grid after any steps, undone ones among them', async () => {
    const line = fc.nat({ max: 8 });
    const dimension = fc.constantFrom('ROW' as const, 'COL' as const);
    type Step = (grid: OnGrid, n: number) => unknown;
    const step: fc.Arbitrary<Step> = fc.oneof(
      fc.tuple(dimension, line, fc.integer({ min: 1, max: 3 })).map(
        ([of, at, count]): Step =>
          (grid) =>
            insert(grid, of, at, count),
      ),
      fc.tuple(dimension, fc.uniqueArray(line, { minLength: 1, maxLength: 2 })).map(
        ([of, lines]): Step =>
          (grid) =>
            remove(grid, of, lines),
      ),
      fc.constantFrom('file-1', 'file-2').map(
        (sheetId): Step =>
          (grid, n) =>
            rename(grid, sheetId, `Sheet ${n}`),
      ),
      fc.tuple(fc.nat({ max: 1 }), line, fc.constantFrom('7', '=A2*2', '=SUM(B1:B9)')).map(
        ([sheet, row, content]): Step =>
          (grid) =>
            grid.type(sheet, `E${row + 8}`, content),
      ),
      fc.constant<Step>((grid) => act(grid, 'MOVE_SHEET', { sheetId: 'file-1', delta: 1 })),
      fc.constant<Step>((grid) => grid.model.dispatch('REQUEST_UNDO')),
      fc.constant<Step>((grid) => grid.model.dispatch('REQUEST_REDO')),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 8 }), async (steps) => {
        const { grid } = await opened();
        steps.forEach((one, n) => one(grid, n));
        await expectSameAgain(grid);
      }),
      { numRuns: howMany(10, 25) },
    );
  });
});
