import {
  helpers,
  registries,
  type Cell,
  type CellPosition,
  type Model,
  type WorkbookData,
} from '@odoo/o-spreadsheet';
import { addressesOf } from '../listed-cells';
import { graphInSteps } from './dependencies';
import { HARMLESS } from './formulas-on-demand';
import { AT_A_TIME, Opening, putInPlace } from './opening';
import { cellAddress } from '../../plan/addresses';
import type { SheetContents } from '../sheet-contents';
import { needParts, replacePlugin, type Patch } from './patch';
import { noteTyped } from './values-on-demand';

type Getters = Model['getters'];
type SheetData = WorkbookData['sheets'][number];

interface Command {
  readonly type: string;
}

interface Config {
  readonly custom: { readonly opening?: Opening };
  readonly stateObserver: { changes: unknown };
}

type PluginOf<Parts> = new (config: Config) => { readonly getters: Getters } & Parts;

/** What comes in by turns; the library makes a second workbook with the same parts to see whether it can be read. */
const openingOf = ({ custom: { opening }, stateObserver }: Config): Opening | undefined =>
  opening?.isOf(stateObserver) ? opening : undefined;

const NAME = 'sheets-in-turn';

interface Position {
  readonly row: number;
  readonly col: number;
  readonly sheetId: string;
}

interface SheetPlugin {
  readonly cellPosition: Record<number, Position>;
  getImportedSheetSize(data: SheetData): SheetSize;
}

interface SheetSize {
  readonly rowNumber: number;
  readonly colNumber: number;
}

interface CellPlugin {
  readonly cells: Record<string, Record<number, Cell>>;
  import(data: WorkbookData): void;
  beforeHandle(command: Command): void;
  getNextCellId(): number;
  importCell(
    sheetId: string,
    content: string | undefined,
    style: object | undefined,
    format: string | undefined,
  ): Cell;
  readOnDemand<T>(work: () => T): T;
}

/** Where the sheet plugin of a workbook keeps the places of cells, by the getters that both share. */
const placesOf = new WeakMap<object, SheetPlugin>();

/** Columns with rows, where there are any. */
type Columns = ((Said | undefined)[] | undefined)[];

/** What a file's data says of a cell. */
interface Said {
  content?: string;
  style?: number;
  format?: number;
}

/** So many cells of a file's data are looked at in one step. */
const SAID_AT_A_TIME = 512;

const isCell = (said: Said | undefined): said is Said =>
  Boolean(said?.content) || Boolean(said?.style) || Boolean(said?.format);

/** The cells of a merge hold nothing, and look like its first one. */
function lookLikeTheFirst(columns: Columns, merge: string): void {
  const { top, left, bottom, right } = helpers.toZone(merge);
  const first = columns[left]?.[top];
  for (let col = left; col <= right; col++) {
    const column = (columns[col] ??= []);
    for (let row = top; row <= bottom; row++) {
      if (row === top && col === left) continue;
      const said = (column[row] ??= {});
      delete said.content;
      if (!isCell(first)) delete said.style;
      else if (first.style) said.style = first.style;
    }
  }
}

function* cellsSaid(
  { merges }: SheetData,
  { cells, styles, formats }: SheetContents,
): Generator<void, Columns> {
  const columns: Columns = [];
  let looked = 0;
  const each = function* (zone: string, say: (said: Said) => void): Generator<void> {
    const { top, left, bottom, right } = helpers.toZone(zone);
    for (let col = left; col <= right; col++) {
      const column = (columns[col] ??= []);
      for (let row = top; row <= bottom; row++) {
        say((column[row] ??= {}));
        if (++looked % SAID_AT_A_TIME === 0) yield;
      }
    }
  };
  const texts = cells as Record<string, string>;
  for (const address of addressesOf(texts)) {
    const content = texts[address];
    if (content !== undefined && content !== '')
      yield* each(address, (said) => (said.content = content));
  }
  for (const [zone, style] of Object.entries(styles)) {
    yield* each(zone, (said) => (said.style = style));
  }
  for (const [zone, format] of Object.entries(formats)) {
    yield* each(zone, (said) => (said.format = format));
  }
  for (const merge of merges) lookLikeTheFirst(columns, merge);
  return columns;
}

