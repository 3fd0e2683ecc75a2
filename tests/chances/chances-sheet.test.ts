import { describe, expect, it } from 'vitest';
import { playedRules } from '../../src/check/played-rules';
import { chances } from '../../src/chances/chances';
import { chancesWorkbook } from '../../src/chances/chances-sheet';
import { planMark } from '../../src/chances/plan-mark';
import { readChancesSheets } from '../../src/chances/read-chances-sheet';
import { spreadsOf, withTyped } from '../../src/chances/spreads';
import type { SheetSnapshot } from '../../src/plan/book-snapshot';
import { covers } from '../../src/plan/addresses';
import type { SheetModel } from '../../src/plan/workbook-model';
import { sampleFarm } from '../tools/farms';

const farm = sampleFarm('larkfield-school');
const file = JSON.parse(farm.file) as Record<string, unknown>;
const found = chances({
  farm,
  weeks: 8,
  years: 100,
  seed: 7,
  spreads: withTyped(spreadsOf(farm), 'yield', { batch: 0.3, year: 0.1 }),
});
const played = { farm, mark: planMark(file), found, written: '2026-03-02, 08:15' };
const [sheet] = chancesWorkbook(played).sheets as [SheetModel];
const texts = sheet.rows.flatMap((cells) => cells.map((cell) => cell?.value));

const asOpened = (rows: SheetModel['rows']): SheetSnapshot => {
  const values = rows.map((cells) => Array.from(cells, (cell) => cell?.value ?? ''));
  return { name: 'Chances', from: 'A1', values, formulas: values };
};

describe('a sheet of chances', () => {
  it('holds numbers alone, in a look that no computed and no typed cell has', () => {
    for (const cell of sheet.rows.flat()) {
      expect(cell?.formula).toBeUndefined();
      if (typeof cell?.value === 'number') expect(cell.look).toBe('once');
    }
  });

  it('says how and when it was made: day, weeks, years, seed, spreads and where each is from', () => {
    expect(texts).toEqual(
      expect.arrayContaining(['2026-03-02, 08:15', farm.asOf, 8, 100, 7, 0.3, 'as typed']),
    );
    expect(texts).toContain('as stated: common practice, no source');
    expect(String(sheet.rows[2]?.[0]?.value)).toMatch(/^Numbers, not formulas: .* 100 times/);
  });

  it('draws what stands on it, each chart from filled cells beside filled cells', () => {
    expect(sheet.charts).toHaveLength(5);
    for (const { categories, series, place } of sheet.charts) {
      for (const { area } of [categories, ...series]) {
        expect(area.rows).toBeGreaterThan(1);
        for (let row = area.row; row < area.row + area.rows; row++) {
          expect(sheet.rows[row]?.[area.column]?.value, `${row}`).toBeDefined();
        }
      }
      sheet.rows.forEach((cells, row) =>
        cells.forEach((cell, column) => {
          if (cell?.value !== undefined) expect(covers(place, row, column)).toBe(false);
        }),
      );
    }
  });

  it('knows whether somebody typed on it', () => {
    expect(readChancesSheets([asOpened(sheet.rows)])).toEqual([
      expect.objectContaining({
        sheet: 'Chances',
        planMark: played.mark,
        written: '2026-03-02, 08:15',
        untouched: true,
      }),
    ]);
    const typed = sheet.rows.map((cells) => [...cells]);
    typed[3] = [{ value: 'ask Quillwater', look: 'text' }];
    expect(readChancesSheets([asOpened(typed)])[0]?.untouched).toBe(false);
  });

  it('is named by the check once the plan is another', () => {
    const sheets = [asOpened(sheet.rows)];
    expect(playedRules(sheets, planMark(file))).toEqual([]);
    const [finding, ...more] = playedRules(sheets, planMark({ ...file, asOf: '2026-03-09' }));
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ level: 'note', sheet: 'Chances', address: 'B12' });
    expect(finding?.what).toContain('2026-03-02, 08:15');
  });
});

describe('the mark of a plan', () => {
  const mark = planMark(file);

  it('is of what is planned, however its cells are read', () => {
    const backwards = Object.fromEntries(Object.entries(file).reverse());
    expect(planMark(backwards)).toBe(mark);
    expect(planMark({ ...file, name: 'Another name', waterTests: [] })).toBe(mark);
    const { stock } = file as { stock: { fishPrice: number } };
    const near = { ...stock, fishPrice: stock.fishPrice * (1 + 1e-12) };
    expect(planMark({ ...file, stock: near })).toBe(mark);
  });

  it.each(['plantings', 'fishLog', 'markets', 'tanks', 'beds', 'stock', 'months', 'asOf'])(
    'differs with %s',
    (part) => {
      expect(file[part]).toBeDefined();
      const without = Object.fromEntries(Object.entries(file).filter(([key]) => key !== part));
      expect(planMark(without)).not.toBe(mark);
    },
  );
});

describe('a typed spread', () => {
  it('takes the place of the records’, and is one from 0 to a half', () => {
    const own = spreadsOf(farm);
    expect(withTyped(own, 'price', own.price)).toBe(own);
    expect(withTyped(own, 'price', { batch: 0.5, year: 0 }).price).toEqual({
      batch: 0.5,
      year: 0,
      batches: 0,
      typed: true,
    });
    for (const batch of [-0.01, 0.501, NaN]) {
      expect(() => withTyped(own, 'price', { batch, year: 0 })).toThrow(/from 0 to 50 %/);
    }
  });
});
