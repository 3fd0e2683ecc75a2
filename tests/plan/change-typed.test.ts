import { describe, expect, it } from 'vitest';
import { withBlocks } from '../../src/hosts/excel/followed-book';
import { openBook } from '../../src/ooxml/open-book';
import type { BookSnapshot } from '../../src/plan/book-snapshot';
import { type CellChange, cellsForFields, whyNotTyped } from '../../src/plan/change-typed';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { type BookReading, readBook } from '../../src/plan/read-book';
import { sampleFarm } from '../tools/farms';
import { fileOf } from '../tools/there-and-back';

/** The workbook with cells typed otherwise. */
function typedInto(book: BookSnapshot, cells: readonly CellChange[]): BookSnapshot {
  return {
    ...book,
    sheets: book.sheets.map((sheet) => {
      const blocks = cells
        .filter((cell) => cell.sheet === sheet.name)
        .map(({ row, column, value = '' }) => ({
          area: { row, column, rows: 1, columns: 1 },
          formulas: [[value]],
          values: [[value]],
        }));
      return blocks.length > 0 ? withBlocks(sheet, blocks) : sheet;
    }),
  };
}

const metric = openBook(fileOf(readFarm(demoFarm), 'plain'));
const us = openBook(fileOf(sampleFarm('larkfield-school'), 'plain'));

const changed = (reading: BookReading, path: string, value: unknown): readonly CellChange[] => {
  const answer = cellsForFields(reading, [{ path, value }]);
  if ('refused' in answer) throw new Error(answer.refused);
  return answer.cells;
};

/** Leaves of a file by their path. */
function leaves(value: unknown, path = ''): [string, unknown][] {
  if (Array.isArray(value)) return value.flatMap((one, i) => leaves(one, `${path}[${i}]`));
  if (typeof value !== 'object' || value === null) return [[path, value]];
  return Object.entries(value).flatMap(([key, one]) =>
    leaves(one, path === '' ? key : `${path}.${key}`),
  );
}

/** Another value of the same kind, which a farm can have. */
const other = (path: string, value: unknown): unknown =>
  typeof value === 'number'
    ? /protein|survival|humidity|germination|losses/.test(path)
      ? Number((value * 0.9).toPrecision(6))
      : Math.round(value + 1)
    : /^\d{4}-/.test(String(value))
      ? '2026-05-20'
      : `${String(value)} x`;

describe('a field typed into the workbook', () => {
  it.each([
    ['metric', metric],
    ['US', us],
  ] as const)('is one cell, and changes nothing else of the farm: %s', (_, book) => {
    const reading = readBook(book);
    const before = new Map(leaves(reading.file));
    const inForm =
      /^(?:name|asOf|site\.|water\.|filter\.|feed\.|stock\.|(?:months|markets|costs)\[\d+\]\.|(?:tanks|beds)\[\d+\]\.(?:volume|length|width|depth))/;
    const typedFields = [...before].filter(
      ([path]) => inForm.test(path) && !/species|crop$|unit$/.test(path),
    );
    expect(typedFields.length).toBeGreaterThan(60);
    // Some of all, the lists among them.
    const some = typedFields.filter(([path], i) => i % 25 === 0 || path === 'tanks[1].volume');
    for (const [path, value] of some) {
      const next = other(path, value);
      const cells = changed(reading, path, next);
      expect(cells, path).toHaveLength(1);
      const place = reading.places.get(path);
      expect(cells[0], path).toMatchObject({ sheet: place?.sheet, row: place?.row });
      const after = readBook(typedInto(book, cells));
      expect(after.faults, path).toEqual([]);
      const differing = leaves(after.file).filter(([at, one]) => before.get(at) !== one);
      expect(differing, path).toEqual([[path, next]]);
    }
  });

  it('takes a unit, and writes the number in the unit of the sheet', () => {
    const reading = readBook(us);
    const [cell] = changed(reading, 'tanks[0].volume', '1000 L');
    // 1 US gallon is 231 cubic inches of 2.54 cm each (NIST Handbook 44, appendix C).
    expect(cell?.value).toBeCloseTo(1000 / (231 * 2.54 ** 3 * 1e-3), 6);
  });

  it('is not written where the farm would be wrong, with what would be right', () => {
    const reading = readBook(metric);
    const refused = (path: string, value: unknown): string => {
      const answer = cellsForFields(reading, [{ path, value }]);
      return 'refused' in answer ? answer.refused : '';
    };
    expect(refused('tanks[0].volume', -3)).toMatch(/^Must be a number .*; got -3\.$/);
    expect(refused('tanks[0].volume', undefined)).toBe('Must not be blank.');
    expect(refused('asOf', '13.4.2026')).toMatch(/date/);
    expect(refused('stock.species', 'Trouty')).toMatch(/^Must be the name of a .*such as/);
    const rows = reading.farm?.fishLog.filter(
      ({ tank, toTank }) => tank === 'Tank 1' || toTank === 'Tank 1',
    );
    expect(rows?.length).toBeGreaterThan(0);
    expect(refused('tanks[0].name', 'The big one')).toMatch(
      /rows? of the registers calls? it Tank 1 and would belong to nothing/,
    );
    expect(refused('tanks[0].name', 'TANK 1')).toBe('');
  });

  it('is none where it follows from the registers, or a formula of somebody stands there', () => {
    const reading = readBook(metric);
    expect(whyNotTyped(reading, 'tanks[0].fish')).toMatch(/^Follows from the Fish log/);
    expect(whyNotTyped(reading, 'beds[0].crop')).toMatch(/^Follows from the Plantings/);
    expect(whyNotTyped(reading, 'tanks[0].volume')).toBeUndefined();
    expect(whyNotTyped(reading, 'feed.protein')).toBeUndefined();
    const place = reading.places.get('tanks[0].volume');
    if (!place) throw new Error('no cell');
    const own = {
      ...metric,
      sheets: metric.sheets.map((sheet) =>
        sheet.name === place.sheet
          ? withBlocks(sheet, [
              {
                area: { row: place.row, column: place.column, rows: 1, columns: 1 },
                formulas: [['=2*3900']],
                values: [[7800]],
              },
            ])
          : sheet,
      ),
    };
    expect(whyNotTyped(readBook(own), 'tanks[0].volume')).toMatch(/holds a formula of your own/);
  });
});
