import { beforeAll, describe, expect, it, vi } from 'vitest';
import { mathjsConverter } from '../../../src/functions/unit-converter';
import { useUnitConverter } from '../../../src/functions/units';
import { excelHost } from '../../../src/hosts/excel/excel-host';
import { demoFarm } from '../../../src/plan/demo-farm';
import { readFarm } from '../../../src/plan/farm';
import type { FormulaMode } from '../../../src/plan/formulas';
import { planWorkbook } from '../../../src/plan/plan';
import { FakeExcel } from '../../tools/fake-excel';

/** Excel on the web takes at most 5 MB in one request (learn.microsoft.com, resource limits). */
const MOST_BYTES = 5_000_000;

useUnitConverter(mathjsConverter);
const farm = readFarm(demoFarm);

describe.each<FormulaMode>(['live', 'plain'])('the demo plan with %s formulas', (formulas) => {
  const plan = planWorkbook(farm, { formulas });
  const excel = new FakeExcel(['Mine']);
  let sheets: readonly string[];
  beforeAll(async () => {
    vi.stubGlobal('Excel', excel.Excel);
    vi.stubGlobal('Office', excel.Office);
    const report = await excelHost().build(plan, () => undefined, new AbortController().signal);
    sheets = report.sheets;
  });

  it('is built in three round trips', () => {
    expect(excel.syncs).toBe(3);
    expect(sheets).toEqual(plan.sheets.map((sheet) => sheet.name));
  });

  it('stays below what one request may carry', () => {
    const bytes = excel.journal.reduce((sum, line) => sum + Buffer.byteLength(line), 0);
    expect(bytes).toBeGreaterThan(10_000);
    expect(bytes).toBeLessThan(MOST_BYTES);
  });

  it('holds every cell of the plan', () => {
    for (const sheet of plan.sheets) {
      const wanted = sheet.rows
        .flat()
        .filter((cell) => cell?.formula !== undefined || (cell?.value ?? '') !== '').length;
      expect(excel.sheet(sheet.name).cells.size, sheet.name).toBe(wanted);
    }
  });

  it('keeps values of text and number as the plan has them', () => {
    for (const sheet of plan.sheets) {
      sheet.rows.forEach((row, r) =>
        row.forEach((cell, c) => {
          if (cell?.formula !== undefined || (cell?.value ?? '') === '') return;
          const [[value]] = excel.read(
            excel.sheet(sheet.name),
            { row: r, column: c, rows: 1, columns: 1 },
            'value',
          ) as [[unknown]];
          expect(value, `${sheet.name} ${r} ${c}`).toBe(cell?.value);
        }),
      );
    }
  });

  it('can be built beside itself', async () => {
    const again = await excelHost().build(plan, () => undefined, new AbortController().signal);
    expect(again.sheets).toEqual(plan.sheets.map((sheet) => `${sheet.name} (2)`));
    const other = again.sheets.flatMap((name) =>
      [...excel.sheet(name).cells.values()].map((cell) => String(cell.formula)),
    );
    // Every reference to a sheet of the plan goes to the new one.
    const old = new RegExp(`(?:^|[^\\w'])'?(?:${sheets.join('|')})'?!`);
    expect(other.filter((text) => text.startsWith('=') && old.test(text))).toEqual([]);
    expect(await excelHost().readFarm()).toBe(plan.farm);
  });
});
