import { Model } from '@odoo/o-spreadsheet';
import { beforeAll, describe, expect, it } from 'vitest';
import { aheadAsked } from '../../../src/ahead/asked';
import { type AheadPlanned, planAhead } from '../../../src/ahead/plan-ahead';
import { bookChange } from '../../../src/ahead/rows-in-book';
import { loadSolver } from '../../../src/ahead/solver';
import { gridFrom } from '../../../src/engine/engine';
import { quietly } from '../../../src/engine/quietly';
import { excelHost } from '../../../src/hosts/excel/excel-host';
import { acceptEntries, enterCells } from '../../../src/hosts/workbench/enter-cells';
import { GridCells, readingSheets } from '../../../src/hosts/workbench/snapshot';
import { longerTables } from '../../../src/ooxml/longer-tables';
import { openBook } from '../../../src/ooxml/open-book';
import { writeXlsx } from '../../../src/ooxml/write-xlsx';
import { BookCells, type BookSnapshot, type SheetSnapshot } from '../../../src/plan/book-snapshot';
import { planWorkbook } from '../../../src/plan/plan';
import { toShown } from '../../../src/plan/quantities';
import { readBook } from '../../../src/plan/read-book';
import { tankYearOf } from '../../../src/plan/tank-year-cells';
import { changedFile, changeOfPlan, type OpenFarm } from '../../../src/sidebar/ahead/farm-of-host';
import { openExcel } from '../../tools/excel-open';
import { sampleFarm } from '../../tools/farms';
import { recalculated, type SheetValues } from '../../tools/libreoffice';
import { atOnce } from '../../../src/plan/in-steps';

// The grid's library gathers the parts of a step with it; browsers have it, Node from 21 on.
if (!('groupBy' in Object)) {
  Object.defineProperty(Object, 'groupBy', {
    value: <T>(items: readonly T[], keyOf: (item: T) => string): Record<string, T[]> => {
      const groups: Record<string, T[]> = {};
      for (const item of items) (groups[keyOf(item)] ??= []).push(item);
      return groups;
    },
  });
}

/** With more of them the fish take the solver long. */
const WEEKS = 20;
const farm = sampleFarm('larkfield-school');
const plan = planWorkbook(farm, { formulas: 'plain' });

/** A sheet's values from its first cell on. */
const valuesOf = (book: Pick<BookSnapshot, 'sheets'>, name: string): SheetSnapshot['values'] =>
  book.sheets.find((sheet) => sheet.name === name)?.values ?? [];

