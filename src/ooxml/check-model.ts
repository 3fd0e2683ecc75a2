import { storedCalls } from '../functions/stored-name';
import { areaAddress, cellAddress } from '../plan/addresses';
import type { Area, CellModel, SheetModel, WorkbookModel } from '../plan/workbook-model';
import { spillsOf } from './cell-contents';
import type { Steps } from '../plan/in-steps';
import { isExcelName } from './excel-name';

/** Limits of the file format and of the programs that read it. */
const MAX_TEXT_LENGTH = 32767;
const MAX_FORMULA_LENGTH = 8192;
const MAX_LIST_LENGTH = 255;
const MAX_MESSAGE_LENGTH = 225;
const MAX_NOTE_LENGTH = 2000;
const MAX_SHEET_NAME_LENGTH = 31;
const SHEET_NAME = /^(?!')[^[\]:*?/\\\p{Cc}]+(?<!')$/u;
const DAY = /^\d{4}-\d{2}-\d{2}$/;

const overlap = (a: Area, b: Area): boolean =>
  a.row < b.row + b.rows &&
  b.row < a.row + a.rows &&
  a.column < b.column + b.columns &&
  b.column < a.column + a.columns;

const fail = (sentence: string): never => {
  throw new Error(sentence);
};

/** `place` says where the cell is; most cells never ask. */
function checkCell(
  { value, formula, spill, note }: CellModel,
  place: () => string,
  formulas: WorkbookModel['formulas'],
): void {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    fail(`${place()} holds ${value}, which is no number that a file can hold`);
  }
  if (typeof value === 'string' && value.length > MAX_TEXT_LENGTH) {
    fail(`${place()} holds ${value.length} characters; a cell takes ${MAX_TEXT_LENGTH}`);
  }
  if (note !== undefined && (note === '' || note.length > MAX_NOTE_LENGTH)) {
    fail(
      `The note on ${place()} must have 1 to ${MAX_NOTE_LENGTH} characters; it has ${note.length}`,
    );
  }
  if (formula === undefined) {
    if (spill) fail(`${place()} fills several cells but has no formula`);
    return;
  }
  if (value !== undefined) fail(`${place()} has a value and a formula`);
  if (formula === '' || formula.startsWith('=')) fail(`${place()}: a formula begins after the "="`);
  if (formula.length > MAX_FORMULA_LENGTH) {
    fail(
      `The formula in ${place()} has ${formula.length} characters; at most ${MAX_FORMULA_LENGTH}`,
    );
  }
  const calls = storedCalls(formula);
  if (formulas === 'plain' && calls.length > 0) {
    fail(`${place()} calls a GILL function in a plain workbook: ${formula}`);
  }
  if (spill && calls.length === 0) fail(`${place()} spills but calls no GILL function`);
}

function checkTables(sheet: SheetModel, spills: readonly Area[]): void {
  for (const { name, area, heads } of sheet.tables) {
    const where = `Table ${name} on ${sheet.name}`;
    if (area.rows < 2) fail(`${where} has no row below its heads`);
    if (heads.length !== area.columns) {
      fail(`${where} has ${heads.length} heads for ${area.columns} columns`);
    }
    if (new Set(heads.map((head) => head.toLowerCase())).size !== heads.length) {
      fail(`${where} has two columns of one name`);
    }
    heads.forEach((head, i) => {
      const cell = sheet.rows[area.row]?.[area.column + i]?.value;
      if (head === '' || cell !== head) {
        fail(`${where}: the cell above column "${head}" holds "${String(cell)}"`);
      }
    });
    if (spills.some((spill) => overlap(spill, area))) fail(`A formula spills into ${where}`);
    if (sheet.merges.some((merge) => overlap(merge, area))) fail(`${where} has merged cells`);
  }
}

