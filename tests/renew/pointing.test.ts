import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { computedValues } from '../../src/engine/engine';
import { openTraced } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { fullAddress, readArea, splitSheet } from '../../src/plan/addresses';
import { BookCells, type CellPlace } from '../../src/plan/book-snapshot';
import { planWorkbook } from '../../src/plan/plan';
import { readBook } from '../../src/plan/read-book';
import { renew } from '../../src/renew/renew';
import { sampleFarm } from '../tools/farms';
import { few } from '../tools/how-many';
import { livedIn } from '../tools/lived-in-book';

const HOW_MANY = 400;

/** Cells that hold the same whatever else is on the farm: what is typed, and the plan's words. */
function steady(cells: BookCells, typed: ReadonlySet<string>): CellPlace[] {
  return cells.sheetNames.flatMap((sheet) => {
    const found: CellPlace[] = [];
    for (let row = 0; row < cells.end(sheet); row++)
      for (let column = 0; column < cells.width(sheet); column++) {
        const { value, formula } = cells.at({ sheet, row, column });
        const isTyped = typed.has(`${sheet}!${row},${column}`);
        if (value !== '' && formula === undefined && isTyped) found.push({ sheet, row, column });
      }
    return found;
  });
}

const books = [
  [
    'a workbook of version 0.1.0',
    () => readFileSync(new URL('../plan/fixtures/aldermoor-springs-0.1.0.xlsx', import.meta.url)),
    // What of a tank was typed then follows from the Fish log now, and is computed.
    { values: computedValues },
  ],
  [
    'one of today',
    () => writeXlsx(planWorkbook(sampleFarm('larkfield-school'), { formulas: 'plain' }), () => 0),
    {},
  ],
] as const;

it.each(few(1, books))('own formulas go on showing what was typed: %s', (_, make, options) => {
  const book = make();
  const before = new BookCells(openTraced(book));
  const reading = readBook(before);
  const typed = new Set(
    [...reading.places.values()].map(({ sheet, row, column }) => `${sheet}!${row},${column}`),
  );
  const all = steady(before, typed);
  const chosen = fc
    .sample(fc.integer({ min: 0, max: all.length - 1 }), HOW_MANY)
    .map((at) => all[at] as CellPlace);
  const source = livedIn(book, {
    sheets: {
      Mine: chosen.map((place) => [
        { formula: fullAddress(place.sheet, { ...place, rows: 1, columns: 1 }), value: 0 },
      ]),
    },
  });
  const tanks = (reading.farm?.tanks.length ?? 0) + 3;
  const beds = (reading.farm?.beds.length ?? 0) + 7;
  const { bytes, losses, carried } = renew(source, {
    changes: { tanks, beds },
    ...options,
  });
  expect(losses).toEqual([]);
  expect(carried.sheets).toBe(1);
  const after = new BookCells(openTraced(bytes));
  const shown = chosen.map((_, row) => {
    const { sheet = '', address } = splitSheet(
      after.at({ sheet: 'Mine', row, column: 0 }).formula ?? '',
    );
    const area = readArea(address);
    return area ? after.at({ sheet, row: area.row, column: area.column }).value : undefined;
  });
  // What is computed now comes to the same.
  const rounded = (value: unknown): unknown =>
    typeof value === 'number' ? Number(value.toPrecision(9)) : value;
  expect(shown.map(rounded)).toEqual(chosen.map((place) => rounded(before.at(place).value)));
});
