import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { excelHost } from '../../../src/hosts/excel/excel-host';
import type { Selection } from '../../../src/sidebar/host';
import { openExcel } from '../../tools/excel-open';
import { settled, type Witness, type WitnessOptions } from '../../tools/excel-witness';
import { Refusal } from '../../tools/excel-workbook';

let excel: Witness;
let book: Witness['workbook'];

function open(options: WitnessOptions = {}): void {
  excel = openExcel({ sheets: ['Records', 'My tanks'], ...options });
  book = excel.workbook;
  book.write(book.sheet('Records'), { row: 1, column: 1, rows: 2, columns: 2 }, [
    ['TAN', '=1+1'],
    [0.5, ''],
  ]);
}
beforeEach(() => open());
afterEach(() => vi.unstubAllGlobals());

describe('the open workbook in Excel', () => {
  it('gives the selection with its values, without the sheet in the address', async () => {
    await excel.select('Records', 'B2:C3');
    expect(await excelHost().selection()).toEqual({
      sheet: 'Records',
      address: 'B2:C3',
      values: [
        ['TAN', 0],
        [0.5, ''],
      ],
    });
    await excel.select('My tanks', 'A1');
    expect(await excelHost().selection()).toMatchObject({ sheet: 'My tanks', address: 'A1' });
  });

  it('reads a whole column only as far as it is used', async () => {
    await excel.select('Records', 'B:B');
    expect(await excelHost().selection()).toEqual({
      sheet: 'Records',
      address: 'B2:B3',
      values: [['TAN'], [0.5]],
    });
    await excel.select('My tanks', 'B:B');
    expect(await excelHost().selection()).toEqual({
      sheet: 'My tanks',
      address: 'B1',
      values: [['']],
    });
  });

  it('reads cells by their address, on the sheet in front where none is named', async () => {
    expect(await excelHost().read(undefined, 'b2:B3')).toEqual({
      sheet: 'Records',
      address: 'B2:B3',
      values: [['TAN'], [0.5]],
    });
    book.active = 'My tanks';
    expect(await excelHost().read('records', 'B:B')).toMatchObject({ address: 'B2:B3' });
    await expect(excelHost().read('Ponds', 'B2')).rejects.toThrow(
      'There is no sheet called "Ponds".',
    );
  });

  it("knows Office's theme by its name or its ground, and looks again when the pane is looked at", () => {
    const theme = (theme: object | undefined): void => {
      Object.assign(Office.context, { officeTheme: theme });
    };
    const host = excelHost();
    for (const [given, dark] of [
      [undefined, undefined],
      [{}, undefined],
      [{ isDarkTheme: true, bodyBackgroundColor: '#FFFFFF' }, true],
      [{ isDarkTheme: false }, false],
      [{ bodyBackgroundColor: '#262626' }, true],
      [{ bodyBackgroundColor: '#F5F5F5' }, false],
    ] as const) {
      theme(given);
      expect(host.dark()).toBe(dark);
    }
    const page = new EventTarget();
    vi.stubGlobal('window', page);
    vi.stubGlobal('document', page);
    const listener = vi.fn();
    host.onDark(listener);
    page.dispatchEvent(new Event('focus'));
    page.dispatchEvent(new Event('visibilitychange'));
    expect(listener).toHaveBeenCalledTimes(2);
  });

  it('reports new selections until it is told to stop', async () => {
    const seen: Selection[] = [];
    const stop = excelHost().onSelection((selection) => seen.push(selection));
    await settled();
    await excel.select('Records', 'C2');
    expect(seen.map(({ address }) => address)).toEqual(['C2']);
    stop();
    await settled();
    await excel.select('Records', 'B2');
    expect(seen).toHaveLength(1);
  });

  it('puts formulas from the first cell of a place on', async () => {
    await excelHost().putFormula('My tanks', 'B2:B9', [['=1'], ['=2']]);
    expect(book.cell('My tanks', 'B2')?.formula).toBe('=1');
    expect(book.cell('My tanks', 'B3')?.formula).toBe('=2');
    expect(book.sheet('My tanks').cells.size).toBe(2);
  });

  it('enters values, texts as texts, and empties cells', async () => {
    const cell = (row: number, column: number, value: string | number | undefined) => ({
      ...{ sheet: 'Records', row, column, value },
    });
    await excelHost().enter([cell(2, 1, '3-4'), cell(2, 2, 45), cell(1, 1, undefined)], []);
    expect(book.cell('Records', 'B3')?.value).toBe('3-4');
    expect(book.cell('Records', 'C3')?.value).toBe(45);
    expect(book.cell('Records', 'B2')).toBeUndefined();
    expect(book.cell('Records', 'C2')?.formula).toBe('=1+1');
  });

  it('makes a table longer, its formulas going on, before it enters values below it', async () => {
    const records = book.sheet('Records');
    book.write(records, { row: 1, column: 1, rows: 2, columns: 2 }, [
      ['TAN', 'twice'],
      [0.5, '=2*B3'],
    ]);
    records.tables.push({ name: 'Tests', address: 'B2:C3' });
    await excelHost().enter(
      [{ sheet: 'Records', row: 4, column: 1, value: 3 }],
      [
        {
          sheet: 'Records',
          name: 'Tests',
          area: { row: 1, column: 1, rows: 2, columns: 2 },
          lastRow: 4,
          formulas: [
            { row: 3, column: 2, formula: '2*B4' },
            { row: 4, column: 2, formula: '2*B5' },
          ],
        },
      ],
    );
    expect(records.tables[0]?.address).toBe('B2:C5');
    expect(records.read({ row: 2, column: 1, rows: 3, columns: 2 }, 'formula')).toEqual([
      [0.5, '=2*B3'],
      ['', '=2*B4'],
      [3, '=2*B5'],
    ]);
  });

  it('reads every sheet that holds anything, from its first used cell on', async () => {
    expect(await excelHost().readSheets()).toEqual([
      {
        name: 'Records',
        from: 'B2',
        formulas: [
          ['TAN', '=1+1'],
          [0.5, ''],
        ],
        values: [
          ['TAN', 0],
          [0.5, ''],
        ],
      },
    ]);
  });

  it('goes to a cell', async () => {
    await excelHost().goTo('My tanks', 'C7');
    expect(book.active).toBe('My tanks');
    expect(book.selection).toEqual({ sheet: 'My tanks', address: 'C7' });
  });

  it('knows no farm where none was kept', async () => {
    expect(await excelHost().readFarm()).toBeUndefined();
  });

  it('turns what Excel throws into a sentence', async () => {
    excel.host.beforeRequest = () => {
      throw new Refusal('InvalidOperationInCellEditMode');
    };
    await expect(excelHost().selection()).rejects.toThrow('A cell is being edited');
    await expect(excelHost().goTo('Records', 'A1')).rejects.toThrow('A cell is being edited');
  });

  it('waits while a cell is being edited', async () => {
    const run = vi.spyOn(Excel, 'run');
    await excelHost().goTo('Records', 'A1');
    expect(run.mock.calls[0]?.[0]).toEqual({ delayForCellEdit: true });
  });

  it.each(['OfficeOnline', 'PC', 'Mac'] as const)(
    'opens a copy as a new workbook, on %s',
    async (platform) => {
      open({ platform });
      const copy = new Uint8Array([80, 75, 3, 4]);
      expect(await excelHost().openCopy('x.xlsx', copy)).toBe('opened');
      expect(book.newWorkbooks).toEqual([btoa('PK\u0003\u0004')]);
    },
  );

  it('says what Office says where the file cannot be read, at whichever step, and closes it', async () => {
    excel.file.bytes = new Uint8Array(3 << 20);
    expect((await excelHost().fileBytes()).length).toBe(3 << 20);
    for (let step = 0; step <= 3; step++) {
      excel.file.failAtStep = step;
      await expect(excelHost().fileBytes()).rejects.toThrow(`no file at step ${step}`);
      expect(excel.file.open).toBe(0);
    }
  });

  it('enters many formulas in one round trip', async () => {
    await excelHost().putFormulas('Records', [
      { address: 'E2', formula: '=1+1' },
      { address: 'F9', formula: '=2+2' },
    ]);
    expect(book.cell('Records', 'F9')?.formula).toBe('=2+2');
    expect(excel.requests).toBe(1);
    book.sheet('Records').protected = true;
    await expect(
      excelHost().putFormulas('Records', [{ address: 'E2', formula: '=3' }]),
    ).rejects.toThrow('protected');
  });

  it("reads the workbook's own bytes slice by slice, and closes the file", async () => {
    const slice = 1 << 20;
    excel.file.bytes = Uint8Array.from({ length: 2 * slice + 5 }, (_, i) => i % 251);
    expect(Buffer.compare(await excelHost().fileBytes(), excel.file.bytes)).toBe(0);
    expect(excel.file.open).toBe(0);
  });
});
