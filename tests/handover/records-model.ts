import type {
  CellModel,
  NameModel,
  SheetModel,
  WorkbookModel,
} from '../../src/plan/workbook-model';

/** A grower's own records with GILL formulas in them: numbers of no farm, made for the hand-over's tests. */

const sheetDefaults: Omit<SheetModel, 'name' | 'question' | 'columnWidths' | 'rows'> = {
  merges: [],
  tables: [],
  validations: [],
  conditions: [],
  charts: [],
  frozen: { rows: 0, columns: 0 },
  print: { landscape: false, headRows: 0 },
};

const typed = (value: number | string): CellModel => ({ value, look: 'input' });
const formula = (text: string, spill?: CellModel['spill']): CellModel => ({
  formula: text,
  look: 'computed',
  ...(spill && { spill }),
});

/** Sheet "Pond's records": head row, then date, degC, pH, TAN, fish, weight, crop, litres. */
const records: (number | string)[][] = [
  ['Date', 'Water', 'pH', 'TAN', 'Fish', 'Weight', 'Crop', 'Litres', 'By hand'],
  [46100, 24, 7.1, 0.5, 300, 120, 'lettuce', 7800, '78 degF'],
  [46107, 25, 7.4, 0.8, 290, 150, 'Basil', 7800],
  [46114, 26.5, 7.9, 1.2, 280, 190, 'cherry tomatoes', 7800],
  [46121, 22, 6.8, 0.3, 275, 230, 'pak choi', 3000],
  [46128, 19, 7.0, 0.2, 270, 260, 'Eggplant', 3000],
];

export const RECORDS = "Pond's records";
const at = `'${RECORDS.replaceAll("'", "''")}'!`;

export const names: NameModel[] = [
  { name: 'Water_today', sheet: RECORDS, area: { row: 5, column: 1, rows: 1, columns: 1 } },
  { name: 'Fish_counted', sheet: RECORDS, area: { row: 1, column: 4, rows: 5, columns: 1 } },
];

/** One formula a line, in column A of the sheet "Sums"; some fill a block. */
export const sums: readonly CellModel[] = [
  formula(`GILL.AMMONIA.UNIONISED(${at}D2,${at}C2,${at}B2)`),
  formula(`ROUND(GILL.AMMONIA.UNIONISED(${at}$D$3,${at}C3,${at}B3)*1000,2)&" ug/L"`),
  formula(`IF(GILL.STOCK.DENSITY(${at}E2,${at}F2,${at}H2)>5,"full","room")`),
  formula(`GILL.FEED.DAY(${at}E4,${at}F4)`),
  formula(`GILL.FEED.DAY(${at}E4,${at}F4,"nile tilapias",${at}B4)`),
  formula(`GILL.FEED.AREA(GILL.FEED.DAY(${at}E4,${at}F4),${at}G4)`),
  formula(`GILL.SOW.DATE(${at}A2+60,${at}G2)`),
  formula(`GILL.SOW.DATE(${at}A6+90,${at}G6,"transplant")`),
  formula(`GILL.OXYGEN.FULL("78 degF")`),
  formula(`GILL.OXYGEN.FULL(Water_today,,500)`),
  formula(`SUM(GILL.LOAD.TAN(${at}E2),GILL.LOAD.TAN(${at}E3,0.4),1)`),
  formula(`2-GILL.LOAD.TAN(100)^2%`),
  formula(`GILL.AMMONIA.UNIONISED(${at}D2,78,${at}B2)`),
  formula(`IFERROR(GILL.SOW.DATE(${at}A2,"no such crop"),"not known")`),
  // What is caught further out: water of 46107 and of 7800 degrees.
  formula(
    `IFERROR(GILL.FEED.AREA(GILL.FEED.DAY(${at}E4,${at}F4,"nile tilapia",${at}A3),${at}G4),"caught")`,
  ),
  formula(
    `IFERROR(IF(${at}C3>7,GILL.LOAD.TAN(GILL.FEED.DAY(${at}E4,${at}F4,"nile tilapia",${at}H4)),1),"caught")`,
  ),
  formula(`GILL.FACT.CROP(${at}G3,"group")`),
  formula(`GILL.SEED.COUNT(SUM(${at}E2:E6),"25 %")`),
  // Blocks, one line free below each for what they fill.
  formula(`GILL.AMMONIA.UNIONISED(${at}D2:D6,${at}C2:C6,${at}$B$2:$B$6)`, { rows: 5, columns: 1 }),
  formula(`GILL.LOAD.TAN(Fish_counted,{0.3,0.4})`, { rows: 5, columns: 2 }),
  formula(`GILL.GROWTH.CURVE(50,28,7,26)`, { rows: 5, columns: 3 }),
  formula(`GILL.OXYGEN.FULL(${at}I2)`),
  formula(`SUM(GILL.LOAD.TAN(${at}E2:E6))`),
];

/** Line of each formula on the sheet, counted from 0. */
export const lines: readonly number[] = sums.reduce<number[]>((all, _, i) => {
  const before = sums[i - 1]?.spill?.rows ?? (i === 0 ? 0 : 1);
  return [...all, (all.at(-1) ?? 0) + before];
}, []);

/** The grid's engine takes no apostrophe in a sheet's name: `name` gives the sheet another one. */
export function recordsModel(name = RECORDS): WorkbookModel {
  const rows: (CellModel | undefined)[][] = [];
  const prefix = `'${name.replaceAll("'", "''")}'!`;
  sums.forEach((cell, i) => {
    rows[lines[i] as number] = [{ ...cell, formula: cell.formula?.replaceAll(at, prefix) ?? '' }];
  });
  const height = (lines.at(-1) ?? 0) + (sums.at(-1)?.spill?.rows ?? 1);
  return {
    title: 'Records',
    formulas: 'live',
    made: '2026-01-01',
    farm: '{}',
    names: names.map((model) => ({ ...model, sheet: name })),
    sheets: [
      {
        ...sheetDefaults,
        name,
        question: 'What was measured?',
        columnWidths: [12, 10, 10, 10, 10, 10, 18, 10],
        rows: records.map((line) => line.map(typed)),
      },
      {
        ...sheetDefaults,
        name: 'Sums',
        question: 'What follows from it?',
        columnWidths: [20, 12, 12],
        rows: Array.from({ length: height }, (_, r) => rows[r] ?? []),
      },
    ],
  };
}
