import { helpers, type Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { GillError } from '../../core/errors';
import { valueOf } from '../../engine/evaluate-formula';
import { exportedData, exportedFrame } from '../../engine/patches/exported-data';
import { OUT_OF_DATE, type KeptFormulas } from '../../engine/patches/kept-formulas';
import type { StoredResult } from '../../engine/patches/open-with-stored-values';
import {
  type CellChange,
  type FileValue,
  type NewCell,
  RefusedChange,
} from '../../ooxml/cell-changes';
import { addModelSheets } from '../../ooxml/add-model-sheets';
import { changingWorkbook } from '../../ooxml/change-workbook';
import { isExcelName } from '../../ooxml/excel-name';
import { orderSheets, showSheets } from '../../ooxml/follow/sheet-entries';
import { atOnce, partly, type Steps } from '../../plan/in-steps';
import type { Package } from '../../ooxml/package';
import { eachRow } from '../../ooxml/sheet-cells';
import { StyleAdditions, type StyleChange } from '../../ooxml/style-additions';
import { readWorkbookParts, type SheetPart, type WorkbookParts } from '../../ooxml/workbook-parts';
import {
  cellAddress,
  covers,
  fullAddress,
  placeAddress,
  readArea,
  sheetInFormula,
} from '../../plan/addresses';
import type { Area, ChartModel, NameModel } from '../../plan/workbook-model';
import {
  type CellsOfSheet,
  contentOnGrid,
  eachCell,
  eachEntry,
  entryAt,
  gridAfter,
  type GridThen,
} from './cells-then';
import { changedBorders, changedLook } from './changed-looks';
import { areaOf } from './grid-cells';
import { cutOnGrid, stepsOnGrid } from './file-guard';
import { FollowedFile } from './followed-file';
import { DAYS_TO_1904, resultsOfFile, SPARE_SHEET } from './grid-from-file';
import { type GridStep, movedEntries } from './grid-steps';
import { writeLayout } from './layout-changes';
import { hangingOn, isLeftBehind } from './left-behind';
import { Losses } from './losses';
import { sheetArea } from './read-rules';
import { type Plans, sheetsFrom, shownValues } from './workbook-from';

type SheetData = WorkbookData['sheets'][number];

/** A workbook of any writer that was opened, and what saving it has to know. */
export interface OpenedWorkbook {
  readonly bytes: Uint8Array;
  /** The grid right after opening: what differs from it was changed. */
  readonly before: GridThen;
  /** Formulas whose values come from the file because the grid cannot compute them. */
  readonly kept: KeptFormulas;
  /** What formulas gave right after opening, where that is not what the file says. */
  readonly atOpening: Readonly<Record<string, Readonly<Record<string, StoredResult>>>>;
}

/** Whether two values of a file are the same; numbers as far as both print the same fifteen figures. */
export function sameValue(a: FileValue, b: FileValue): boolean {
  if (a instanceof GillError || b instanceof GillError) {
    return a instanceof GillError && b instanceof GillError && a.code === b.code;
  }
  if (typeof a === 'number' && typeof b === 'number') {
    return a === b || Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));
  }
  return (a ?? '') === (b ?? '') && (typeof a === typeof b || a === undefined || b === undefined);
}

/** A stored result as a value of a file. */
export const fileValue = (result: StoredResult): FileValue =>
  valueOf({ value: result.value, message: result.message });

interface Saving {
  readonly model: Model;
  readonly book: WorkbookParts;
  readonly opened: OpenedWorkbook;
  /** Names of the file's sheets by their ids on the grid. */
  readonly names: ReadonlyMap<string, string>;
  /** What was done to the frame of the file. */
  readonly steps: readonly GridStep[];
  /** Names of the file's sheets by what the grid calls them. */
  readonly fileNames: ReadonlyMap<string, string>;
  readonly losses: Losses;
  readonly hasChanges: () => boolean;
  /** What a cell of the file, as it is after the steps, gave when it was saved. */
  readonly results: () => ReturnType<typeof resultsOfFile>;
}

