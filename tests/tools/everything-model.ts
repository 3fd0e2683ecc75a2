import { plainFormula } from '../../src/functions/plain';
import { findCard } from '../../src/functions/card-list';
import type { ValueCard } from '../../src/functions/card';
import type { CellModel, SheetModel, WorkbookModel } from '../../src/plan/workbook-model';

/** A small workbook that uses every part of the model; live and plain show the same values. */

const text = (value: string, look: CellModel['look'] = 'text'): CellModel => ({ value, look });

const log = [
  [46027, 24, 7.2, 0.4, 'clear'],
  [46034, 25, 7.6, 0.9, 'after cleaning'],
  [46041, 26, 8.1, 1.4, '=1+1 is no formula here'],
  [46048, 24.5, 7.9, 0.7, 'x < y & "z"'],
  [46055, 23.5, 7.4, 0.3, '  spaces, _x0041_ and \u0007 bell  '],
] as const;
const FIRST = 5;
const heads = ['Date', 'Water', 'pH', 'TAN', 'Un-ionised', 'Share of limit', 'Remark'];

const empty: Omit<SheetModel, 'name' | 'question' | 'columnWidths' | 'rows'> = {
  merges: [],
  tables: [],
  validations: [],
  conditions: [],
  charts: [],
  frozen: { rows: 0, columns: 0 },
  print: { landscape: false, headRows: 0 },
};

const looksSheet: SheetModel = {
  ...empty,
  name: "All 'looks' & marks",
  question: 'What does each kind of cell look like?',
  columnWidths: [30, 16, 16, 30],
  rows: [
    [text('Every look', 'title')],
    [text('One line of each kind, so that a picture shows them all side by side.', 'lead')],
    ...(
      [
        'text',
        'heading',
        'columnHead',
        'label',
        'unit',
        'input',
        'preset',
        'computed',
        'result',
        'verdict',
        'caution',
        'source',
        'tick',
      ] as const
    ).map((look): (CellModel | undefined)[] => [
      text(look, look),
      undefined,
      { value: 1234.5678, look, format: 'two' },
    ]),
    [],
    [
      text(
        'A long caution over merged columns: it breaks into lines by itself, and the row is high enough for all of them on the screen as well as on paper, in either size of paper.',
        'caution',
      ),
    ],
    ...(
      ['whole', 'one', 'two', 'three', 'percent', 'date', 'money', 'text', 'general'] as const
    ).map((format): (CellModel | undefined)[] => [
      text(format, 'label'),
      format === 'text'
        ? { value: '007', look: 'input', format }
        : { value: format === 'date' ? 46082 : 1234.5678, look: 'input', format },
      { value: true, look: 'computed' },
    ]),
  ],
  merges: [{ row: 16, column: 0, rows: 1, columns: 4 }],
};

const names: WorkbookModel['names'] = [
  { name: 'Limit_unionised', sheet: 'Water log', area: { row: 2, column: 1, rows: 1, columns: 1 } },
  { name: 'Salts', sheet: 'Water log', area: { row: 2, column: 4, rows: 1, columns: 2 } },
];

