import { describe, expect, it } from 'vitest';
import { computedValues } from '../../src/engine/engine';
import { countedFarm } from '../../src/experience/taken-over';
import { planWorkbook } from '../../src/plan/plan';
import type { SheetModel } from '../../src/plan/workbook-model';
import { cutOff } from '../tools/cut-off';
import { sampleFarm } from '../tools/farms';
import { figuresEnd, inSight } from '../tools/in-sight';

/** A small telephone of 320 by 568 pixels, held upright. */
const PHONE_HEIGHT = 568;
/** Pixels of its width that the grid leaves, beside the numbers of its rows and the bar at its right. */
const GRID = 252;

describe.each(['quillwater', 'larkfield-school', 'aldermoor-springs'] as const)('%s', (name) => {
  const farm = countedFarm(sampleFarm(name));
  const model = planWorkbook(farm, { formulas: 'live' });
  const values = computedValues(model);

  it('has no text cut off on the grid, and no number too wide for its column', () => {
    const found = model.sheets.flatMap((sheet) =>
      cutOff(sheet, (row, column) => values(sheet.name, row, column)),
    );
    expect(found).toEqual([]);
  });

  it('leaves room on a telephone beside the rows and columns that stay in sight', () => {
    for (const sheet of model.sheets) {
      const { height, width } = inSight(sheet, values);
      expect(height, sheet.name).toBeLessThanOrEqual(PHONE_HEIGHT / 2);
      expect(width, sheet.name).toBeLessThanOrEqual(GRID * 0.7);
    }
  });

  it('shows the figures beside their labels on a telephone', () => {
    for (const sheet of model.sheets)
      expect(figuresEnd(sheet), sheet.name).toBeLessThanOrEqual(GRID);
  });

  it('has a sheet of its own figures where its registers say something', () => {
    const names = model.sheets.map((sheet) => sheet.name);
    expect(names.includes('Own figures')).toBe(farm.ownFigures.length > 0);
    if (name === 'quillwater') expect(farm.ownFigures.length).toBeGreaterThan(20);
  });

  it('tells by the colour of a tab, and in words on Start, what one does on its sheet', () => {
    const [start, ...others] = model.sheets;
    expect(start?.tabColour).toBeUndefined();
    expect(new Set(others.map(({ tabColour }) => tabColour)).size).toBe(3);
    const words = start?.rows.flat().map((cell) => cell?.value);
    expect(words?.some((text) => String(text).startsWith('Tabs: dark blue'))).toBe(true);
  });
});

describe('what does not fit is noticed', () => {
  const sheet: SheetModel = {
    name: 'Planted',
    question: '',
    columnWidths: [12, 12, 12],
    rows: [],
    merges: [],
    tables: [],
    validations: [],
    conditions: [],
    charts: [],
    frozen: { rows: 0, columns: 0 },
    print: { landscape: false, headRows: 0 },
  };
  const found = (rows: SheetModel['rows'], more: Partial<SheetModel> = {}): string[] =>
    cutOff({ ...sheet, ...more, rows }, (row, column) => rows[row]?.[column]?.value);
  const remark = (value: string) => ({ value, look: 'source' as const });

  it('a text that meets a filled cell, or the edge of a frozen column', () => {
    const long = remark('the text goes on and on');
    expect(found([[long]])).toEqual([]);
    expect(found([[long, { value: 1, look: 'input' }]])).toHaveLength(1);
    expect(found([[long]], { frozen: { rows: 0, columns: 1 } })).toHaveLength(1);
  });

  it('more lines than merged cells have, a word wider than its cell, a number wider than its column', () => {
    const merges = [{ row: 0, column: 0, rows: 1, columns: 2 }];
    const lines = {
      value: 'so many words that they want more than one line',
      look: 'text' as const,
    };
    expect(found([[{ ...lines, formula: 'A9' }]], { merges })).toHaveLength(1);
    expect(found([[{ value: 'Unbreakableheadings', look: 'columnHead' }]])).toHaveLength(1);
    const number = { value: 123456789012, look: 'computed' as const, format: 'two' as const };
    expect(found([[number]])).toHaveLength(1);
    expect(found([[{ ...number, value: 12 }]])).toEqual([]);
  });
});