/** A formula of the grid as the file is to hold it. */
function fileFormula(formula: string, { fileNames }: Saving): string {
  let text = formula.replace(/^=/, '');
  for (const [onGrid, inFile] of fileNames) {
    if (onGrid === inFile) continue;
    text = text.replaceAll(`${sheetInFormula(onGrid)}!`, `${sheetInFormula(inFile)}!`);
    if (/^[\p{L}\p{N}_.]+$/u.test(onGrid)) {
      text = text.replace(
        new RegExp(`(?<![\\p{L}\\p{N}_.'])${onGrid.replaceAll('.', '\\.')}!`, 'gu'),
        () => `${sheetInFormula(inFile)}!`,
      );
    }
  }
  return text;
}

const isDate = (format: string | undefined): boolean =>
  format !== undefined && helpers.isDateTimeFormat(format);

interface Shown {
  /** As the grid counts it. */
  readonly onGrid: FileValue;
  /** As the file counts it. */
  readonly value: FileValue;
  readonly outdated: boolean;
}

/** What a cell shows. */
function shown(saving: Saving, position: { sheetId: string; row: number; col: number }): Shown {
  const cell = saving.model.getters.getEvaluatedCell(position) as {
    value: number | string | boolean | null;
    message?: unknown;
    format?: string;
  };
  const message = cell.message === undefined ? undefined : String(cell.message);
  const onGrid = cell.value === null ? undefined : valueOf({ value: cell.value, message });
  const isOldDay = typeof onGrid === 'number' && saving.book.date1904 && isDate(cell.format);
  return {
    onGrid,
    value: isOldDay ? onGrid - DAYS_TO_1904 : onGrid,
    outdated: message === OUT_OF_DATE,
  };
}

/** What a cell of the grid is to be in the file. */
function newCell(saving: Saving, position: { sheetId: string; row: number; col: number }): NewCell {
  const { getters } = saving.model;
  const cell = getters.getCell(position);
  const { value } = shown(saving, position);
  if (!cell?.isFormula) return { kind: 'value', value: value === '' ? undefined : value };
  const text = cell.compiledFormula.toFormulaString(getters);
  if (cell.compiledFormula.isBadExpression) {
    const where = `${getters.getSheetName(position.sheetId)}!${cellAddress(position.row, position.col)}`;
    saving.losses.add('A formula that cannot be read is saved as text', where);
    return { kind: 'value', value: text };
  }
  const zone = getters.getSpreadZone(position);
  const block = zone && areaOf(zone);
  return {
    kind: 'formula',
    formula: fileFormula(text, saving),
    value,
    ...(block &&
      block.rows * block.columns > 1 && { fills: { rows: block.rows, columns: block.columns } }),
  };
}

/** What somebody changed on a sheet: contents by address, looks by address. */
interface ChangedCells {
  readonly contents: Map<string, CellChange>;
  readonly looks: Map<string, StyleChange>;
}

function* changedCells(saving: Saving, before: CellsOfSheet, id: string): Steps<ChangedCells> {
  const { model } = saving;
  const { getters } = model;
  const contents = new Map<string, CellChange>();
  const looks = new Map<string, StyleChange>();
  const compare = (cell: Parameters<typeof contentOnGrid>[0], row: number, col: number): void => {
    const is = contentOnGrid(cell, getters);
    if (entryAt(before.contents, row, col) !== is) {
      const change = { row, column: col, cell: newCell(saving, { sheetId: id, row, col }) };
      contents.set(cellAddress(row, col), change);
    }
    const was = {
      style: entryAt(before.styles, row, col),
      format: entryAt(before.formats, row, col),
    };
    const look = changedLook(was, { style: cell?.style, format: cell?.format }, is);
    if (look) looks.set(cellAddress(row, col), look);
  };
  const gone = (_: unknown, row: number, col: number): void => {
    if (!getters.getCell({ sheetId: id, row, col })) compare(undefined, row, col);
  };
  yield* partly(
    eachCell(model, id, (cell, { row, col }) => compare(cell, row, col)),
    0,
    0.4,
  );
  yield* partly(eachEntry(before.contents, gone), 0.4, 0.8);
  yield* partly(eachEntry(before.styles, gone), 0.8, 0.9);
  yield* partly(eachEntry(before.formats, gone), 0.9, 1);
  return { contents, looks };
}