export function everythingModel(formulas: WorkbookModel['formulas']): WorkbookModel {
  const card = findCard('AMMONIA.UNIONISED') as ValueCard;
  const unionised = (row: number): string => {
    const args = [`D${row + 1}`, `C${row + 1}`, `B${row + 1}`];
    return formulas === 'live' ? `GILL.${card.id}(${args.join(',')})` : plainFormula(card, args);
  };
  const last = FIRST + log.length - 1;
  const spill = (row: number): CellModel => {
    if (formulas === 'plain') {
      const args = [`D${row + 1}`, `C${row + 1}`, '30'];
      return { formula: plainFormula(card, args), look: 'computed', format: 'three' };
    }
    if (row > FIRST) return { look: 'computed', format: 'three' };
    const column = (letter: string): string => `${letter}${FIRST + 1}:${letter}${last + 1}`;
    return {
      formula: `GILL.${card.id}(${column('D')},${column('C')},30)`,
      spill: { rows: log.length, columns: 1 },
      look: 'computed',
      format: 'three',
    };
  };
  const waterLog: SheetModel = {
    ...empty,
    name: 'Water log',
    question: 'Is the ammonia in the water low enough?',
    columnWidths: [14, 12, 10, 10, 14, 14, 34, 4, 14],
    rows: [
      [text('Water log', 'title')],
      [text('Is the ammonia in the water low enough?', 'lead')],
      [
        text('Limit', 'label'),
        {
          value: 0.05,
          look: 'preset',
          format: 'three',
          note: 'Damage to gills begins near this value.\nLower it for young fish; a longer note must still be readable from its first word to its last one.',
        },
        text('mg/L', 'unit'),
        text('Salt', 'label'),
        text('yes', 'input'),
        text('no', 'input'),
      ],
      [
        text('Week', 'label'),
        { formula: `ISOWEEKNUM(A${last + 1})`, look: 'result', format: 'whole' },
      ],
      [
        ...heads.map((head) => text(head, 'columnHead')),
        undefined,
        text('In warm water', 'columnHead'),
      ],
      ...log.map(([date, water, ph, tan, remark], i): (CellModel | undefined)[] => {
        const row = FIRST + i;
        return [
          { value: date, look: 'input', format: 'date' },
          { value: water, look: 'input', format: 'one' },
          { value: ph, look: 'input', format: 'one' },
          { value: tan, look: 'input', format: 'two' },
          { formula: unionised(row), look: 'computed', format: 'three' },
          { formula: `E${row + 1}/Limit_unionised`, look: 'result', format: 'percent' },
          text(remark, 'input'),
          undefined,
          spill(row),
        ];
      }),
      [],
      [
        text('Worst', 'label'),
        { formula: `MAX(E${FIRST + 1}:E${last + 1})`, look: 'result', format: 'three' },
        text('mg/L', 'unit'),
        {
          formula: `IF(B${last + 3}>Limit_unionised,"over the limit","within the limit")`,
          look: 'verdict',
        },
      ],
      [text('Not known', 'label'), { formula: 'NA()', look: 'computed' }],
      [text('Nothing', 'label'), { formula: 'IF(1>2,1,"")', look: 'computed' }],
      [text('True', 'label'), { formula: '1<2', look: 'computed' }],
    ],
    merges: [{ row: last + 2, column: 3, rows: 1, columns: 2 }],
    tables: [
      {
        name: 'Water_tests',
        area: { row: FIRST - 1, column: 0, rows: log.length + 1, columns: heads.length },
        heads,
      },
    ],
    validations: [
      {
        area: { row: FIRST, column: 0, rows: log.length, columns: 1 },
        rule: { kind: 'date' },
        message: 'Type a date, such as 2026-03-01.',
      },
      {
        area: { row: FIRST, column: 1, rows: log.length, columns: 1 },
        rule: { kind: 'number', min: -2, max: 50 },
        message: 'Type a temperature from -2 to 50 degC.',
      },
      {
        area: { row: FIRST, column: 3, rows: log.length, columns: 1 },
        rule: { kind: 'number', min: 0 },
        message: 'Type a number of 0 or more.',
      },
      {
        area: { row: 2, column: 4, rows: 1, columns: 1 },
        rule: { kind: 'words', words: ['yes', 'no'] },
        message: 'Choose yes or no.',
      },
      {
        area: { row: 2, column: 5, rows: 1, columns: 1 },
        rule: { kind: 'list', name: 'Salts' },
        message: 'Choose one of the list.',
      },
      {
        area: { row: 3, column: 2, rows: 1, columns: 1 },
        rule: { kind: 'whole', max: 53 },
        message: 'Type a week.',
      },
    ],
    conditions: (['bad', 'watch', 'good'] as const).map((mark, i) => ({
      area: { row: FIRST, column: 5, rows: log.length, columns: 1 },
      formula: `F${FIRST + 1}>=${[1, 0.5, 0][i]}`,
      mark,
    })),
    charts: (['line', 'column', 'stackedColumn', 'area', 'scatter'] as const).map((kind, i) => ({
      kind,
      title: `Ammonia, ${kind}`,
      place: {
        row: last + 7 + 16 * Math.floor(i / 2),
        column: (i % 2) * 5,
        rows: 15,
        columns: i % 2 ? 2 : 5,
      },
      categories: {
        sheet: 'Water log',
        area: { row: FIRST, column: 0, rows: log.length, columns: 1 },
      },
      series: [3, 4, 8].map((column) => ({
        name: ['TAN', 'Un-ionised', 'In warm water'][[3, 4, 8].indexOf(column)] ?? '',
        sheet: 'Water log',
        area: { row: FIRST, column, rows: log.length, columns: 1 },
      })),
      categoryTitle: 'Day of the test',
      valueTitle: 'mg/L',
    })),
    frozen: { rows: FIRST, columns: 1 },
    // The last column has its plus sign beside it; the page's head is further down.
    folded: { column: 9, columns: 2 },
    print: { landscape: true, headRows: 1, headFrom: FIRST - 1 },
  };
  return {
    title: 'Everything & more',
    formulas,
    made: '2026-03-01',
    sheets: [waterLog, looksSheet],
    names,
    farm: '{"name":"Everything <&> \\"more\\""}',
  };
}
