import { beforeEach, describe, expect, it } from 'vitest';
import type { CellModel, SheetModel, WorkbookModel } from '../../../src/plan/workbook-model';
import { farmFromXml } from '../../../src/ooxml/farm-xml';
import { BuildCancelled, buildInExcel } from '../../../src/hosts/excel/excel-writer';
import { openExcel } from '../../tools/excel-open';
import type { Witness } from '../../tools/excel-witness';
import { knowNotes } from '../../tools/excel-notes';

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

const older = { notes: false };
const never = (): AbortSignal => new AbortController().signal;

let excel: Witness;
let book: Witness['workbook'];

/** An Excel with one sheet of the grower's own, and a farm that an earlier build kept. */
function open(): void {
  excel = openExcel();
  book = excel.workbook;
  book.write(book.sheet('Sheet1'), area(0, 0, 1, 1), [['mine']]);
}
beforeEach(open);

const build = (progress = (): void => undefined, cancel = never(), abilities = older) =>
  buildInExcel(plan, abilities, progress, cancel);

describe('a plan in the open workbook', () => {
  it('needs three requests and ends on the first sheet', async () => {
    const report = await build();
    expect(report).toEqual({ sheets: ['Tanks', 'Beds'], notes: [] });
    expect(excel.requests).toBe(3);
    expect(book.sheets.map((sheet) => sheet.name)).toEqual(['Sheet1', 'Tanks', 'Beds']);
    expect(book.active).toBe('Tanks');
    expect(book.selection).toEqual({ sheet: 'Tanks', address: 'A1' });
  });

  it('reports its progress from 0 to 1, never backwards', async () => {
    const shares: number[] = [];
    await buildInExcel(plan, older, (share) => shares.push(share), never());
    expect(shares[0]).toBe(0);
    expect(shares.at(-1)).toBe(1);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
  });

  it('reports each sheet as it is written, and lets the page draw in between', async () => {
    const told: string[] = [];
    let drawn = 0;
    const draw = setInterval(() => (drawn += 1));
    await buildInExcel(plan, older, (_, doing) => told.push(doing ?? ''), never());
    clearInterval(draw);
    expect(told).toContain('Writing the cells of Tanks, sheet 1 of 2');
    expect(told).toContain('Setting out Beds, sheet 2 of 2');
    expect(drawn).toBeGreaterThan(0);
    expect(excel.requests).toBe(3);
  });

  it('folds away the columns that serve formulas alone', async () => {
    await build();
    expect(book.sheets.map(({ hidden }) => hidden)).toEqual([[], [], ['C1:E1']]);
  });

  it('keeps text as text, whatever it looks like', async () => {
    await build();
    expect(book.cell('Tanks', 'A2')).toEqual({ formula: 'Tank 1', value: 'Tank 1' });
    expect(book.cell('Tanks', 'A3')?.value).toBe('=1+1');
    expect(book.cell('Tanks', 'A4')?.value).toBe('3-4');
    expect(book.cell('Tanks', 'B4')?.value).toBe('TRUE');
    expect(book.cell('Tanks', 'C4')?.value).toBe(true);
    expect(book.cell('Tanks', 'C2')?.formula).toBe('=GILL.FEED.DAY(B2,180)');
  });

  it('makes the tables, names, lists, charts and notes', async () => {
    await build();
    expect(book.sheet('Tanks').tables).toEqual([{ name: 'Tanks_table', address: 'A1:C3' }]);
    expect(book.names.get('Crop_list')).toBe('Beds!A2:A3');
    expect(book.sheet('Beds').lists).toEqual(['=Crop_list']);
    expect(book.sheet('Beds').charts).toEqual([
      {
        type: 'ColumnClustered',
        title: 'Fish',
        series: [
          { name: 'Fish', values: 'Tanks!B2:B3', categories: 'Tanks!A2:A3' },
          { name: 'Area', values: 'Beds!B2:B3', categories: 'Tanks!A2:A3' },
        ],
      },
    ]);
    expect(book.sheet('Tanks').conditions).toEqual(['=B2>Beds!$B$2']);
    expect(book.sheet('Tanks').frozen).toBe('A1');
    expect(book.sheet('Beds').merged).toEqual(['A5:B5']);
  });

  it('puts notes on cells where a newer library can', async () => {
    expect(book.sheet('Sheet1').notes.size).toBe(0);
    const forget = knowNotes();
    try {
      await build(undefined, undefined, { notes: true });
    } finally {
      forget();
    }
    expect([...book.sheet('Tanks').notes]).toEqual([['B3', 'Counted in spring']]);
  });

  it('keeps the farm, and replaces it with the next build', async () => {
    await build();
    await build();
    expect(book.xmlParts).toHaveLength(1);
    expect(farmFromXml(book.xmlParts[0]?.xml ?? '')).toBe(plan.farm);
  });

  it('takes new names where its own are taken, in formulas as well', async () => {
    await build();
    const before = structuredClone(book.sheets.slice(0, 3));
    const report = await build();
    expect(report.sheets).toEqual(['Tanks (2)', 'Beds (2)']);
    expect(book.sheets.slice(0, 3)).toEqual(before);
    expect(book.cell('Tanks (2)', 'C3')?.formula).toBe("=SUM('Beds (2)'!B2:B3)");
    // Text that only looks like a reference stays as it is.
    expect(book.cell('Beds (2)', 'B3')?.formula).toBe(
      '=\'Tanks (2)\'!B2/100+MATCH("Tanks!A1",Crop_list_2,0)',
    );
    expect(book.names.get('Crop_list_2')).toBe("'Beds (2)'!A2:A3");
    expect(book.sheet('Beds (2)').lists).toEqual(['=Crop_list_2']);
    expect(book.sheet('Tanks (2)').tables[0]?.name).toBe('Tanks_table_2');
    expect(book.sheet('Tanks (2)').conditions).toEqual(["=B2>'Beds (2)'!$B$2"]);
  });

  it('enters formulas once more where Excel did not know the functions yet', async () => {
    book.functionsKnown = false;
    excel.host.beforeRequest = () => {
      book.functionsKnown = excel.requests > 2;
    };
    book.compute = (text) => (text.includes('GILL.') ? 42 : 0);
    const report = await build();
    expect(book.cell('Tanks', 'C2')?.value).toBe(42);
    expect(excel.requests).toBe(3);
    expect(report.notes).toEqual([]);
  });

  it('says so where Excel does not get to know them', async () => {
    book.functionsKnown = false;
    const report = await build();
    expect(report.notes?.[0]).toContain('#NAME?');
  });

  it('refuses a workbook whose structure is protected, before it writes anything', async () => {
    book.structureProtected = true;
    await expect(build()).rejects.toThrow('protected');
    expect(book.sheets).toHaveLength(1);
    expect(excel.requests).toBe(1);
  });
});