/** Formulas of the file that give something else than when it was opened. */
function* changedResults(
  saving: Saving,
  file: Package,
  { sheet, inFile, before }: { sheet: SheetData; inFile: SheetPart; before: CellsOfSheet },
  taken: (address: string) => boolean,
): Steps<CellChange[]> {
  const changes: CellChange[] = [];
  if (!before.hasFormulas) return changes;
  const { opened, steps } = saving;
  const atOpening = movedEntries(opened.atOpening[sheet.id] ?? {}, sheet.id, steps);
  const compare = (row: number, column: number, result: StoredResult | undefined): void => {
    const address = cellAddress(row, column);
    if (taken(address)) return;
    const { onGrid, value, outdated } = shown(saving, { sheetId: sheet.id, row, col: column });
    const given = atOpening[address] ?? result;
    if (outdated) {
      if (saving.hasChanges()) {
        changes.push({ row, column, cell: { kind: 'result', value: undefined } });
        saving.losses.add(
          'Formulas that only the program of the file computes are saved without a value; it computes them when it opens the file',
          `${sheet.name}!${address}`,
        );
      }
      return;
    }
    if (!sameValue(onGrid, given && fileValue(given)))
      changes.push({ row, column, cell: { kind: 'result', value } });
  };
  const isOnGrid = (row: number, column: number): boolean =>
    entryAt(before.contents, row, column)?.startsWith('=') === true;
  const resultOf = saving.results();
  const blocks: { readonly area: Area; readonly results: Map<string, StoredResult> }[] = [];
  yield* eachRow(file, inFile.part, ({ cells }) => {
    for (const cell of cells) {
      const { row, column, formula, area } = cell;
      if (formula !== undefined && area && area.rows * area.columns > 1) {
        if (isOnGrid(row, column)) blocks.push({ area, results: new Map() });
      } else if (formula !== undefined && isOnGrid(row, column)) {
        compare(row, column, resultOf(cell));
      }
      const result = blocks.length > 0 ? resultOf(cell) : undefined;
      if (!result) continue;
      for (const block of blocks) {
        if (covers(block.area, row, column)) block.results.set(placeAddress(cell), result);
      }
    }
  });
  for (const { area, results } of blocks) {
    const isKnown = results.has(cellAddress(area.row, area.column));
    const [rows, columns] = isKnown ? [area.rows, area.columns] : [1, 1];
    for (let row = area.row; row < area.row + rows; row++) {
      for (let column = area.column; column < area.column + columns; column++) {
        const result = results.get(cellAddress(row, column));
        compare(row, column, result ?? (isKnown ? { value: '' } : undefined));
      }
    }
  }
  return changes;
}

/** Names for the whole workbook that came, moved or went. */
function changedNames(saving: Saving, before: Record<string, string>, now: Record<string, string>) {
  const names: NameModel[] = [];
  const namesGone = Object.keys(before).filter((name) => !(name in now));
  const model = (range: string): Omit<NameModel, 'name'> | undefined => sheetArea(range, '');
  for (const [name, range] of Object.entries(now)) {
    const old = before[name];
    const [is, was] = [model(range), old === undefined ? undefined : model(old)];
    const isTaken =
      old === undefined &&
      saving.book.names.some(
        (defined) =>
          defined.sheet === undefined && defined.name.toLowerCase() === name.toLowerCase(),
      );
    if (old === undefined && !isExcelName(name)) {
      throw new RefusedChange(
        `"${name}" cannot name cells in a file: a name begins with a letter, holds letters, figures, "_" and ".", and looks like no cell.`,
      );
    }
    if (isTaken) {
      throw new RefusedChange(
        `The file has a name "${name}" already, which the grid does not show because it stands for more than cells; give your cells another name.`,
      );
    }
    if (!is) {
      saving.losses.add(`The name ${name} points at nothing that can be saved`);
      continue;
    }
    if (was && fullAddress(was.sheet, was.area) === fullAddress(is.sheet, is.area)) continue;
    names.push({ name, area: is.area, sheet: saving.fileNames.get(is.sheet) ?? is.sheet });
  }
  return { names, namesGone };
}