/** Rows whose cells are taken in at the first look at one of them. */
function waitingRows(opening: Opening, sheetId: string, rows: object[]): void {
  const waiting = Object.create(null, {
    cells: {
      get(this: { cells: object }): object {
        opening.finishPart(sheetId, 'cells');
        return this.cells;
      },
      set(this: object, cells: object) {
        putInPlace(this, 'cells', cells);
      },
    },
  }) as object;
  rows.forEach((_, i) => (rows[i] = Object.create(waiting) as object));
}

function cellsInTurn(): void {
  replacePlugin(
    NAME,
    registries.corePluginRegistry,
    'sheet',
    ['getImportedSheetSize'],
    (Original: PluginOf<SheetPlugin>) =>
      class extends Original {
        private readonly opening: Opening | undefined;

        constructor(config: Config) {
          super(config);
          needParts(NAME, this, ['cellPosition']);
          placesOf.set(this.getters, this);
          this.opening = openingOf(config);
        }

        /** The library reads the address of every cell, to see whether the sheet is as large as it says. */
        override getImportedSheetSize(data: SheetData): SheetSize {
          const { rowNumber, colNumber } = data;
          return this.opening ? { rowNumber, colNumber } : super.getImportedSheetSize(data);
        }
      },
  );
  replacePlugin(
    NAME,
    registries.corePluginRegistry,
    'cell',
    ['import', 'importCell', 'getNextCellId', 'beforeHandle', 'readOnDemand'],
    (Original: PluginOf<CellPlugin>) =>
      class extends Original {
        private readonly opening: Opening | undefined;
        private lastId = 0;

        constructor(config: Config) {
          super(config);
          needParts(NAME, this, ['cells', 'getters']);
          this.opening = openingOf(config);
        }

        /** Sheets may come in between a step and its undo, which must not give their numbers away again. */
        override getNextCellId(): number {
          return ++this.lastId;
        }

        override import(data: WorkbookData): void {
          const { opening } = this;
          if (!opening) {
            super.import(data);
            return;
          }
          super.import({ ...data, sheets: [] });
          for (const sheet of data.sheets) {
            const { id } = sheet;
            opening.expect(id, 'cells', () => this.take(data, sheet, opening), this.cells);
            waitingRows(opening, id, this.getters.getSheet(id).rows as unknown as object[]);
          }
        }

        private *take(data: WorkbookData, sheet: SheetData, opening: Opening): Generator<void> {
          const { id } = sheet;
          const contents = opening.contents(id);
          yield;
          const places = placesOf.get(this.getters)?.cellPosition ?? {};
          const rows = this.getters.getSheet(id).rows as unknown as object[];
          const said = yield* cellsSaid(sheet, contents);
          const cells: Record<number, Cell> = {};
          const cellsOfRow: Record<number, number>[] = rows.map(() => ({}));
          yield;
          const waiting: (Position & Said)[] = [];
          const takeThem = (): void =>
            this.readOnDemand(() => {
              for (const { row, col, content, style, format } of waiting) {
                const cell = this.importCell(
                  id,
                  content,
                  style ? data.styles[style] : undefined,
                  format ? data.formats[format] : undefined,
                );
                const ids = cellsOfRow[row];
                if (!ids) throw new Error(`The sheet ${sheet.name} has no row ${row + 1}`);
                cells[cell.id] = cell;
                ids[col] = cell.id;
                places[cell.id] = { row, col, sheetId: id };
              }
              waiting.length = 0;
            });
          for (const [col, column] of said.entries()) {
            if (column === undefined) continue;
            for (const [row, one] of column.entries()) {
              if (!isCell(one)) continue;
              waiting.push({ ...one, row, col, sheetId: id });
              if (waiting.length < AT_A_TIME) continue;
              takeThem();
              yield;
            }
          }
          takeThem();
          putInPlace(this.cells, id, cells);
          rows.forEach((row, i) => putInPlace(row, 'cells', cellsOfRow[i]));
        }

        override beforeHandle(command: Command): void {
          // What moves references or sheets moves those of every sheet.
          if (this.opening && !HARMLESS.has(command.type)) this.opening.finish();
          super.beforeHandle(command);
        }
      },
  );
}

interface MergePlugin {
  importMerges(sheetId: string, merges: readonly string[]): void;
}