function checkBlocks(sheet: SheetModel, spills: readonly Area[]): void {
  const blocks = [...spills, ...sheet.merges];
  blocks.forEach((area, i) => {
    if (blocks.slice(i + 1).some((other) => overlap(area, other))) {
      fail(`${sheet.name}!${areaAddress(area)} overlaps another merge or spill`);
    }
    for (let row = area.row; row < area.row + area.rows; row++) {
      for (let column = area.column; column < area.column + area.columns; column++) {
        const cell = sheet.rows[row]?.[column];
        const isFirst = row === area.row && column === area.column;
        if (!isFirst && (cell?.value !== undefined || cell?.formula !== undefined)) {
          fail(
            `${sheet.name}!${cellAddress(row, column)} lies under ${areaAddress(area)} but is filled`,
          );
        }
      }
    }
  });
}

function checkRules(sheet: SheetModel, names: ReadonlySet<string>): void {
  for (const { area, rule, message } of sheet.validations) {
    const where = `The rule on ${sheet.name}!${areaAddress(area)}`;
    if (message.length > MAX_MESSAGE_LENGTH) {
      fail(`${where} says ${message.length} characters; at most ${MAX_MESSAGE_LENGTH}`);
    }
    if (rule.kind === 'list' && !names.has(rule.name))
      fail(`${where}: there is no name ${rule.name}`);
    if (rule.kind === 'words') {
      if (rule.words.join(',').length > MAX_LIST_LENGTH || rule.words.length === 0) {
        fail(`${where} lists too many words or none; list them in cells and give these a name`);
      }
      const odd = rule.words.find((word) => /[,"]|^\s|\s$|^$/.test(word));
      if (odd !== undefined) fail(`${where}: "${odd}" cannot stand in a list of words`);
    }
  }
  for (const { area, formula } of sheet.conditions) {
    if (storedCalls(formula).length > 0 || formula.startsWith('=')) {
      fail(`The mark on ${sheet.name}!${areaAddress(area)} must be a plain formula without "="`);
    }
  }
}

/** So many rows are looked at in one step. */
const ROWS = 500;

/** Throws where a workbook holds what a file or a spreadsheet cannot; in steps. */
export function* checkingModel(model: WorkbookModel): Steps<void> {
  if (!DAY.test(model.made)) fail(`"${model.made}" is no day such as 2026-03-01`);
  if (model.sheets.length === 0) fail('A workbook has at least one sheet');
  const sheetNames = new Set<string>();
  for (const { name } of model.sheets) {
    if (!SHEET_NAME.test(name) || name.length > MAX_SHEET_NAME_LENGTH)
      fail(`"${name}" cannot name a sheet`);
    if (sheetNames.has(name.toLowerCase())) fail(`Two sheets are called "${name}"`);
    sheetNames.add(name.toLowerCase());
  }
  const taken = new Set<string>();
  const tables = model.sheets.flatMap((sheet) => sheet.tables);
  for (const { name } of [...model.names, ...tables]) {
    if (!isExcelName(name)) fail(`"${name}" cannot name cells or a table`);
    if (taken.has(name.toLowerCase())) fail(`Two things are called ${name}`);
    taken.add(name.toLowerCase());
  }
  for (const { name, sheet } of model.names) {
    if (!model.sheets.some((model) => model.name === sheet)) {
      fail(`The name ${name} points at "${sheet}", which is no sheet`);
    }
  }
  const names = new Set(model.names.map(({ name }) => name));
  for (const sheet of model.sheets) {
    for (const [r, row] of sheet.rows.entries()) {
      if (r % ROWS === 0) yield 0;
      row.forEach((cell, c) => {
        if (cell) checkCell(cell, () => `${sheet.name}!${cellAddress(r, c)}`, model.formulas);
      });
    }
    const spills = spillsOf(sheet);
    checkTables(sheet, spills);
    checkBlocks(sheet, spills);
    checkRules(sheet, names);
  }
  for (const sheet of model.sheets) {
    for (const { title, categories, series } of sheet.charts) {
      for (const { sheet: source } of [categories, ...series]) {
        if (!model.sheets.some(({ name }) => name === source)) {
          fail(`The chart "${title}" draws from "${source}", which is no sheet`);
        }
      }
    }
  }
}