/** Sheets that were added on the grid, a plan's among them. */
function addSheets(
  file: Package,
  { model, losses }: Saving,
  now: WorkbookData,
  { added, isAdded }: { added: AddedToFile; isAdded: (id: string) => boolean },
): NameModel[] {
  if (!now.sheets.some(({ id }) => isAdded(id))) return [];
  const read = sheetsFrom(model, now, added.plans, isAdded);
  losses.addAll(read.losses);
  addModelSheets(file, {
    sheets: read.sheets,
    values: shownValues(model, now.sheets),
    title: Object.values(added.plans)[0]?.title ?? 'Gillbed workbook',
    ...(added.farm !== undefined && Object.keys(added.plans).length > 0 && { farm: added.farm }),
  });
  return read.names;
}

/** A chart with its sheets as the file calls them. */
function withFileNames(chart: ChartModel, { fileNames }: Saving): ChartModel {
  const named = <T extends { readonly sheet: string }>(ofSheet: T): T => ({
    ...ofSheet,
    sheet: fileNames.get(ofSheet.sheet) ?? ofSheet.sheet,
  });
  return { ...chart, categories: named(chart.categories), series: chart.series.map(named) };
}

/** What may come into a file beside what was changed in it. */
export interface AddedToFile {
  /** The plans whose sheets are on the grid. */
  readonly plans: Plans;
  readonly farm?: string | undefined;
}

export interface SavedIntoFile {
  readonly bytes: Uint8Array;
  readonly losses: Losses;
}

/** The numbers of the styles of some cells in the file. */
function* stylesOf(
  file: Package,
  part: string,
  wanted: ReadonlyMap<string, unknown>,
): Steps<Map<string, number>> {
  const known = new Map<string, number>();
  yield* eachRow(file, part, ({ cells }) => {
    for (const cell of cells) {
      const address = placeAddress(cell);
      if (wanted.has(address)) known.set(address, Number(cell.element.attributes['s'] ?? 0));
    }
  });
  return known;
}

/** Whether a sheet is the one that the grid has only because the file has none, and nothing stands in it. */
const isSpare = ({ getters }: Model, id: string): boolean =>
  id === SPARE_SHEET && getters.getCells(id).length === 0 && getters.getFigures(id).length === 0;

/** The data of the grid with the cells of sheets that came in: those of the file are looked at one by one. */
const framed = (model: Model, isAdded: (id: string) => boolean): WorkbookData =>
  model.getters.getSheetIds().some(isAdded) ? exportedData(model) : exportedFrame(model);

/**
 * What is on the grid, written into the file that was opened, in steps: only what was changed changes there.
 * Throws RefusedChange with a sentence where the file cannot take a change.
 */