describe('a build that fails', () => {
  const untouched = (): void => {
    expect(book.sheets.map((sheet) => sheet.name)).toEqual(['Sheet1']);
    expect(book.cell('Sheet1', 'A1')?.value).toBe('mine');
    expect([...book.names.keys()]).toEqual([]);
    expect(book.active).toBe('Sheet1');
  };

  it('leaves nothing behind, at whatever action it fails', async () => {
    await build();
    const { actions } = excel.host;
    expect(actions).toBeGreaterThan(200);
    // A step that divides none of the repeating runs of actions, so that every kind has its turn.
    for (let n = 1; n <= actions; n += 7) {
      open();
      book.xmlParts.push({ id: 'old', xml: '<farm xmlns="urn:gillbed:farm:1">{}</farm>' });
      excel.host.failAtAction = n;
      await expect(build(), `action ${n}`).rejects.toThrow('GeneralException');
      untouched();
      expect(
        book.xmlParts.map((part) => part.id),
        `action ${n}`,
      ).toEqual(['old']);
      expect(excel.host.faults).toEqual([]);
    }
  });

  it('is stopped by the grower at any time without a trace', async () => {
    const shares: number[] = [];
    await buildInExcel(plan, older, (share) => shares.push(share), never());
    expect(shares.length).toBeGreaterThanOrEqual(6);
    // At the last two the last request is on its way or over.
    const late = shares.length - 2;
    for (const [i, share] of shares.entries()) {
      open();
      const cancel = new AbortController();
      let told = 0;
      const building = buildInExcel(
        plan,
        older,
        () => {
          if (told === i) cancel.abort();
          told += 1;
        },
        cancel.signal,
      );
      if (i >= late) {
        await building;
        expect(book.sheets).toHaveLength(3);
        continue;
      }
      await expect(building, `at ${share}`).rejects.toBeInstanceOf(BuildCancelled);
      untouched();
    }
  });

  it('is stopped while the sheets are being written', async () => {
    const cancel = new AbortController();
    let made = false;
    excel.host.beforeRequest = () => {
      if (excel.requests === 2) cancel.abort();
      if (excel.requests === 3) made = book.sheets.length === 3;
    };
    await expect(build(undefined, cancel.signal)).rejects.toBeInstanceOf(BuildCancelled);
    expect(made).toBe(true);
    untouched();
  });

  it('names the sheets that it could not take away', async () => {
    excel.host.failAtAction = 60;
    excel.host.beforeRequest = () => {
      if (excel.requests === 3) throw new Error('Excel has gone');
    };
    await expect(build()).rejects.toThrow('"Tanks", "Beds"');
  });
});
