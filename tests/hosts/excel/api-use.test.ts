import { afterAll, describe, expect, it } from 'vitest';
import { excelHost } from '../../../src/hosts/excel/excel-host';
import { planWorkbook } from '../../../src/plan/plan';
import { apiNamesOf, memberSets } from '../../tools/api-sets';
import { knowNotes } from '../../tools/excel-notes';
import { openExcel } from '../../tools/excel-open';
import { type Sets, settled, type Witness } from '../../tools/excel-witness';
import { sampleFarm } from '../../tools/farms';

const plan = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'live' });
const used = new Set<string>();

function open(sets?: Sets): Witness {
  const excel = openExcel({ sheets: ['Mine'], ...(sets && { sets }) });
  excel.workbook.write(excel.workbook.sheet('Mine'), { row: 0, column: 0, rows: 2, columns: 2 }, [
    ['TAN', '=1+1'],
    [0.5, 'x'],
  ]);
  return excel;
}

/** Everything that the add-in asks of Excel, each as the pane asks it. */
const asked: Readonly<Record<string, (excel: Witness) => Promise<unknown>>> = {
  'build a plan': async () =>
    excelHost().build(plan, () => undefined, new AbortController().signal),
  'see whether there is a plan': async () => excelHost().holdsPlan(),
  'read the farm': async () => excelHost().readFarm(),
  'read the selection': async () => excelHost().selection(),
  'read cells by their address': async () => excelHost().read('Mine', 'A:B'),
  'read cells of the sheet in front': async () => excelHost().read(undefined, 'A1:B2'),
  'read all sheets': async () => excelHost().readSheets(),
  'put formulas beside a column': async () =>
    excelHost().putFormula('Mine', 'D1', [['=1'], ['=2']]),
  'mend formulas': async () => excelHost().putFormulas('Mine', [{ address: 'D1', formula: '=3' }]),
  'enter values': async () =>
    excelHost().enter([{ sheet: 'Mine', row: 0, column: 3, value: 7 }], []),
  'make a table longer': async ({ workbook }) => {
    const mine = workbook.sheet('Mine');
    workbook.write(mine, { row: 0, column: 0, rows: 1, columns: 2 }, [['TAN', 'pH']]);
    mine.tables.push({ name: 'Records', address: 'A1:B2' });
    const host = excelHost();
    if (!host.lengthensTables) throw new Error('This Excel is too old for longer tables.');
    const area = { row: 0, column: 0, rows: 2, columns: 2 };
    await host.enter([], [{ sheet: 'Mine', name: 'Records', area, lastRow: 3, formulas: [] }]);
  },
  'go to a cell': async () => excelHost().goTo('Mine', 'B2'),
  'open a copy': async () => {
    await Excel.createWorkbook('UEs=');
  },
};

/** The oldest ExcelApi with which each works; what is missing below it is said in a sentence. */
const least: Readonly<Record<keyof typeof asked, string>> = {
  'build a plan': '1.9',
  'see whether there is a plan': '1.1',
  'read the farm': '1.5',
  'read the selection': '1.4',
  'read cells by their address': '1.4',
  'read cells of the sheet in front': '1.4',
  'read all sheets': '1.4',
  'put formulas beside a column': '1.1',
  'mend formulas': '1.1',
  'enter values': '1.9',
  'make a table longer': '1.13',
  'go to a cell': '1.1',
  'open a copy': '1.8',
};
const versions = ['1.1', '1.2', '1.3', '1.4', '1.5', '1.6', '1.7', '1.8', '1.9', '1.13', '1.17'];
const olderThan = (version: string): readonly string[] =>
  versions.slice(0, versions.indexOf(version));

describe('with each requirement set', () => {
  it.each(Object.entries(asked))(
    '%s: works from one on, and says before what is missing',
    async (what, ask) => {
      const needs = least[what] as string;
      for (const version of versions) {
        const excel = open({ ExcelApi: version });
        const outcome = await ask(excel).then(
          () => 'done',
          (thrown: Error) => thrown.message,
        );
        // What an Excel lacks is no misuse where the sentence says so.
        const faults = excel.host.faults.splice(0);
        if (olderThan(needs).includes(version)) {
          expect(outcome, version).toMatch(/too old|ExcelApi 1\.8/);
        } else {
          expect(outcome, version).toBe('done');
          expect(faults, version).toEqual([]);
        }
        for (const member of apiNamesOf(excel.host.used)) used.add(member);
      }
    },
  );

  it('selections are told from 1.4 on, and nothing goes wrong before', async () => {
    for (const [version, told] of [
      ['1.2', []],
      ['1.3', []],
      ['1.4', ['A1', 'B2']],
      ['1.9', ['A1', 'B2']],
    ] as const) {
      const excel = open({ ExcelApi: version });
      const seen: string[] = [];
      const stop = excelHost().onSelection(({ address }) => seen.push(address));
      await settled();
      await excel.select('Mine', 'A1');
      await excel.select('Mine', 'B2');
      stop();
      await settled();
      expect(seen, version).toEqual(told);
      if (told.length === 0) excel.host.faults.splice(0);
      for (const member of apiNamesOf(excel.host.used)) used.add(member);
    }
  });

  it('an Excel of today that promises more than the library knows gets a plan without notes', async () => {
    const excel = open({ ExcelApi: '1.20' });
    expect(excelHost().limits).toEqual([
      'This Excel cannot be given notes on cells; plans are built without them.',
    ]);
    await excelHost().build(plan, () => undefined, new AbortController().signal);
    expect(excel.workbook.sheets.every(({ notes }) => notes.size === 0)).toBe(true);
  });

  it('and with notes where the library knows them', async () => {
    const forget = knowNotes();
    try {
      const excel = open({ ExcelApi: '1.20' });
      expect(excelHost().limits).toEqual([]);
      await excelHost().build(plan, () => undefined, new AbortController().signal);
      const wanted = plan.sheets.flatMap(({ rows }) => rows.flat().filter((cell) => cell?.note));
      const notes = excel.workbook.sheets.reduce((sum, sheet) => sum + sheet.notes.size, 0);
      expect(notes).toBe(wanted.length);
      for (const member of apiNamesOf(excel.host.used)) used.add(member);
      open({ ExcelApi: '1.17' });
      expect(excelHost().limits[0]).toContain('notes');
    } finally {
      forget();
    }
  });

  it('an Excel without a set for building is told so before anything is asked of it', async () => {
    const excel = open({ ExcelApi: '1.8' });
    expect(excelHost().limits[0]).toContain('too old to build');
    await expect(asked['build a plan']?.(excel)).rejects.toThrow('too old to build');
    expect(excel.requests).toBe(0);
  });
});

describe('the members of the API that are used', () => {
  const sets = memberSets();
  afterAll(() => used.clear());

  it('stand in its type definitions, with their requirement sets, as listed', async () => {
    expect(used.size).toBeGreaterThan(100);
    const lines = [...used].sort().map((member) => `${member}  ${sets.get(member) ?? 'unknown'}`);
    expect(lines.filter((line) => line.endsWith('unknown'))).toEqual([]);
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot('./members-used.txt');
  });

  it('are all in ExcelApi 1.9, which building asks for, but for notes and longer tables', () => {
    const newer = [...used].filter((member) => {
      const [, , minor = 0] = /^(\w+ )?1\.(\d+)$/.exec(sets.get(member) ?? '') ?? [];
      return Number(minor) > 9;
    });
    expect(newer.sort()).toEqual(['NoteCollection.add', 'Table.resize', 'Worksheet.notes']);
  });
});