/** Merges of which the cells are not in yet: these are given their looks when they come in. */
function mergesInTurn(): void {
  replacePlugin(
    NAME,
    registries.corePluginRegistry,
    'merge',
    ['importMerges'],
    (Original: PluginOf<MergePlugin & { readonly dispatch: unknown }>) =>
      class extends Original {
        private readonly opening: Opening | undefined;

        constructor(config: Config) {
          super(config);
          needParts(NAME, this, ['dispatch', 'getters']);
          this.opening = openingOf(config);
        }

        override importMerges(sheetId: string, merges: readonly string[]): void {
          const { dispatch, getters } = this;
          if (this.opening?.isOpened(sheetId)) {
            Object.assign(this, {
              dispatch: () => undefined,
              getters: Object.create(getters, { getCell: { value: () => undefined } }) as Getters,
            });
          }
          try {
            super.importMerges(sheetId, merges);
          } finally {
            Object.assign(this, { dispatch, getters });
          }
        }
      },
  );
}

interface BordersPlugin {
  readonly borders: Record<string, object>;
  import(data: WorkbookData): void;
}

function bordersInTurn(): void {
  replacePlugin(
    NAME,
    registries.corePluginRegistry,
    'borders',
    ['import'],
    (Original: PluginOf<BordersPlugin>) =>
      class extends Original {
        private readonly config: Config;

        constructor(config: Config) {
          super(config);
          needParts(NAME, this, ['borders']);
          needParts(NAME, config.stateObserver, ['changes']);
          this.config = config;
        }

        override import(data: WorkbookData): void {
          const opening = openingOf(this.config);
          if (!opening) {
            super.import(data);
            return;
          }
          for (const sheet of data.sheets) {
            const take = () => this.take(data, sheet, opening);
            opening.expect(sheet.id, 'borders', take, this.borders);
          }
        }

        // eslint-disable-next-line require-yield -- it is done at once
        private *take(data: WorkbookData, sheet: SheetData, opening: Opening): Generator<void> {
          const { borders } = opening.contents(sheet.id);
          const { stateObserver } = this.config;
          const { changes } = stateObserver;
          putInPlace(this.borders, sheet.id, undefined);
          try {
            // A step that is being recorded has nothing to do with it.
            stateObserver.changes = undefined;
            super.import({ ...data, sheets: [{ ...sheet, borders }] });
          } finally {
            stateObserver.changes = changes;
          }
        }
      },
  );
}

interface Evaluated {
  readonly value: unknown;
  readonly format?: string;
}

interface PositionMap {
  readonly map: Record<string, unknown>;
  get(position: CellPosition): Evaluated | undefined;
  set(position: CellPosition, cell: Evaluated): void;
  delete(position: CellPosition): void;
}

interface Evaluator {
  evaluatedCells: PositionMap;
  readonly nextRangesToUpdate: Iterable<object> & { clear(): void };
  readonly spreadingRelations: {
    searchFormulaPositionsSpreadingOn(sheetId: string, zone: object): readonly CellPosition[];
  };
  evaluate(ranges: Iterable<object>): void;
  evaluateAllCells(): void;
  evaluateCells(positions: Iterable<CellPosition>): void;
  updateDependencies(position: CellPosition): void;
  updateCompilationParameters(): void;
  computeCell(position: CellPosition): Evaluated;
  computeFormulaCell(position: CellPosition, cell: object): Evaluated;
  invalidatePositionsDependingOnSpread(sheetId: string, zone: object): void;
}

interface EvaluationPlugin {
  readonly evaluator: Evaluator;
  readonly positionsToUpdate: CellPosition[];
  beforeHandle(command: Command): void;
}

/** Computes cells with what is stored in the place of formulas, and nothing else because of them. */
function withStored<T>(evaluator: Evaluator, stored: SheetContents['values'], work: () => T): T {
  const { computeFormulaCell, invalidatePositionsDependingOnSpread } = evaluator;
  const library = Object.getPrototypeOf(evaluator) as Evaluator;
  try {
    evaluator.invalidatePositionsDependingOnSpread = () => undefined;
    evaluator.computeFormulaCell = (position, cell) => {
      const result = stored[cellAddress(position.row, position.col)];
      const compiledFormula = { execute: () => result };
      return library.computeFormulaCell.call(evaluator, position, { ...cell, compiledFormula });
    };
    return work();
  } finally {
    Object.assign(evaluator, { computeFormulaCell, invalidatePositionsDependingOnSpread });
  }
}