export function* savingIntoFile(
  opened: OpenedWorkbook,
  model: Model,
  added: AddedToFile = { plans: {} },
): Steps<SavedIntoFile> {
  const steps = stepsOnGrid(model);
  const followed = new FollowedFile(opened.bytes).following(steps);
  const { file, names } = yield* partly(followed, 0, 0.05);
  const book = readWorkbookParts(file);
  const isAdded = (id: string): boolean => !names.has(id) && !isSpare(model, id);
  const now = framed(model, isAdded);
  const { frame: atFirst, cells: cellsAtFirst } = yield* partly(
    gridAfter(opened.before, steps),
    0.05,
    0.1,
  );
  const losses = new Losses();
  let changed = steps.length > 0;
  const onGrid = new Map(now.sheets.map(({ id, name }) => [id, name]));
  let results: ReturnType<typeof resultsOfFile> | undefined;
  const saving: Saving = {
    model,
    book,
    opened,
    losses,
    names,
    steps,
    fileNames: new Map([...names].map(([id, inFile]) => [onGrid.get(id) ?? '', inFile])),
    hasChanges: () => changed,
    results: () => (results ??= resultsOfFile(file, book)),
  };
  const work: {
    readonly before: SheetData;
    readonly sheet: SheetData;
    readonly inFile: SheetPart;
    readonly then: CellsOfSheet;
    readonly contents: Map<string, CellChange>;
    readonly looks: Map<string, StyleChange>;
  }[] = [];
  for (const [n, [id, name]] of [...names].entries()) {
    const inFile = book.sheets.find((part) => part.name === name);
    const before = atFirst.sheets.find((sheetData) => sheetData.id === id);
    const sheet = now.sheets.find((sheetData) => sheetData.id === id);
    const then = cellsAtFirst[id];
    if (!before || !sheet || !inFile || !then) continue;
    const share = (of: number): number => 0.1 + (0.3 * of) / names.size;
    const { contents, looks } = yield* partly(
      changedCells(saving, then, id),
      share(n),
      share(n + 1),
    );
    for (const [address, edges] of changedBorders(
      { data: atFirst, sheet: before },
      { data: now, sheet },
    )) {
      looks.set(address, { ...looks.get(address), ...edges });
    }
    if (contents.size > 0 || looks.size > 0) changed = true;
    work.push({ before, sheet, inFile, then, contents, looks });
  }
  const additions = work.some(({ looks }) => looks.size > 0)
    ? new StyleAdditions(file, book.part)
    : undefined;
  const cells = new Map<string, readonly CellChange[]>();
  for (const [n, { then, sheet, inFile, contents, looks }] of work.entries()) {
    const share = (of: number): number => 0.4 + (0.2 * of) / work.length;
    if (additions && looks.size > 0) {
      const known = yield* partly(stylesOf(file, inFile.part, looks), share(n), share(n + 0.5));
      for (const [address, look] of looks) {
        const { row, column } = readArea(address) as { row: number; column: number };
        const style = additions.changed(known.get(address) ?? 0, look);
        contents.set(address, { row, column, ...contents.get(address), style });
      }
    }
    const isTaken = (address: string): boolean => contents.get(address)?.cell !== undefined;
    const found = yield* partly(
      changedResults(saving, file, { sheet, inFile, before: then }, isTaken),
      share(n + 0.5),
      share(n + 1),
    );
    for (const result of found) {
      const address = placeAddress(result);
      contents.set(address, { ...contents.get(address), ...result });
    }
    if (contents.size > 0) cells.set(inFile.name, [...contents.values()]);
  }
  additions?.write();
  const namesOfRules = addSheets(file, saving, now, { added, isAdded });
  const { names: changedOnes, namesGone } = changedNames(
    saving,
    atFirst.namedRanges,
    now.namedRanges,
  );
  yield* partly(
    changingWorkbook(file, { cells, names: [...changedOnes, ...namesOfRules], namesGone }),
    0.6,
    0.8,
  );
  let marks: StyleAdditions | undefined;
  const shownOnGrid = shownValues(model, now.sheets);
  const gridNames = new Map([...saving.fileNames].map(([grid, inFile]) => [inFile, grid]));
  const allCut = cutOnGrid(model);
  for (const { before, sheet, inFile } of work) {
    const cut = allCut.filter(({ sheetId }) => sheetId === sheet.id);
    if (cut.length > 0 && isLeftBehind(hangingOn(file, inFile), cut)) {
      losses.add('Notes, links and small charts stay where cells were cut', sheet.name);
    }
    const lines = steps.filter(({ sheetId }) => sheetId === sheet.id);
    writeLayout({
      file,
      part: inFile.part,
      before,
      now: sheet,
      losses,
      styles: () => (marks ??= new StyleAdditions(file, book.part)),
      formula: (text) => fileFormula(text, saving),
      chart: (chart) => withFileNames(chart, saving),
      contents: (name, row, column) => shownOnGrid(gridNames.get(name) ?? name, row, column),
      isInPlace: lines.every(({ type }) => type !== 'REMOVE_COLUMNS_ROWS'),
    });
  }
  marks?.write();
  const shown = work.flatMap(({ before, sheet, inFile }) =>
    before.isVisible === sheet.isVisible ? [] : [[inFile.name, sheet.isVisible] as const],
  );
  showSheets(file, readWorkbookParts(file), new Map(shown));
  const order = now.sheets
    .filter(({ id }) => names.has(id) || isAdded(id))
    .map(({ id, name }) => names.get(id) ?? name);
  orderSheets(file, readWorkbookParts(file), order);
  if (file.isSigned && file.isChanged) {
    losses.add('The file was signed as it was; the signature does not hold for what was changed');
  }
  return { bytes: yield* partly(file.packing(), 0.8, 1), losses };
}

/** As `savingIntoFile`, at once. */
export const saveIntoFile = (
  opened: OpenedWorkbook,
  model: Model,
  added?: AddedToFile,
): SavedIntoFile => atOnce(savingIntoFile(opened, model, added));
