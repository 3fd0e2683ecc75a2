import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { CellModel, SheetModel, WorkbookModel } from '../../../src/plan/model';
import { farmFromXml } from '../../../src/ooxml/farm-xml';
import { BuildCancelled, buildInExcel } from '../../../src/hosts/excel/excel-writer';
import { FakeExcel } from '../../tools/fake-excel';

const cell = (value: CellModel['value'], look: CellModel['look'] = 'text'): CellModel => ({
  ...(value !== undefined && { value }),
  look,
});
const formula = (text: string): CellModel => ({ formula: text, look: 'computed', format: 'two' });

const sheet = (name: string, rest: Partial<SheetModel>): SheetModel => ({
  name,
  question: 'What is in it?',
  columnWidths: [20, 10, 10],
  rows: [],
  merges: [],
  tables: [],
  validations: [],
  conditions: [],
  charts: [],
  frozen: { rows: 0, columns: 0 },
  print: { landscape: false, headRows: 0 },
  ...rest,
});

const area = (row: number, column: number, rows: number, columns: number) => ({
  row,
  column,
  rows,
  columns,
});

/** Two sheets that lean on each other in every way that a plan can. */
const plan: WorkbookModel = {
  title: 'Reed Pool Greens',
  formulas: 'live',
  made: '2026-03-01',
  farm: '{"name":"Reed <Pool> & Greens"}',
  names: [{ name: 'Crop_list', sheet: 'Beds', area: area(1, 0, 2, 1) }],
  sheets: [
    sheet('Tanks', {
      rows: [
        [cell('Tank', 'columnHead'), cell('Fish', 'columnHead'), cell('Feed', 'columnHead')],
        [
          cell('Tank 1'),
          { value: 600, look: 'input', format: 'whole' },
          formula('GILL.FEED.DAY(B2,180)'),
        ],
        [
          cell('=1+1'),
          { value: 400, look: 'input', format: 'whole', note: 'Counted in spring' },
          formula('SUM(Beds!B2:B3)'),
        ],
        [cell('3-4'), cell('TRUE'), cell(true)],
      ],
      tables: [{ name: 'Tanks_table', area: area(0, 0, 3, 3), heads: ['Tank', 'Fish', 'Feed'] }],
      conditions: [{ area: area(1, 1, 2, 1), formula: 'B2>Beds!$B$2', mark: 'bad' }],
      frozen: { rows: 1, columns: 1 },
      print: { landscape: true, headRows: 1 },
    }),
    sheet('Beds', {
      rows: [
        [cell('Crop', 'columnHead'), cell('Area', 'columnHead')],
        [cell('lettuce'), { value: 12, look: 'input' }],
        [cell('basil'), formula('Tanks!B2/100+MATCH("Tanks!A1",Crop_list,0)')],
      ],
      merges: [area(4, 0, 1, 2)],
      folded: { column: 2, columns: 3 },
      validations: [
        {
          area: area(1, 0, 2, 1),
          rule: { kind: 'list', name: 'Crop_list' },
          message: 'A crop of the list',
        },
        { area: area(1, 1, 1, 1), rule: { kind: 'number', min: 0 }, message: 'An area in m2' },
      ],
      charts: [
        {
          kind: 'column',
          title: 'Fish',
          place: area(6, 0, 10, 4),
          categories: { sheet: 'Tanks', area: area(1, 0, 2, 1) },
          series: [
            { name: 'Fish', sheet: 'Tanks', area: area(1, 1, 2, 1) },
            { name: 'Area', sheet: 'Beds', area: area(1, 1, 2, 1) },
          ],
        },
      ],
    }),
  ],
};

const newer = { notes: true };
const never = (): AbortSignal => new AbortController().signal;

let excel: FakeExcel;
beforeEach(() => {
  excel = new FakeExcel();
  excel.write(excel.sheet('Sheet1'), { row: 0, column: 0, rows: 1, columns: 1 }, [['mine']]);
  vi.stubGlobal('Excel', excel.Excel);
});

const build = (progress = (): void => undefined, cancel = never()) =>
  buildInExcel(plan, newer, progress, cancel);