function put(evaluator: Evaluator, position: CellPosition): void {
  if (noteTyped(evaluator.evaluatedCells, position)) return;
  const cell = evaluator.computeCell(position);
  if (cell.value !== null || cell.format !== undefined) {
    evaluator.evaluatedCells.set(position, cell);
  }
}

/** The values of a sheet from what is stored. */
function* takeValues(
  evaluator: Evaluator,
  getters: Getters,
  opening: Opening,
  sheetId: string,
): Generator<void> {
  const PositionMapOf = evaluator.evaluatedCells.constructor as new () => PositionMap;
  const staged = new PositionMapOf();
  const stored = opening.contents(sheetId).values;
  const cells = getters.getCells(sheetId);
  const without: CellPosition[] = [];
  yield;
  for (let first = 0; first < cells.length; first += AT_A_TIME) {
    const { evaluatedCells } = evaluator;
    evaluator.evaluatedCells = staged;
    try {
      withStored(evaluator, stored, () => {
        for (const { id } of cells.slice(first, first + AT_A_TIME)) {
          const position = getters.tryGetCellPosition(id);
          if (!position) continue;
          const { row, col } = position;
          const isFormula = getters.getCell(position)?.isFormula;
          if (isFormula && stored[cellAddress(row, col)] === undefined) {
            without.push(position);
          } else put(evaluator, position);
        }
      });
    } finally {
      evaluator.evaluatedCells = evaluatedCells;
    }
    yield;
  }
  putInPlace(evaluator.evaluatedCells.map, sheetId, staged.map[sheetId] ?? {});
  opening.computeLater(without);
}

/** Computes cells without a stored value, once the others have theirs; true when that is done. */
function computeLate(evaluator: Evaluator, opening: Opening, enough: () => boolean): boolean {
  if (!opening.hasLate()) return true;
  evaluator.updateCompilationParameters();
  while (opening.hasLate()) {
    if (enough()) return false;
    for (const position of opening.takeLate(AT_A_TIME)) put(evaluator, position);
  }
  // What was computed before a block was there that it reads.
  const again = [...evaluator.nextRangesToUpdate];
  evaluator.nextRangesToUpdate.clear();
  if (again.length > 0) evaluator.evaluate(again);
  return true;
}

/** Opens with stored values, and keeps edits for later until all is in. */
function openInTurn(plugin: EvaluationPlugin, getters: Getters, opening: Opening): void {
  const { evaluator } = plugin;
  const { evaluateAllCells, evaluateCells, updateDependencies } = evaluator;
  const evaluateAll = evaluateAllCells.bind(evaluator);
  let isBegun = false;
  evaluator.evaluateAllCells = () => {
    if (isBegun) {
      opening.finish();
      opening.dropValues();
      evaluateAll();
      return;
    }
    isBegun = true;
    const PositionMapOf = evaluator.evaluatedCells.constructor as new () => PositionMap;
    evaluator.evaluatedCells = new PositionMapOf();
    const { map } = evaluator.evaluatedCells;
    for (const sheetId of getters.getSheetIds()) {
      const take = () => takeValues(evaluator, getters, opening, sheetId);
      opening.expect(sheetId, 'values', take, map);
    }
  };
  /** Whether all that has to be computed at once is what the cell itself shows. */
  const isPlain = ({ sheetId, row, col }: CellPosition): boolean => {
    if (getters.getCell({ sheetId, row, col })?.isFormula) return false;
    opening.finishPart(sheetId, 'values');
    const zone = { top: row, bottom: row, left: col, right: col };
    const { spreadingRelations } = evaluator;
    return spreadingRelations.searchFormulaPositionsSpreadingOn(sheetId, zone).length === 0;
  };
  const keep = (position: CellPosition): void => {
    opening.keep(position, evaluator.evaluatedCells.get(position));
  };
  const writeDownEdits = (): void => {
    for (const { position } of opening.edits()) updateDependencies.call(evaluator, position);
  };
  evaluator.updateDependencies = (position) => {
    if (opening.isReady) updateDependencies.call(evaluator, position);
    else keep(position);
  };
  evaluator.evaluateCells = (changed) => {
    const positions = [...changed];
    if (!opening.isReady) {
      for (const position of positions) keep(position);
      if (positions.every(isPlain)) {
        for (const position of positions) {
          evaluator.evaluatedCells.delete(position);
          put(evaluator, position);
        }
        return;
      }
      opening.finish();
    }
    for (const { position, was } of opening.edits()) {
      // What hangs on a cell is computed where the cell is not as it was.
      if (was) evaluator.evaluatedCells.set(position, was as Evaluated);
      else evaluator.evaluatedCells.delete(position);
      positions.push(position);
    }
    opening.forgetEdits();
    evaluateCells.call(evaluator, positions);
  };
  opening.takeEditsWith({
    writeDown(enough) {
      const isDone = graphInSteps(evaluator)?.advance(enough) ?? true;
      if (!isDone || !computeLate(evaluator, opening, enough)) return false;
      writeDownEdits();
      return true;
    },
    compute: (positions) => plugin.positionsToUpdate.push(...positions),
  });
}

