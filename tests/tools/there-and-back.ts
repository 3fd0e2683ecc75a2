import { Model } from '@odoo/o-spreadsheet';
import { registerFunctions } from '../../src/engine/engine-functions';
import { gridFrom } from '../../src/engine/grid-data';
import { quietly } from '../../src/engine/quietly';
import { GridCells } from '../../src/hosts/workbench/snapshot';
import { workbookFrom } from '../../src/hosts/workbench/workbook-from';
import { openBook } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import type { BookSnapshot, Cells } from '../../src/plan/book-snapshot';
import { type Farm, readFarm } from '../../src/plan/farm';
import type { FormulaMode } from '../../src/plan/live-or-plain';
import { planWorkbook } from '../../src/plan/plan';
import type { UnitSystem } from '../../src/plan/quantities';
import { readBook } from '../../src/plan/read-book';
import { convert } from './libreoffice';
import { farmDifferences } from './same-farm';
import { openOnGrid } from './workbench-file';

/** Ways that a farm can go through a workbook and come back. */

export const kinds: readonly (readonly [UnitSystem, FormulaMode])[] = [
  ['metric', 'live'],
  ['metric', 'plain'],
  ['US', 'live'],
  ['US', 'plain'],
];

/** A plan as a file; what its formulas give plays no part. */
export const fileOf = (farm: Farm, formulas: FormulaMode): Uint8Array =>
  writeXlsx(planWorkbook(farm, { formulas }), () => 0);

/** Where a workbook says another farm than the one that it was made from; nothing where they are the same. */
export function otherThan(farm: Farm, book: BookSnapshot | Cells): string[] {
  const { faults, farm: back } = readBook(book);
  return back ? farmDifferences(farm, back) : faults.map(({ says }) => says);
}

/** The plan on the workbench's grid: read there, and read from the new file that the grid is saved as. */
export function throughGrid(farm: Farm, formulas: FormulaMode): string[] {
  registerFunctions();
  const plan = planWorkbook(farm, { formulas });
  const model = quietly(() => new Model(gridFrom(plan)));
  const saved = quietly(() => {
    const { model: book, values } = workbookFrom(model, { '': plan }, farm.file);
    return writeXlsx(book, values);
  });
  return [...otherThan(farm, new GridCells(model)), ...otherThan(farm, openBook(saved))];
}

/** The plan's file opened on the workbench, the first tank made larger there, and saved into the file. */
export async function throughOpenedFile(farm: Farm, formulas: FormulaMode): Promise<string[]> {
  const bytes = fileOf(farm, formulas);
  const grid = await openOnGrid(bytes);
  const cell = readBook(openBook(bytes)).places.get('tanks[0].volume');
  if (!cell) return ['the first tank has no cell'];
  const { model } = grid;
  const sheetId = model.getters.getSheetIdByName(cell.sheet) ?? '';
  const at = { sheetId, row: cell.row, col: cell.column };
  const larger = Number((Number(cell.value) * 1.5).toPrecision(6));
  quietly(() => model.dispatch('UPDATE_CELL', { ...at, content: String(larger) }));
  const { farm: back, faults } = readBook(openBook(grid.save().bytes));
  if (!back) return faults.map(({ says }) => says);
  const file = JSON.parse(farm.file) as { tanks: readonly object[] };
  const tanks = file.tanks.map((tank, i) => (i === 0 ? { ...tank, volume: larger } : tank));
  return farmDifferences(readFarm({ ...file, tanks }), back);
}

/** Several plans saved by LibreOffice in one run, each by a name that is the answer's. */
export function throughLibreOffice(
  farms: ReadonlyMap<string, readonly [Farm, FormulaMode]>,
): Map<string, string[]> {
  const files = [...farms].map(
    ([name, [farm, formulas]]) => [`${name}.xlsx`, fileOf(farm, formulas)] as const,
  );
  const saved = convert(new Map(files), 'xlsx', 'usual');
  return new Map(
    [...farms].map(([name, [farm]]) => [
      name,
      otherThan(farm, openBook(saved.get(`${name}.xlsx`) as Uint8Array)),
    ]),
  );
}
