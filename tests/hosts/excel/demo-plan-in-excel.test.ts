import { describe, expect, it } from 'vitest';
import { excelHost } from '../../../src/hosts/excel/excel-host';
import { BuildCancelled } from '../../../src/hosts/excel/excel-writer';
import type { FormulaMode } from '../../../src/plan/live-or-plain';
import { planWorkbook } from '../../../src/plan/plan';
import { Refusal, type WorkbookInMemory } from '../../tools/excel-workbook';
import { openExcel } from '../../tools/excel-open';
import type { Witness } from '../../tools/excel-witness';
import { sampleFarm } from '../../tools/farms';

const farm = sampleFarm('quillwater');
const never = (): AbortSignal => new AbortController().signal;

describe.each<FormulaMode>(['live', 'plain'])('the demo plan with %s formulas', (formulas) => {
  const plan = planWorkbook(farm, { formulas });
  const names = plan.sheets.map((sheet) => sheet.name);
  let book: WorkbookInMemory;

  it('is built beside the sheets that are there', async () => {
    const excel = openExcel({ sheets: ['Mine'] });
    book = excel.workbook;
    const shares: number[] = [];
    const report = await excelHost().build(plan, (share) => shares.push(share), never());
    expect(report).toEqual({ sheets: names, notes: [] });
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
  });

  it('holds every cell of the plan', () => {
    for (const sheet of plan.sheets) {
      const wanted = sheet.rows
        .flat()
        .filter((cell) => cell?.formula !== undefined || (cell?.value ?? '') !== '').length;
      expect(book.sheet(sheet.name).cells.size, sheet.name).toBe(wanted);
    }
  });

  it('keeps values of text and number as the plan has them', () => {
    for (const sheet of plan.sheets) {
      sheet.rows.forEach((row, r) =>
        row.forEach((cell, c) => {
          if (cell?.formula !== undefined || (cell?.value ?? '') === '') return;
          const box = { row: r, column: c, rows: 1, columns: 1 };
          const [[value]] = book.sheet(sheet.name).read(box, 'value') as [[unknown]];
          expect(value, `${sheet.name} ${r} ${c}`).toBe(cell?.value);
        }),
      );
    }
  });
});

it('the demo plan can be built beside itself', async () => {
  const plan = planWorkbook(farm, { formulas: 'live' });
  const names = plan.sheets.map((sheet) => sheet.name);
  const excel = openExcel({ sheets: names });
  const book = excel.workbook;
  const again = await excelHost().build(plan, () => undefined, never());
  expect(again.sheets).toEqual(names.map((name) => `${name} (2)`));
  const other = again.sheets.flatMap((name) =>
    [...book.sheet(name).cells.values()].map((cell) => String(cell.formula)),
  );
  // Every reference to a sheet of the plan goes to the new one.
  const old = new RegExp(`(?:^|[^\\w'])'?(?:${names.join('|')})'?!`);
  expect(other.filter((text) => text.startsWith('=') && old.test(text))).toEqual([]);
  expect(await excelHost().readFarm()).toBe(plan.farm);
  expect(excel.host.kept.size).toBe(0);
});

describe('the demo plan, not built to its end', () => {
  const plan = planWorkbook(farm, { formulas: 'plain' });
  const nothingLeft = ({ workbook }: Witness): void => {
    expect(workbook.sheets.map((sheet) => sheet.name)).toEqual(['Mine']);
    expect(workbook.names.size).toBe(0);
    expect(workbook.xmlParts.map((part) => part.id)).toEqual(['old']);
  };
  const open = (beforeRequest: (n: number) => void): Witness => {
    const excel = openExcel({ sheets: ['Mine'] });
    excel.workbook.xmlParts.push({ id: 'old', xml: '<farm xmlns="urn:gillbed:farm:1">{}</farm>' });
    excel.host.beforeRequest = () => beforeRequest(excel.requests);
    return excel;
  };
  /** The first looks round; the last puts the farm in. */
  const REQUESTS = [1, 2, 3, 4, 5, 6, 7];

  it('because a request fails: nothing is left of it, whichever it was', async () => {
    let failed = 0;
    for (const at of REQUESTS) {
      const excel = open((n) => {
        if (n === at) throw new Refusal('GeneralException', 'Excel is busy');
      });
      const built = await excelHost()
        .build(plan, () => undefined, never())
        .catch((thrown: Error) => thrown);
      if (!(built instanceof Error)) continue;
      failed += 1;
      expect(built.message).toContain('Excel is busy');
      nothingLeft(excel);
    }
    expect(failed).toBeGreaterThanOrEqual(5);
  });

  it('because the grower stops it between two requests: nothing is left of it', async () => {
    for (const at of [2, 3, 4]) {
      const cancel = new AbortController();
      const excel = open((n) => {
        if (n === at) cancel.abort();
      });
      const building = excelHost().build(plan, () => undefined, cancel.signal);
      await expect(building).rejects.toBeInstanceOf(BuildCancelled);
      expect(excel.requests).toBe(at + 2);
      nothingLeft(excel);
    }
  });
});
