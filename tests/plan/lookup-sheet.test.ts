import { describe, expect, it } from 'vitest';
import { lookupTables } from '../../src/functions/lookup-tables';
import { lookupSheet, shareFormula } from '../../src/plan/lookup-sheet';

describe.each(lookupTables.map((table) => [table.sheet, table] as const))(
  'sheet %s',
  (_, table) => {
    const { sheet, names } = lookupSheet(
      table,
      { title: 'Title', question: 'Question?' },
      undefined,
      undefined,
      undefined,
      true,
    );
    const areaOf = (part: string) =>
      names.find(({ name }) => name === `${table.prefix}_${part}`)?.area;
    const valueAt = (row: number, column: number) => sheet.rows[row]?.[column]?.value;

    it('has every figure of the table under its name', () => {
      expect(table.rows.length).toBeGreaterThan(5);
      for (const column of table.columns) {
        const area = areaOf(column.fact);
        expect(area).toBeDefined();
        if (!area) continue;
        const found = table.rows.map((_row, i) => valueAt(area.row + i, area.column));
        expect(found).toEqual(table.rows.map((row) => column.of(row)));
      }
    });

    it('has all facts side by side, in the order of the table', () => {
      const all = areaOf('facts');
      const own = table.columns.map(({ fact }) => areaOf(fact)?.column);
      expect(own).toEqual(own.map((_column, i) => (all?.column ?? NaN) + i));
      expect(all?.columns).toBe(own.length);
    });

    it('has every matrix with its head values above it', () => {
      for (const matrix of table.matrices) {
        const [heads, block] = [areaOf(matrix.heads.fact), areaOf(matrix.fact)];
        if (!heads || !block) throw new Error(`${matrix.fact} has no name`);
        matrix.heads.values.forEach((head, c) => {
          expect(valueAt(heads.row, heads.column + c)).toBe(head);
          table.rows.forEach((row, r) => {
            const [at, figure] = [block.row + r, matrix.of(row)[c] as number];
            const cell = sheet.rows[at]?.[block.column + c];
            if (matrix.goesWith === undefined) expect(cell?.value).toBe(figure);
            else expect(cell?.formula).toBe(shareFormula(figure, at, block.column - 1));
          });
        });
      }
    });

    it('has every known spelling beside the number of its row', () => {
      const [keys, rows] = [areaOf('key'), areaOf('row')];
      if (!keys || !rows) throw new Error('no keys');
      expect(keys.rows).toBe(table.spellings.length);
      table.spellings.forEach(([key, row], i) => {
        expect([valueAt(keys.row + i, keys.column), valueAt(rows.row + i, rows.column)]).toEqual([
          key,
          row,
        ]);
      });
    });

    it('has names that are there once and look like no cell', () => {
      expect(new Set(names.map(({ name }) => name.toLowerCase())).size).toBe(names.length);
      for (const { name } of names) expect(name).toMatch(/^[A-Z][a-z]+_\w+$/);
    });
  },
);
