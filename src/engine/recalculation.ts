import { Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { GillError } from '../core/errors';
import { cellAddress, fullAddress } from '../plan/addresses';
import { isErrorValue, keyOf } from '../why/traced-cells';
import type { BookCells, CellPlace, FoundCell, SnapshotValue } from '../plan/book-snapshot';
import { engineFormula } from './engine-formula';
import { registerFunctions } from './engine-functions';
import { valueOf } from './evaluate-formula';
import { contentOf, DATA_VERSION, sheetId } from './grid-data';
import { workbenchLocale } from './locale';
import { inFigures } from './number-content';
import { quietly } from './quietly';

/** Signs that the engine takes in no sheet name. */
const FORBIDDEN = /['*?/\\[\]]/;

/** Rows and columns behind the last cell, so that a block has room. */
const SPARE = 5;

const plainValue = (value: ReturnType<typeof valueOf>): SnapshotValue =>
  value instanceof GillError ? value.code : value;

/** A formula's result as something typed, for a cell that is not to be computed. */
const resultOf = ({ value, formula }: FoundCell): string | undefined =>
  // What a formula leaves empty is no blank cell, and an error stays one only as its formula.
  formula !== undefined && (value === '' || isErrorValue(value))
    ? contentOf({ formula: value === '' ? '""' : formula })
    : contentOf({ value });

/**
 * A part of a workbook that can be computed anew: with these cells, everything that they hang on among them.
 * Formulas of which `computes` says false stay what the workbook shows.
 */
export class Recalculation {
  private readonly model: Model;
  private readonly ids: ReadonlyMap<string, string>;
  /** The cell that holds another number at the moment. */
  private changed: { readonly place: CellPlace; readonly was: number } | undefined;
  private reading = false;

  /** Throws a sentence where the engine cannot hold the workbook. */
  constructor(
    cells: BookCells,
    places: Iterable<CellPlace>,
    computes: (place: CellPlace) => boolean = () => true,
  ) {
    registerFunctions();
    const names = [...new Set(cells.sheetNames)];
    const bad = names.find((name) => FORBIDDEN.test(name));
    if (bad !== undefined)
      throw new Error(
        `The sheet "${bad}" has a sign in its name that cannot be computed with here`,
      );
    this.ids = new Map(names.map((name, i) => [name.toLowerCase(), sheetId(i)]));
    const contents = new Map<string, Record<string, string>>(
      names.map((name) => [name.toLowerCase(), {}]),
    );
    for (const place of places) {
      const cell = cells.at(place);
      const { formula } = cell;
      const block = formula === undefined ? cells.blockAt(place) : undefined;
      // What a block fills comes from its first cell.
      if (block && computes({ ...place, row: block.row, column: block.column })) continue;
      const content =
        formula !== undefined && computes(place) ? contentOf({ formula }) : resultOf(cell);
      const sheet = contents.get(place.sheet.toLowerCase());
      if (content !== undefined && content !== '' && sheet)
        sheet[cellAddress(place.row, place.column)] = content;
    }
    const reach = names.map((name) => {
      const on = cells.namesOn(name).map(({ area }) => area);
      return {
        rows: Math.max(cells.end(name), ...on.map((area) => area.row + area.rows)) + SPARE,
        columns:
          Math.max(cells.width(name), ...on.map((area) => area.column + area.columns)) + SPARE,
      };
    });
    const data = {
      version: DATA_VERSION,
      sheets: names.map((name, i) => ({
        id: sheetId(i),
        name,
        colNumber: reach[i]?.columns,
        rowNumber: reach[i]?.rows,
        cells: contents.get(name.toLowerCase()) ?? {},
        styles: {},
        formats: {},
        borders: {},
        merges: [],
        cols: {},
        rows: {},
        figures: [],
        conditionalFormats: [],
        dataValidationRules: [],
        tables: [],
        areGridLinesVisible: true,
        isVisible: true,
      })),
      styles: {},
      formats: {},
      borders: {},
      settings: { locale: workbenchLocale },
      namedRanges: Object.fromEntries(
        cells.names.map(({ name, sheet, area }) => [name, fullAddress(sheet, area)]),
      ),
    } as unknown as Partial<WorkbookData>;
    this.model = quietly(() => new Model(data));
  }

  private idOf(sheet: string): string {
    return this.ids.get(sheet.toLowerCase()) ?? '';
  }

  valueAt({ sheet, row, column }: CellPlace): SnapshotValue {
    if (!this.reading) this.putBack();
    return plainValue(
      valueOf(
        quietly(() =>
          this.model.getters.getEvaluatedCell({ sheetId: this.idOf(sheet), row, col: column }),
        ),
      ),
    );
  }

  /** What a formula without "=" gives on a cell's sheet; undefined for a block, or where it cannot be computed. */
  evaluate(formula: string, { sheet }: CellPlace): SnapshotValue | undefined {
    if (!this.reading) this.putBack();
    try {
      const result = quietly(() =>
        this.model.getters.evaluateFormulaResult(this.idOf(sheet), `=${engineFormula(formula)}`),
      );
      return Array.isArray(result) ? undefined : plainValue(valueOf(result));
    } catch {
      return undefined;
    }
  }

  private put({ sheet, row, column }: CellPlace, content: string): void {
    const cell = { sheetId: this.idOf(sheet), row, col: column, content };
    quietly(() => this.model.dispatch('UPDATE_CELL', cell));
  }

  private putBack(): void {
    if (this.changed) this.put(this.changed.place, inFigures(this.changed.was));
    this.changed = undefined;
  }

  /**
   * What `read` finds while a cell holds another number. The cell is put back before anything else is asked: a
   * number that follows in the same cell spares one computation.
   */
  withNumber<T>(place: CellPlace, was: number, number: number, read: () => T): T {
    if (this.changed && keyOf(this.changed.place) !== keyOf(place)) this.putBack();
    this.changed = { place, was };
    this.put(place, inFigures(number));
    this.reading = true;
    try {
      return read();
    } finally {
      this.reading = false;
    }
  }
}