describe('a plan entered from the pane', () => {
  let planned: AheadPlanned;
  let grid: Model;
  let inOffice: SheetValues;
  let written: BookSnapshot;
  let change: ReturnType<typeof changeOfPlan>;
  let longer: ReturnType<typeof longerTables>;

  beforeAll(async () => {
    const bytes = writeXlsx(plan, () => 0);
    const cells = new BookCells(openBook(bytes));
    const open: OpenFarm = { bytes, cells, reading: readBook(cells), farm, suffix: '' };
    const asked = { part: 'both', weeks: WEEKS, without: [], seconds: 20 } as const;
    planned = planAhead(aheadAsked(farm, asked), await loadSolver());
    const own = changeOfPlan(open, farm, planned);
    // Rows that were not done count nowhere, and fill the register beyond its end.
    const crop = farm.markets[0]?.crop ?? '';
    const filler = Array.from({ length: 70 }, () => ({ crop, planned: 'not done' as const }));
    const rows = { ...own.rows, plantings: [...own.rows.plantings, ...filler] };
    change = { ...own, rows, ...bookChange(open.reading, farm, own.gone, rows) };
    longer = longerTables(bytes, change.cells);
    const file = changedFile(open, change);
    written = openBook(file);
    inOffice = (await recalculated(new Map([['book.xlsx', file]]))).get('book.xlsx') as SheetValues;
    acceptEntries();
    grid = quietly(() => new Model(gridFrom(plan)));
    quietly(() => enterCells(grid, change.cells, longer));
  });

  it('makes its registers longer', () => {
    expect(longer.map(({ sheet }) => sheet)).toContain('Plantings');
    expect(change.left).toEqual({ fishLog: 0, plantings: 0 });
  });

  it.each(['Season', 'Tank year', 'Plantings', 'Fish log'])(
    'gives the same %s in the workbench and in LibreOffice',
    (name) => {
      const values = valuesOf({ sheets: atOnce(readingSheets(grid)) }, name);
      let compared = 0;
      values.forEach((row, r) =>
        row.forEach((value, c) => {
          if (value === '') return;
          const other = inOffice(name, r, c) ?? '';
          compared += 1;
          if (typeof value === 'number' && typeof other === 'number') {
            const near = 1e-7 * Math.max(1, Math.abs(value));
            expect(Math.abs(value - other), `${name} ${r} ${c}: ${value}, ${other}`).toBeLessThan(
              near,
            );
          } else expect(other, `${name} ${r} ${c}`).toBe(value);
        }),
      );
      expect(compared).toBeGreaterThan(300);
    },
  );

  it('has the same cells in Excel as in the file that the terminal writes', async () => {
    const { workbook } = openExcel({ sheets: ['Mine'] });
    await excelHost().build(plan, () => undefined, new AbortController().signal);
    await excelHost().enter(change.cells, longer);
    for (const name of ['Fish log', 'Plantings']) {
      const sheet = workbook.sheet(name);
      const { formulas = [] } = written.sheets.find((one) => one.name === name) ?? {};
      const box = { row: 0, column: 0, rows: formulas.length, columns: formulas[0]?.length ?? 0 };
      const wrong = sheet
        .read(box, 'formula')
        .flatMap((row, r) =>
          row.flatMap((cell, c) =>
            cell === formulas[r]?.[c]
              ? []
              : [`${name} ${r} ${c}: ${cell}, not ${formulas[r]?.[c]}`],
          ),
        );
      expect(wrong).toEqual([]);
    }
  });

  it('shows on the sheets what the pane showed before it was written', () => {
    const { report } = planned.fish as NonNullable<AheadPlanned['fish']>;
    const year = tankYearOf(
      new GridCells(grid),
      report.tanks.map(({ name }) => name),
    );
    let weeks = 0;
    for (const { name, density, limit } of year?.tanks ?? []) {
      const shown = toShown(limit ?? NaN, 'density', farm.units);
      expect(shown).toBeCloseTo(report.tanks.find((tank) => tank.name === name)?.limit ?? NaN, 1);
      // After the last row of a tank the sheet goes on by its turns, which no plan has.
      const last = Math.max(
        farm.asOf,
        ...(planned.fish?.rows ?? []).flatMap(({ tank, toTank, date }) =>
          tank === name || toTank === name ? [date] : [],
        ),
      );
      for (const { week, tanks } of report.density) {
        if (farm.asOf + 7 * week >= last) continue;
        expect(density[week], `${name}, week ${week}`).toBeCloseTo(tanks[name] ?? NaN, 3);
        weeks += 1;
      }
    }
    expect(weeks).toBeGreaterThan(20);
    expect(year?.tanks).toHaveLength(report.tanks.length);

    const { market } = (planned.beds as NonNullable<AheadPlanned['beds']>).report;
    const season = valuesOf({ sheets: atOnce(readingSheets(grid)) }, 'Season');
    const first = season.findIndex(([head]) => head === 'Expected harvest');
    for (const { crop, weeks } of market) {
      const row = season.findIndex(([head], at) => at > first && head === crop);
      weeks.slice(0, WEEKS).forEach(({ supply, week }, at) => {
        expect(Number(season[row]?.[2 + at]), `${crop}, ${week}`).toBeCloseTo(supply, 1);
      });
    }
    expect(market.length).toBeGreaterThan(0);
  });
});
