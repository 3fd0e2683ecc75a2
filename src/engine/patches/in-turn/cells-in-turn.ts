import { registries, type Cell, type WorkbookData } from '@odoo/o-spreadsheet';
import { HARMLESS } from '../formulas-on-demand';
import { AT_A_TIME, putInPlace, type Opening } from '../opening';
import { cellsSaid, isCell, type Said } from './cells-said';
import { pluginInTurn, type Command, type Config, type SheetData } from './plugin-in-turn';

interface Position {
  readonly row: number;
  readonly col: number;
  readonly sheetId: string;
}

interface SheetSize {
  readonly rowNumber: number;
  readonly colNumber: number;
}

interface SheetPlugin {
  readonly cellPosition: Record<number, Position>;
  getImportedSheetSize(data: SheetData): SheetSize;
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

/** Sheets as large as they say, and where their cells stand. */
function placesInTurn(): void {
  pluginInTurn<SheetPlugin>(
    {
      registry: registries.corePluginRegistry,
      plugin: 'sheet',
      methods: ['getImportedSheetSize'],
      parts: ['cellPosition'],
    },
    (Original) =>
      class extends Original {
        constructor(config: Config) {
          super(config);
          placesOf.set(this.getters, this);
        }

        /** The library reads the address of every cell, to see whether the sheet is as large as it says. */
        override getImportedSheetSize(data: SheetData): SheetSize {
          const { rowNumber, colNumber } = data;
          return this.opening ? { rowNumber, colNumber } : super.getImportedSheetSize(data);
        }
      },
  );
}

/** The cells of a sheet with their contents and looks. */
export function cellsInTurn(): void {
  placesInTurn();
  pluginInTurn<CellPlugin>(
    {
      registry: registries.corePluginRegistry,
      plugin: 'cell',
      methods: ['import', 'importCell', 'getNextCellId', 'beforeHandle', 'readOnDemand'],
      parts: ['cells', 'getters'],
    },
    (Original) =>
      class extends Original {
        private lastId = 0;

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
            for (const [row, cell] of column.entries()) {
              if (!isCell(cell)) continue;
              waiting.push({ ...cell, row, col, sheetId: id });
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
