import type {
  CellModel,
  NameModel,
  SheetModel,
  WorkbookModel,
} from '../../src/plan/workbook-model';

/** Small workbooks for tests that need a few cells. */

export const smallSheet = (name: string, rows: SheetModel['rows']): SheetModel => ({
  name,
  question: '',
  columnWidths: [20, 12, 12, 12],
  rows,
  merges: [],
  tables: [],
  validations: [],
  conditions: [],
  charts: [],
  frozen: { rows: 0, columns: 0 },
  print: { landscape: false, headRows: 0 },
});

export const smallBook = (
  sheets: readonly SheetModel[],
  names: readonly NameModel[] = [],
): WorkbookModel => ({
  title: 'Records',
  formulas: 'live',
  made: '2026-03-01',
  farm: '{}',
  sheets,
  names,
});

export const word = (value: string): CellModel => ({ value, look: 'text' });

export const typed = (value: number, format?: CellModel['format']): CellModel => ({
  value,
  look: 'input',
  ...(format && { format }),
});

export const computed = (formula: string, spill?: CellModel['spill']): CellModel => ({
  formula,
  look: 'computed',
  ...(spill && { spill }),
});