describe('a plan in the open workbook', () => {
  it('takes three round trips and ends on the first sheet', async () => {
    const report = await build();
    expect(report).toEqual({ sheets: ['Tanks', 'Beds'], notes: [] });
    expect(excel.syncs).toBe(3);
    expect(excel.sheets.map((one) => one.name)).toEqual(['Sheet1', 'Tanks', 'Beds']);
    expect(excel.active).toBe('Tanks');
    expect(excel.selection).toEqual({ sheet: 'Tanks', address: 'A1' });
  });

  it('tells its progress from 0 to 1, never backwards', async () => {
    const shares: number[] = [];
    await buildInExcel(plan, newer, (share) => shares.push(share), never());
    expect(shares[0]).toBe(0);
    expect(shares.at(-1)).toBe(1);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
  });

  it('tells of each sheet as it is written, and lets the page draw in between', async () => {
    const told: string[] = [];
    let drawn = 0;
    const draw = setInterval(() => (drawn += 1));
    await buildInExcel(plan, newer, (_, doing) => told.push(doing ?? ''), never());
    clearInterval(draw);
    expect(told).toContain('Writing Tanks, sheet 1 of 2');
    expect(told).toContain('Writing Beds, sheet 2 of 2');
    expect(drawn).toBeGreaterThan(0);
    expect(excel.syncs).toBe(3);
  });

  it('folds away the columns that serve formulas alone', async () => {
    await build();
    expect(excel.sheets.map(({ hidden }) => hidden)).toEqual([[], [], ['C1:E1']]);
  });

  it('keeps text as text, whatever it looks like', async () => {
    await build();
    expect(excel.cell('Tanks', 'A2')).toEqual({ formula: 'Tank 1', value: 'Tank 1' });
    expect(excel.cell('Tanks', 'A3')?.value).toBe('=1+1');
    expect(excel.cell('Tanks', 'A4')?.value).toBe('3-4');
    expect(excel.cell('Tanks', 'B4')?.value).toBe('TRUE');
    expect(excel.cell('Tanks', 'C4')?.value).toBe(true);
    expect(excel.cell('Tanks', 'C2')?.formula).toBe('=GILL.FEED.DAY(B2,180)');
  });

  it('makes the tables, names, lists, charts and notes', async () => {
    await build();
    expect(excel.sheet('Tanks').tables).toEqual([{ name: 'Tanks_table', address: 'A1:C3' }]);
    expect(excel.names.get('Crop_list')).toBe('Beds!A2:A3');
    expect(excel.sheet('Beds').lists).toEqual(['=Crop_list']);
    expect(excel.sheet('Beds').charts).toEqual([
      { type: 'ColumnClustered', title: 'Fish', series: ['Fish', 'Area'] },
    ]);
    expect(excel.sheet('Tanks').notes.get('B3')).toBe('Counted in spring');
  });

  it('leaves notes out where Excel is too old for them', async () => {
    await buildInExcel(plan, { notes: false }, () => undefined, never());
    expect(excel.sheet('Tanks').notes.size).toBe(0);
  });

  it('keeps the farm, and replaces it with the next build', async () => {
    await build();
    await build();
    expect(excel.farmParts).toHaveLength(1);
    expect(farmFromXml(excel.farmParts[0]?.xml ?? '')).toBe(plan.farm);
  });

  it('takes new names where its own are taken, in formulas as well', async () => {
    await build();
    const before = structuredClone(excel.sheets.slice(0, 3));
    const report = await build();
    expect(report.sheets).toEqual(['Tanks (2)', 'Beds (2)']);
    expect(excel.sheets.slice(0, 3)).toEqual(before);
    expect(excel.cell('Tanks (2)', 'C3')?.formula).toBe("=SUM('Beds (2)'!B2:B3)");
    // Text that only looks like a reference stays as it is.
    expect(excel.cell('Beds (2)', 'B3')?.formula).toBe(
      '=\'Tanks (2)\'!B2/100+MATCH("Tanks!A1",Crop_list_2,0)',
    );
    expect(excel.names.get('Crop_list_2')).toBe("'Beds (2)'!A2:A3");
    expect(excel.sheet('Beds (2)').lists).toEqual(['=Crop_list_2']);
    expect(excel.sheet('Tanks (2)').tables[0]?.name).toBe('Tanks_table_2');
    expect(excel.journal.filter((line) => line.includes('rule.formula')).at(-1)).toContain(
      "=B2>'Beds (2)'!$B$2",
    );
  });

  it('enters formulas once more where Excel did not know the functions yet', async () => {
    excel.functionsKnownAfter = 2;
    excel.compute = (text) => (text.includes('GILL.') ? 42 : 0);
    const report = await build();
    expect(excel.cell('Tanks', 'C2')?.value).toBe(42);
    expect(excel.syncs).toBe(3);
    expect(report.notes).toEqual([]);
  });

  it('says so where Excel does not get to know them', async () => {
    excel.functionsKnownAfter = 99;
    const report = await build();
    expect(report.notes?.[0]).toContain('#NAME?');
  });

  it('refuses a workbook whose structure is protected, before it writes anything', async () => {
    excel.structureProtected = true;
    await expect(build()).rejects.toThrow('protected');
    expect(excel.sheets).toHaveLength(1);
    expect(excel.syncs).toBe(1);
  });
});

