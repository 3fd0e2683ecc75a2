import { describe, expect, it } from 'vitest';
import { Package } from '../../../src/ooxml/package';
import { changedParts } from '../../tools/foreign-workbooks';
import { framedWorkbook } from '../../tools/framed-workbook';
import { schemaErrors } from '../../tools/schema';
import { type OnGrid, openOnGrid } from '../../tools/workbench-file';

const framed = framedWorkbook();
const sheetId = 'file-1';
const SHEET = 'xl/worksheets/sheet1.xml';

function act(grid: OnGrid, type: string, payload: object): void {
  const done = grid.model.dispatch(type as never, { sheetId, ...payload } as never);
  if (!done.isSuccessful) throw new Error(`${type}: ${[...done.reasons].join(', ')}`);
}

const part = (bytes: Uint8Array, name: string): string => Package.open(bytes).text(name);
const sheetOf = (grid: OnGrid) => grid.model.exportData().sheets[0];

function saved(grid: OnGrid): Uint8Array {
  const { bytes, losses } = grid.save();
  expect(losses).toEqual([]);
  const known = new Set(schemaErrors(framed));
  expect(schemaErrors(bytes).filter((error) => !known.has(error))).toEqual([]);
  return bytes;
}

describe('what of a sheet changes beside its cells', () => {
  it('widths, heights, hidden lines, merges and frozen lines go into the file', async () => {
    const grid = await openOnGrid(framed);
    act(grid, 'RESIZE_COLUMNS_ROWS', { dimension: 'COL', elements: [1], size: 145 });
    act(grid, 'RESIZE_COLUMNS_ROWS', { dimension: 'ROW', elements: [2, 9], size: 40 });
    act(grid, 'HIDE_COLUMNS_ROWS', { dimension: 'COL', elements: [3] });
    act(grid, 'ADD_MERGE', { target: [{ left: 0, right: 1, top: 9, bottom: 10 }] });
    act(grid, 'REMOVE_MERGE', { target: [{ left: 0, right: 2, top: 7, bottom: 7 }] });
    act(grid, 'FREEZE_ROWS', { quantity: 2 });
    const bytes = saved(grid);
    expect(changedParts(framed, bytes)).toEqual([SHEET]);
    const xml = part(bytes, SHEET);
    expect(xml).toContain('<col min="2" max="2" width="20" customWidth="1"/>');
    expect(xml).toContain('<col min="3" max="3" width="14" customWidth="1"/>');
    expect(xml).toContain('hidden="1" min="4" max="4"');
    expect(xml).toContain('<row r="10" ht="30" customHeight="1"/>');
    expect(xml).toContain('<mergeCells count="1"><mergeCell ref="A10:B11"/></mergeCells>');
    const again = await openOnGrid(bytes);
    for (const key of ['merges', 'panes'] as const)
      expect(sheetOf(again)?.[key]).toEqual(sheetOf(grid)?.[key]);
    for (const key of ['cols', 'rows'] as const)
      expect(sheetOf(again)?.[key]).toMatchObject(sheetOf(grid)?.[key] ?? {});
  });

  it('a sheet is hidden in the file, and shown again', async () => {
    const grid = await openOnGrid(framed);
    act(grid, 'HIDE_SHEET', {});
    const bytes = saved(grid);
    expect(changedParts(framed, bytes)).toEqual(['xl/workbook.xml']);
    expect(part(bytes, 'xl/workbook.xml')).toMatch(/<sheet name="Log"[^>]* state="hidden"/);
    const again = await openOnGrid(bytes);
    act(again, 'SHOW_SHEET', {});
    expect(changedParts(framed, again.save().bytes)).toEqual([]);
  });

  it('marks on cells and rules for what may be typed come in, change and go', async () => {
    const grid = await openOnGrid(framed);
    const style = { bold: true, textColor: '#9C0006', fillColor: '#FFC7CE' };
    const ranges = [{ _sheetId: sheetId, _zone: { left: 2, right: 2, top: 1, bottom: 3 } }];
    const mark = (id: string, rule: object): void =>
      act(grid, 'ADD_CONDITIONAL_FORMAT', { cf: { id, rule }, ranges });
    const isRule = { type: 'CellIsRule', style };
    mark('a', { ...isRule, operator: 'isGreaterThan', values: ['=Sums!A1'] });
    mark('b', { ...isRule, operator: 'containsText', values: ['pH "low"'] });
    mark('c', {
      type: 'ColorScaleRule',
      minimum: { type: 'value', color: 0xff0000 },
      maximum: { type: 'value', color: 0x00ff00 },
    });
    act(grid, 'REMOVE_CONDITIONAL_FORMAT', { id: 'file-condition-1-0' });
    act(grid, 'ADD_DATA_VALIDATION_RULE', {
      rule: { id: 'd', isBlocking: true, criterion: { type: 'isBetween', values: ['1', '9'] } },
      ranges,
    });
    const bytes = saved(grid);
    expect(changedParts(framed, bytes).sort()).toEqual(['xl/styles.xml', SHEET]);
    const xml = part(bytes, SHEET);
    expect(xml).not.toContain('$B$6/3');
    expect(xml).toContain('operator="greaterThan" priority="2"><formula>Sums!A1</formula>');
    expect(xml).toContain('SEARCH("pH ""low""",C2)');
    expect(xml).toContain('<colorScale><cfvo type="min"/><cfvo type="max"/>');
    expect(xml).toContain('type="decimal" operator="between"');
    expect(xml).toContain('<formula1>Log!$A$2:$A$4</formula1>');
    expect(part(bytes, 'xl/styles.xml')).toContain('<bgColor rgb="FFFFC7CE"/>');
  });

  it('charts are moved, removed and added; what is said of them is theirs', async () => {
    const grid = await openOnGrid(framed);
    const [figure] = sheetOf(grid)?.figures ?? [];
    if (!figure) throw new Error('The chart of the file is not on the grid');
    const { id, width, height } = figure;
    act(grid, 'UPDATE_FIGURE', {
      ...{ figureId: id, row: 20, col: 6, offset: { x: 4, y: 4 }, width, height },
    });
    const bytes = saved(grid);
    expect(changedParts(framed, bytes)).toEqual(['xl/drawings/drawing1.xml']);
    const again = await openOnGrid(bytes);
    expect(sheetOf(again)?.figures[0]).toMatchObject({ row: 20, col: 6 });

    act(grid, 'CREATE_CHART', {
      ...{ figureId: 'fresh', chartId: 'fresh', row: 30, col: 0 },
      ...{ offset: { x: 0, y: 0 }, size: { width: 400, height: 230 } },
      definition: { ...figure.data, title: { text: 'Feed' } },
    });
    act(grid, 'DELETE_FIGURE', { figureId: id });
    const other = saved(grid);
    const file = Package.open(other);
    expect(file.names.filter((name) => name.includes('charts/'))).toEqual(['xl/charts/chart1.xml']);
    expect(file.text('xl/charts/chart1.xml')).toContain('>Feed<');
    const third = await openOnGrid(other);
    expect(sheetOf(third)?.figures.map(({ row, col }) => [row, col])).toEqual([[30, 0]]);
  });
});