function valuesInTurn(): void {
  replacePlugin(
    NAME,
    registries.coreViewsPluginRegistry,
    'evaluation',
    ['beforeHandle'],
    (Original: PluginOf<EvaluationPlugin>) =>
      class extends Original {
        private readonly opening: Opening | undefined;

        constructor(config: Config) {
          super(config);
          needParts(NAME, this, ['evaluator', 'positionsToUpdate']);
          needParts(NAME, this.evaluator, [
            ...['evaluatedCells', 'spreadingRelations', 'nextRangesToUpdate'],
            ...['evaluate', 'evaluateAllCells', 'evaluateCells'],
            ...['updateDependencies', 'computeCell', 'computeFormulaCell'],
            ...['updateCompilationParameters', 'invalidatePositionsDependingOnSpread'],
          ]);
          needParts(NAME, this.evaluator.evaluatedCells, ['map', 'get', 'set', 'delete']);
          const opening = openingOf(config);
          this.opening = opening;
          if (opening) openInTurn(this, this.getters, opening);
        }

        override beforeHandle(command: Command & { readonly sheetId?: string }): void {
          // What a cell showed before is known only as long as it is in place.
          if (command.type === 'UPDATE_CELL' && command.sheetId !== undefined) {
            this.opening?.finishPart(command.sheetId, 'values');
          }
          super.beforeHandle(command);
        }
      },
  );
  replacePlugin(
    NAME,
    registries.coreViewsPluginRegistry,
    'evaluation_cf',
    ['handle'],
    (Original: PluginOf<{ isStale: boolean; handle(command: Command): void }>) =>
      class extends Original {
        override handle(command: Command): void {
          super.handle(command);
          if (command.type === 'EVALUATE_CELLS') this.isStale = true;
        }
      },
  );
}

interface RowSizePlugin {
  readonly tallestCellInRow: Record<string, unknown>;
  initializeSheet(sheetId: string): void;
  getRowTallestCell(sheetId: string, row: number): unknown;
}

interface TrackerPlugin {
  readonly trackedCells: Record<string, Record<number, number>>;
  handle(command: Command): void;
  getCellsWithTrackedFormula(formula: string): readonly number[];
}

/** Formulas that the library looks for as it opens a workbook. */
const TRACKED = ['SUBTOTAL', 'PIVOT'];

