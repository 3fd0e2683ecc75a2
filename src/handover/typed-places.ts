import { cropTable } from '../functions/crop-table';
import type { LookupTable } from '../functions/lookup';
import { speciesTable } from '../functions/species-table';
import type { BookCells, FoundCell } from '../plan/book-snapshot';
import { findTyped } from '../plan/find-typed';
import { plansIn } from '../plan/read-book';
import { typedOfPlan } from '../plan/typed-of-plan';

/** The cells of a workbook into which somebody types, each under a key that stays when rows are moved. */
export type TypedPlaces = ReadonlyMap<string, FoundCell>;

/** Figures of a table that a workbook carries, by the name of their row. */
function tablePlaces<R>(
  table: LookupTable<R>,
  cells: BookCells,
  found: Map<string, FoundCell>,
): void {
  const names = cells.name(`${table.prefix}_name`);
  if (!names) return;
  for (const { fact } of table.columns) {
    if (fact.endsWith('_source')) continue;
    const column = cells.name(`${table.prefix}_${fact}`);
    if (!column) continue;
    for (let row = names.area.row; row < names.area.row + names.area.rows; row++) {
      const { value } = cells.at({ sheet: names.sheet, row, column: names.area.column });
      if (value === '') continue;
      found.set(
        `${table.prefix}_${fact} of ${String(value)}`,
        cells.at({ sheet: column.sheet, row, column: column.area.column }),
      );
    }
  }
}

/** Those of a plan, by its own declarations; undefined where the workbook holds none. */
export function typedOfBook(cells: BookCells): TypedPlaces | undefined {
  const [suffix] = plansIn(cells);
  if (suffix === undefined) return undefined;
  const altitude = cells.name(`Farm_altitude${suffix}`);
  const isMetric =
    altitude === undefined ||
    cells.at({ sheet: altitude.sheet, row: altitude.area.row, column: altitude.area.column })
      .formula === undefined;
  const places = new Map<string, FoundCell>();
  const { figures, registers } = findTyped(cells, typedOfPlan(isMetric ? 'metric' : 'US'), suffix);
  for (const { typed, cell } of figures) if (cell) places.set(typed.name, cell);
  for (const { typed, rows } of registers) {
    for (const { index, cells: row } of rows) {
      row.forEach((cell, i) => {
        const column = typed.columns[i];
        if (cell && column) places.set(`${column.name} ${index}`, cell);
      });
    }
  }
  tablePlaces(cropTable, cells, places);
  tablePlaces(speciesTable, cells, places);
  return places;
}

/** Every cell that holds no formula, by its address: in workbooks without a plan anything may be typed. */
export function allWithoutFormula(cells: BookCells): TypedPlaces {
  const places = new Map<string, FoundCell>();
  for (const sheet of cells.sheetNames) {
    for (let row = 0; row < cells.end(sheet); row++) {
      for (let column = 0; column < cells.width(sheet); column++) {
        const cell = cells.at({ sheet, row, column });
        if (cell.formula === undefined && !cells.blockAt(cell))
          places.set(`${sheet.toLowerCase()}!${row},${column}`, cell);
      }
    }
  }
  return places;
}

/** Numbers that no formula gives: what may be changed in a workbook without a plan. */
export const typedNumbers = (cells: BookCells): TypedPlaces =>
  new Map([...allWithoutFormula(cells)].filter(([, { value }]) => typeof value === 'number'));
