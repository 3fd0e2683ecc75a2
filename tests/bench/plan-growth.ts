/** The plan and its .xlsx from the demo farm's size to the largest farm that is taken. */
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import type { CellModel, WorkbookModel } from '../../src/plan/workbook-model';
import { planWorkbook } from '../../src/plan/plan';
import { type Line, ratioLine } from './line';
import { exponentOfGrowth, medians } from './timing';

const SIZES = [
  [5, 48],
  [20, 100],
  [50, 250],
  [100, 500],
  [200, 1000],
] as const;

/** As many entries as wanted, with names of their own. */
const repeated = (entries: readonly object[], count: number, name: string): object[] =>
  Array.from({ length: count }, (_, i) => ({
    ...entries[i % entries.length],
    name: `${name} ${i + 1}`,
  }));

const farmOf = (tanks: number, beds: number) =>
  readFarm({
    ...demoFarm,
    tanks: repeated(demoFarm.tanks, tanks, 'Tank'),
    beds: repeated(demoFarm.beds, beds, 'Bed'),
  });

const cellsOf = (model: WorkbookModel): number =>
  model.sheets.reduce(
    (sum, sheet) => sum + sheet.rows.reduce((of, row) => of + row.filter(Boolean).length, 0),
    0,
  );

/** What is written into the cells: formulas grow longer where a farm has more tanks and beds. */
const charactersOf = (model: WorkbookModel): number =>
  model.sheets
    .flatMap(({ rows }) => rows.flat())
    .reduce((sum, cell) => sum + (cell?.formula ?? String(cell?.value ?? '')).length, 0);

const BARE_COLUMNS = 20;

/** A workbook of one sheet with as many cells, each a number and nothing else. */
function bareModel(cells: number): WorkbookModel {
  const cell = (value: number): CellModel => ({ value, look: 'text' });
  const rows = Array.from({ length: Math.ceil(cells / BARE_COLUMNS) }, (_, r) =>
    Array.from({ length: BARE_COLUMNS }, (_, c) => cell(r * BARE_COLUMNS + c + 0.5)),
  );
  return {
    title: 'Bare',
    formulas: 'plain',
    made: '2026-03-01',
    farm: '{}',
    names: [],
    sheets: [
      {
        name: 'Numbers',
        question: '',
        columnWidths: [],
        rows,
        merges: [],
        tables: [],
        validations: [],
        conditions: [],
        charts: [],
        frozen: { rows: 0, columns: 0 },
        print: { landscape: false, headRows: 0 },
      },
    ],
  };
}

export function growth(): Line[] {
  const points = SIZES.map(([tanks, beds], place) => {
    // The first size pays for what runs for the first time, which would flatter the growth.
    const few = { rounds: 3, warmUp: place === 0 ? 4 : 1 };
    const farm = farmOf(tanks, beds);
    const model = planWorkbook(farm, { formulas: 'live' });
    const cells = cellsOf(model);
    const bare = bareModel(cells);
    const one = (): number => 1;
    const [plan = NaN, file = NaN, bareFile = NaN] = medians(
      [
        () => planWorkbook(farm, { formulas: 'live' }),
        () => writeXlsx(model, one),
        () => writeXlsx(bare, one),
      ],
      few,
    );
    return { tanks, beds, cells, characters: charactersOf(model), plan, file, bareFile };
  });
  const exponent = (part: 'plan' | 'file', of: 'cells' | 'characters'): string =>
    exponentOfGrowth(points.map((at) => ({ size: at[of], time: at[part] }))).toFixed(2);
  const bounds = [points[0], points.at(-1)].filter((one) => one !== undefined);
  return [
    {
      what: 'Time of the plan grows with this power of its cells',
      measured: exponent('plan', 'cells'),
      goal: 'at most 1.1',
    },
    {
      what: 'Time of its .xlsx grows with this power of its cells',
      measured: exponent('file', 'cells'),
      goal: 'at most 1.1',
    },
    {
      what: 'The same, with the characters of its cells: the plan, its .xlsx',
      measured: `${exponent('plan', 'characters')}, ${exponent('file', 'characters')}`,
      goal: 'at most 1.1',
    },
    ...bounds.map(({ tanks, beds, cells, file, bareFile }) =>
      ratioLine(
        `.xlsx of ${tanks} tanks and ${beds} beds (${cells} cells), against as many bare numbers by the same writer`,
        file / bareFile,
        'none',
      ),
    ),
    ...bounds.map(({ tanks, beds, plan, file }) => ({
      what: `Plan and .xlsx for ${tanks} tanks and ${beds} beds, time without computing the cells`,
      measured: `${((plan + file) / 1000).toFixed(2)} s`,
      goal: '',
    })),
  ];
}