describe('a build that does not get through', () => {
  const untouched = (): void => {
    expect(excel.sheets.map((one) => one.name)).toEqual(['Sheet1']);
    expect(excel.cell('Sheet1', 'A1')?.value).toBe('mine');
    expect([...excel.names.keys()]).toEqual([]);
    expect(excel.active).toBe('Sheet1');
  };

  it('leaves nothing behind, at whichever call it fails', async () => {
    await build();
    const calls = excel.operations;
    expect(calls).toBeGreaterThan(100);
    for (let n = 1; n <= calls; n++) {
      excel = new FakeExcel();
      excel.write(excel.sheet('Sheet1'), { row: 0, column: 0, rows: 1, columns: 1 }, [['mine']]);
      excel.farmParts.push({ id: 'old', xml: '<farm xmlns="urn:gillbed:farm:1">{}</farm>' });
      vi.stubGlobal('Excel', excel.Excel);
      excel.failAtOperation = n;
      await expect(build(), `call ${n}`).rejects.toThrow('GeneralException');
      expect(
        excel.sheets.map((one) => one.name),
        `call ${n}`,
      ).toEqual(['Sheet1']);
      expect(excel.names.size, `call ${n}`).toBe(0);
      expect(
        excel.farmParts.map((one) => one.id),
        `call ${n}`,
      ).toEqual(['old']);
    }
  });

  it('is stopped by the grower at any time without a trace', async () => {
    const shares: number[] = [];
    await buildInExcel(plan, newer, (share) => shares.push(share), never());
    expect(shares.length).toBeGreaterThanOrEqual(6);
    // At the last two the third round trip is on its way or over.
    const late = shares.slice(-2);
    for (const [i, share] of shares.entries()) {
      excel = new FakeExcel();
      excel.write(excel.sheet('Sheet1'), { row: 0, column: 0, rows: 1, columns: 1 }, [['mine']]);
      vi.stubGlobal('Excel', excel.Excel);
      const cancel = new AbortController();
      let told = 0;
      const building = buildInExcel(
        plan,
        newer,
        () => {
          if (told === i) cancel.abort();
          told += 1;
        },
        cancel.signal,
      );
      if (late.includes(share)) {
        await building;
        expect(excel.sheets).toHaveLength(3);
        continue;
      }
      await expect(building, `at ${share}`).rejects.toBeInstanceOf(BuildCancelled);
      untouched();
    }
  });

  it('is stopped while the sheets are being written', async () => {
    const cancel = new AbortController();
    excel.beforeSync = () => {
      if (excel.syncs === 1) cancel.abort();
    };
    await expect(build(undefined, cancel.signal)).rejects.toBeInstanceOf(BuildCancelled);
    expect(excel.journal.some((line) => line === 'add sheet Tanks')).toBe(true);
    untouched();
  });

  it('names the sheets that it could not take away', async () => {
    excel.failAtOperation = 30;
    excel.beforeSync = () => {
      if (excel.syncs === 2) throw new Error('Excel has gone');
    };
    await expect(build()).rejects.toThrow('"Tanks", "Beds"');
  });
});