function viewsInTurn(): void {
  replacePlugin(
    NAME,
    registries.coreViewsPluginRegistry,
    'row_size',
    ['initializeSheet', 'getRowTallestCell'],
    (Original: PluginOf<RowSizePlugin>) =>
      class extends Original {
        private readonly opening: Opening | undefined;

        constructor(config: Config) {
          super(config);
          needParts(NAME, this, ['tallestCellInRow']);
          this.opening = openingOf(config);
        }

        override initializeSheet(sheetId: string): void {
          const { opening } = this;
          if (!opening?.isOpened(sheetId) || sheetId in this.tallestCellInRow) {
            super.initializeSheet(sheetId);
            return;
          }
          opening.expect(sheetId, 'heights', () => this.take(sheetId), this.tallestCellInRow);
        }

        private *take(sheetId: string): Generator<void> {
          const rows: unknown[] = [];
          while (rows.length < this.getters.getNumberRows(sheetId)) {
            rows.push(this.getRowTallestCell(sheetId, rows.length));
            yield;
          }
          putInPlace(this.tallestCellInRow, sheetId, rows);
        }
      },
  );
  replacePlugin(
    NAME,
    registries.coreViewsPluginRegistry,
    'formula_tracker',
    ['handle', 'getCellsWithTrackedFormula'],
    (Original: PluginOf<TrackerPlugin>) =>
      class extends Original {
        private readonly opening: Opening | undefined;

        constructor(config: Config) {
          super(config);
          needParts(NAME, this, ['trackedCells']);
          this.opening = openingOf(config);
        }

        override handle(command: Command): void {
          const { opening } = this;
          if (!opening || command.type !== 'START') {
            super.handle(command);
            return;
          }
          for (const formula of TRACKED) this.trackedCells[formula] = {};
          for (const sheetId of this.getters.getSheetIds()) {
            opening.expect(sheetId, 'tracked', () => this.take(sheetId));
          }
        }

        private *take(sheetId: string): Generator<void> {
          let looked = 0;
          for (const cell of this.getters.getCells(sheetId)) {
            if (!cell.isFormula) continue;
            for (const formula of TRACKED) {
              if (!cell.compiledFormula.usesSymbol(formula)) continue;
              (this.trackedCells[formula] ??= {})[cell.id] = cell.id;
            }
            if (++looked % AT_A_TIME === 0) yield;
          }
        }

        override getCellsWithTrackedFormula(formula: string): readonly number[] {
          // Where a formula asks for a pivot no values are stored.
          if (formula !== 'PIVOT') this.opening?.finishAll('tracked');
          return super.getCellsWithTrackedFormula(formula);
        }
      },
  );
}

interface Viewports {
  readonly viewports: Record<string, unknown>;
  recomputeViewports(): void;
  resetViewports(sheetId: string): void;
}

interface ViewportPlugin {
  readonly viewports: Viewports;
  sheetsWithDirtyViewports: Set<string>;
  finalize(): void;
  setViewports(): void;
}

function viewportsInTurn(): void {
  replacePlugin(
    NAME,
    registries.statefulUIPluginRegistry,
    'viewport',
    ['finalize', 'setViewports'],
    (Original: PluginOf<ViewportPlugin>) =>
      class extends Original {
        private readonly opening: Opening | undefined;

        constructor(config: Config) {
          super(config);
          needParts(NAME, this, ['viewports', 'sheetsWithDirtyViewports']);
          needParts(NAME, this.viewports, ['viewports', 'recomputeViewports', 'resetViewports']);
          const opening = openingOf(config);
          this.opening = opening;
          if (!opening) return;
          const { viewports } = this;
          const recompute = viewports.recomputeViewports.bind(viewports);
          const reset = viewports.resetViewports.bind(viewports);
          viewports.resetViewports = (sheetId) => {
            if (opening.isHidden) this.sheetsWithDirtyViewports.add(sheetId);
            else reset(sheetId);
          };
          viewports.recomputeViewports = () => {
            if (opening.isReady) {
              recompute();
              return;
            }
            viewports.resetViewports(this.getters.getActiveSheetId());
            for (const id of this.getters.getSheetIds()) this.sheetsWithDirtyViewports.add(id);
          };
        }

        private isWaiting(sheetId: string): boolean {
          return (
            this.opening?.isIn(sheetId, 'heights') === false &&
            (this.opening.isHidden || sheetId !== this.getters.getActiveSheetId())
          );
        }

        override finalize(): void {
          const all = this.sheetsWithDirtyViewports;
          const waiting = [...all].filter((sheetId) => this.isWaiting(sheetId));
          this.sheetsWithDirtyViewports = new Set([...all].filter((id) => !waiting.includes(id)));
          super.finalize();
          this.sheetsWithDirtyViewports = new Set(waiting);
        }

        override setViewports(): void {
          if (!this.opening || this.opening.isReady) super.setViewports();
        }
      },
  );
}

/** Opens a workbook sheet by sheet, those in sight first. */
export const sheetsInTurn: Patch = {
  name: 'sheets-in-turn',
  upstream:
    'All cells of all sheets are read, given their values and measured before anything shows.',
  until: 'the library reads a sheet when it is looked at',
  apply() {
    cellsInTurn();
    mergesInTurn();
    bordersInTurn();
    valuesInTurn();
    rulesInTurn();
    heightsInTurn();
    trackedInTurn();
    viewportsInTurn();
  },
};
