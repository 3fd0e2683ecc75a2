import { expect, it } from 'vitest';
import { excelHost } from '../../../src/hosts/excel/excel-host';
import { planWorkbook } from '../../../src/plan/plan';
import type { LibraryFile } from '../../tools/excel-library';
import { openExcel } from '../../tools/excel-open';
import { sampleFarm } from '../../tools/farms';

/**
 * The work of the add-in with the library that Excel loads on one kind of machine. A process holds only one of
 * them, so that each has a file of its own.
 */
export function worksWith(library: LibraryFile, platform: 'PC' | 'Mac'): void {
  const open = () => {
    const excel = openExcel({ sheets: ['Mine'], library, platform });
    excel.workbook.write(excel.workbook.sheet('Mine'), { row: 0, column: 0, rows: 2, columns: 1 }, [
      ['TAN'],
      [0.5],
    ]);
    return excel;
  };

  it('builds a plan, and finds its farm again', async () => {
    const excel = open();
    const plan = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'live' });
    const report = await excelHost().build(plan, () => undefined, new AbortController().signal);
    expect(report.sheets).toEqual(plan.sheets.map(({ name }) => name));
    expect(await excelHost().readFarm()).toBe(plan.farm);
    expect(excel.host.kept.size).toBe(0);
  });

  it('reads the selection and the sheets, puts formulas and mends them', async () => {
    const excel = open();
    await excel.select('Mine', 'A1:A2');
    expect(await excelHost().selection()).toMatchObject({ values: [['TAN'], [0.5]] });
    expect((await excelHost().readSheets()).map(({ name }) => name)).toEqual(['Mine']);
    await excelHost().putFormula('Mine', 'B1', [['=1'], ['=2']]);
    await excelHost().putFormulas('Mine', [{ address: 'B2', formula: '=3' }]);
    expect(excel.workbook.cell('Mine', 'B1')?.formula).toBe('=1');
    expect(excel.workbook.cell('Mine', 'B2')?.formula).toBe('=3');
  });

  it('answers calls of functions', async () => {
    const excel = open();
    await import('../../../src/app/functions-entry');
    const args = [[[1]], [[8]], [[24]], null];
    const [answer] = await excel.callFunctions([{ id: 'AMMONIA.UNIONISED', args }]);
    // Francis-Floyd, Watson, Petty and Pouder, Ammonia in Aquatic Systems, UF/IFAS FA16: worked example.
    expect(answer?.value).toEqual([[expect.closeTo(0.0502, 3)]]);
  });
}
