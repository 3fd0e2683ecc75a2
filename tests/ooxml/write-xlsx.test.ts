import { afterEach, describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { farmFromXml } from '../../src/ooxml/farm-xml';
import { computedValues } from '../../src/engine/engine';
import type { AddInReference } from '../../src/ooxml/add-in-part';
import { columnFormula, tableXml } from '../../src/ooxml/table-xml';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import type {
  CellModel,
  SheetModel,
  TableModel,
  WorkbookModel,
} from '../../src/plan/workbook-model';
import type { ComputedValues } from '../../src/plan/computed-values';
import { everythingModel } from '../tools/everything-model';
import { pages, readValues, recalculated } from '../tools/libreoffice';
import { lintXlsx } from '../tools/lint-xlsx';
import { partNames, partText } from '../tools/planted';
import { schemaFaults } from '../tools/schema';

const addIn: AddInReference = {
  id: '00000000-1111-4222-8333-444444444444',
  version: '1.2.3.0',
  from: 'sideloaded',
  offer: true,
};
const live = everythingModel('live');
const plain = everythingModel('plain');
const liveValues = computedValues(live);
const plainValues = computedValues(plain);
const liveFile = writeXlsx(live, liveValues, { addIn });
const plainFile = writeXlsx(plain, plainValues);

const SHEET = 'xl/worksheets/sheet1.xml';

/** Every cell that holds something, by sheet, row and column. */
const filledCells = (model: WorkbookModel): [SheetModel, number, number, CellModel][] =>
  model.sheets.flatMap((sheet) =>
    sheet.rows.flatMap((row, r) =>
      row.flatMap((cell, c): [SheetModel, number, number, CellModel][] =>
        cell && (cell.value !== undefined || cell.formula !== undefined)
          ? [[sheet, r, c, cell]]
          : [],
      ),
    ),
  );

const shown = (value: ReturnType<ComputedValues>): unknown =>
  value instanceof GillError
    ? value.code
    : typeof value === 'number'
      ? Number(value.toPrecision(12))
      : (value ?? '');

describe('a workbook file', () => {
  it('passes the schema check and the lint, live with its add-in and plain', () => {
    expect(schemaFaults(liveFile)).toBe('');
    expect(schemaFaults(plainFile)).toBe('');
    expect(lintXlsx(liveFile)).toEqual([]);
    expect(lintXlsx(plainFile)).toEqual([]);
  });

  it('gives another reader every typed text, number and computed value', async () => {
    for (const [model, values, file] of [
      [live, liveValues, liveFile],
      [plain, plainValues, plainFile],
    ] as const) {
      const read = await readValues(file);
      const cells = filledCells(model);
      expect(cells.length).toBeGreaterThan(100);
      for (const [{ name }, r, c, cell] of cells) {
        const wanted = cell.formula === undefined ? cell.value : values(name, r, c);
        expect([name, r, c, shown(read(name, r, c))]).toEqual([name, r, c, shown(wanted)]);
      }
    }
  });

  it('computes in LibreOffice to the values that it was written with', async () => {
    const found = (await recalculated(new Map([['plain.xlsx', plainFile]]))).get('plain.xlsx');
    for (const [{ name }, r, c, cell] of filledCells(plain)) {
      if (cell.formula === undefined) continue;
      expect([name, r, c, shown(found?.(name, r, c))]).toEqual([
        name,
        r,
        c,
        shown(plainValues(name, r, c)),
      ]);
    }
  });

  it('prints one page wide on A4 and on Letter', () => {
    const letter = writeXlsx(plain, plainValues, { paper: 'Letter' });
    expect(partText(plainFile, SHEET)).toContain('paperSize="9"');
    expect(partText(letter, SHEET)).toContain('paperSize="1"');
    // Two pages of rows and charts, one of looks; a second page of width would double them.
    expect(pages(plainFile, 20)).toHaveLength(3);
    expect(pages(letter, 20)).toHaveLength(3);
  });
});

describe('columns that serve formulas alone', () => {
  it('are folded away, with a plus sign on the column after them', () => {
    const xml = partText(plainFile, SHEET);
    for (const column of [10, 11]) {
      expect(xml).toMatch(
        new RegExp(`<col min="${column}" max="${column}"[^>]* hidden="1" outlineLevel="1"/>`),
      );
    }
    expect(xml).toMatch(/<col min="12" max="12"[^>]* collapsed="1"\/>/);
    expect(xml).toContain('outlineLevelCol="1"');
  });
});

describe('live formulas', () => {
  const xml = partText(liveFile, SHEET);

  it('are stored as Excel stores them, with their value', () => {
    const value = liveValues('Water log', 5, 4);
    expect(xml).toMatch(
      /<c r="E6" s="\d+" cm="1"><f t="array" ref="E6">_xldudf_GILL_AMMONIA_UNIONISED\(D6,C6,B6\)<\/f>/,
    );
    expect(xml).toContain(`(D6,C6,B6)</f><v>${String(value)}</v></c>`);
    expect(partText(liveFile, 'xl/metadata.xml')).toContain('name="XLDAPR"');
  });

  it('spill over their block, in which each cell keeps its value', () => {
    expect(xml).toContain(
      '<f t="array" ref="I6:I10">_xldudf_GILL_AMMONIA_UNIONISED(D6:D10,C6:C10,30)</f>',
    );
    const last = liveValues('Water log', 9, 8);
    expect(typeof last).toBe('number');
    expect(xml).toMatch(new RegExp(`<c r="I10" s="\\d+"><v>${String(last)}</v></c>`));
  });

  it('leave ordinary formulas as they are', () => {
    expect(xml).toMatch(/<c r="F6" s="\d+"><f>E6\/Limit_unionised<\/f>/);
    expect(partText(plainFile, SHEET)).not.toContain('t="array"');
    expect(partNames(plainFile)).not.toContain('xl/metadata.xml');
  });

  it('keep their values where nobody can compute them: only a plain file computes on opening', () => {
    expect(partText(liveFile, 'xl/workbook.xml')).toContain('<calcPr calcId="191029"/>');
    expect(partText(plainFile, 'xl/workbook.xml')).toContain(
      '<calcPr calcId="191029" fullCalcOnLoad="1"/>',
    );
  });

  it('name their add-in where an organisation or a shared folder gives it out', () => {
    for (const [from, store] of [
      ['organisation', 'store="EXCatalog" storeType="EXCatalog"'],
      [{ folder: '\\\\server\\add-ins' }, 'store="\\\\server\\add-ins" storeType="FileSystem"'],
    ] as const) {
      const file = writeXlsx(live, liveValues, { addIn: { ...addIn, from } });
      expect(partText(file, 'xl/webextensions/webextension1.xml')).toContain(
        `version="1.2.3.0" ${store}/>`,
      );
      expect(schemaFaults(file)).toBe('');
    }
  });

  it('name their add-in only where that is wanted', () => {
    const part = partText(liveFile, 'xl/webextensions/webextension1.xml');
    expect(part).toContain(
      `<we:reference id="${addIn.id}" version="1.2.3.0" store="developer" storeType="Registry"/>`,
    );
    expect(part).toContain(
      '<we:customFunctionIds>_xldudf_GILL_AMMONIA_UNIONISED</we:customFunctionIds>',
    );
    // The parts hang on the file itself, not on the workbook, as in files that Excel saves.
    const relations = 'http://schemas.microsoft.com/office/2011/relationships';
    expect(partText(liveFile, '_rels/.rels')).toContain(
      `Type="${relations}/webextensiontaskpanes" Target="xl/webextensions/taskpanes.xml"/>`,
    );
    expect(partText(liveFile, 'xl/webextensions/_rels/taskpanes.xml.rels')).toContain(
      `Id="rId1" Type="${relations}/webextension" Target="webextension1.xml"/>`,
    );
    expect(partText(liveFile, 'xl/webextensions/taskpanes.xml')).toMatch(
      /<wetp:taskpane dockstate="right" visibility="1" .*r:id="rId1"/,
    );
    for (const [path, kind] of [
      ['taskpanes', 'webextensiontaskpanes'],
      ['webextension1', 'webextension'],
    ]) {
      expect(partText(liveFile, '[Content_Types].xml')).toContain(
        `PartName="/xl/webextensions/${path}.xml" ContentType="application/vnd.ms-office.${kind}+xml"/>`,
      );
    }
    const extension = /webextension/;
    expect(partNames(writeXlsx(live, liveValues)).filter((name) => extension.test(name))).toEqual(
      [],
    );
    expect(
      partNames(writeXlsx(plain, plainValues, { addIn })).filter((name) => extension.test(name)),
    ).toEqual([]);
  });
});

describe('what a file keeps', () => {
  it('the farm, in both forms', () => {
    for (const file of [liveFile, plainFile]) {
      expect(farmFromXml(partText(file, 'customXml/item1.xml'))).toBe(plain.farm);
    }
  });

  it('text as text, also where it looks like a formula', () => {
    expect(partText(plainFile, 'xl/sharedStrings.xml')).toContain('<t>=1+1 is no formula here</t>');
    expect(partText(plainFile, 'xl/sharedStrings.xml')).toContain(
      '<t xml:space="preserve">  spaces, _x005F_x0041_ and _x0007_ bell  </t>',
    );
    expect(partText(plainFile, 'xl/styles.xml')).toContain('quotePrefix="1"');
  });

  it('formulas of columns, for rows that are added by hand', () => {
    expect(partText(liveFile, 'xl/tables/table1.xml')).toContain(
      '<calculatedColumnFormula>_xldudf_GILL_AMMONIA_UNIONISED(Water_tests[[#This Row],[TAN]],Water_tests[[#This Row],[pH]],Water_tests[[#This Row],[Water]])</calculatedColumnFormula>',
    );
    expect(partText(plainFile, 'xl/tables/table1.xml')).toContain(
      '<calculatedColumnFormula>Water_tests[[#This Row],[Un-ionised]]/Limit_unionised</calculatedColumnFormula>',
    );
  });
});

describe('a column formula', () => {
  const table: TableModel = {
    name: 'Tanks',
    area: { row: 4, column: 0, rows: 3, columns: 3 },
    heads: ['Litres', 'Fish [head]', "Owner's"],
  };
  it('turns cells of its row into columns and keeps what is fixed', () => {
    expect(columnFormula('$A6*B6+Site!$B$2+SUM($A$1:$A$3)+Rate+C6', 5, table)).toBe(
      "Tanks[[#This Row],[Litres]]*Tanks[[#This Row],[Fish '[head']]]+Site!$B$2+SUM($A$1:$A$3)+Rate+Tanks[[#This Row],[Owner''s]]",
    );
  });
  it('is none where it points at another row, beyond the table or at a moving cell elsewhere', () => {
    for (const formula of ['A5*2', 'D6*2', 'Site!B6', 'SUM(A6:A7)', 'SUM(A:A)']) {
      expect(columnFormula(formula, 5, table)).toBeUndefined();
    }
  });
});

describe('the formula that a column keeps for rows to come', () => {
  const table: TableModel = {
    name: 'Tanks',
    area: { row: 0, column: 0, rows: 4, columns: 2 },
    heads: ['Litres', 'Cubic metres'],
  };
  const kept = (...formulas: (string | undefined)[]): boolean => {
    const rows = formulas.map((formula): (CellModel | undefined)[] => [
      undefined,
      formula === undefined ? undefined : { formula, look: 'computed' },
    ]);
    const sheet: SheetModel = { ...(plain.sheets[1] as SheetModel), rows: [[], ...rows] };
    return tableXml(sheet, table, 1).includes('<calculatedColumnFormula>');
  };
  it('is there where all rows say the same of themselves, however they write it', () => {
    expect(kept('$A2/$B$1&"A2"', '$A3/$B$1&"A2"', '$A4/$B$1&"A2"')).toBe(true);
    expect(kept('$A2/1000', 'A3/1000', '$A4/1000')).toBe(true);
  });
  it('is not there where one row differs, points elsewhere or has none', () => {
    expect(kept('$A2/1000', '$A3/100', '$A4/1000')).toBe(false);
    expect(kept('$A2/1000', '$A3/1000', '$A3/1000')).toBe(false);
    expect(kept('$A2&"A2"', '$A3&"A3"', '$A4&"A4"')).toBe(false);
    expect(kept('$A2/1000', '$A3/1000', undefined)).toBe(false);
    expect(kept(undefined, '$A3/1000', '$A4/1000')).toBe(false);
  });
});

describe('equal plans', () => {
  const zone = process.env['TZ'];
  afterEach(() => {
    if (zone === undefined) delete process.env['TZ'];
    else process.env['TZ'] = zone;
  });
  it('give equal bytes in every time zone', () => {
    for (const place of ['Asia/Tokyo', 'America/New_York', 'Pacific/Kiritimati', 'UTC']) {
      process.env['TZ'] = place;
      expect(Buffer.from(writeXlsx(live, liveValues, { addIn })).equals(liveFile)).toBe(true);
    }
  });
});

describe('what a file cannot hold is refused', () => {
  const withCell = (cell: CellModel, change: Partial<SheetModel> = {}): WorkbookModel => ({
    ...plain,
    names: [],
    sheets: [
      {
        ...(plain.sheets[1] as SheetModel),
        name: 'Tanks',
        rows: [[cell]],
        merges: [],
        ...change,
      },
    ],
  });
  const write =
    (model: WorkbookModel, values: ComputedValues = () => 1) =>
    () =>
      writeXlsx(model, values);
  const formula: CellModel = { formula: '1/3', look: 'computed' };

  it.each<[string, () => unknown, RegExp]>([
    ['a typed NaN', write(withCell({ value: NaN, look: 'input' })), /Tanks!A1 holds NaN/],
    ['a computed infinity', write(withCell(formula), () => Infinity), /Tanks!A1 holds Infinity/],
    ['text beyond a cell', write(withCell({ value: 'x'.repeat(40000), look: 'text' })), /40000/],
    ['a formula with its "="', write(withCell({ formula: '=1', look: 'text' })), /after the "="/],
    [
      'a GILL call in a plain workbook',
      write(withCell({ formula: 'GILL.AMMONIA.UNIONISED(1,2,3)', look: 'text' })),
      /plain workbook/,
    ],
    [
      'a function that does not exist',
      write({ ...withCell({ formula: 'GILL.FEED.NOTHING(1)', look: 'text' }), formulas: 'live' }),
      /no function GILL\.FEED\.NOTHING/,
    ],
    ['a day that is none', write({ ...plain, made: 'today' }), /"today" is no day/],
    [
      'a name like a cell',
      write({
        ...withCell(formula),
        names: [
          { name: 'TAN12', sheet: 'Tanks', area: { row: 0, column: 0, rows: 1, columns: 1 } },
        ],
      }),
      /"TAN12" cannot name/,
    ],
    [
      'a table whose head is not in its cell',
      write(
        withCell(formula, {
          tables: [
            { name: 'Tank_list', area: { row: 0, column: 0, rows: 2, columns: 1 }, heads: ['x'] },
          ],
        }),
      ),
      /Tank_list/,
    ],
    [
      'words with a comma in a list',
      write(
        withCell(formula, {
          validations: [
            {
              area: { row: 0, column: 0, rows: 1, columns: 1 },
              rule: { kind: 'words', words: ['a, b'] },
              message: 'Choose.',
            },
          ],
        }),
      ),
      /cannot stand in a list/,
    ],
  ])('%s', (_, work, sentence) => {
    expect(work).toThrow(sentence);
  });
});
