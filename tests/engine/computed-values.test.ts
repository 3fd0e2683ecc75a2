import { describe, expect, it } from 'vitest';
import { computedValues, gridFrom } from '../../src/engine/engine';
import type { SheetModel, WorkbookModel } from '../../src/plan/workbook-model';

const sheet = (name: string, rows: SheetModel['rows']): SheetModel => ({
  name,
  question: '',
  columnWidths: [10, 10],
  rows,
  merges: [],
  tables: [],
  validations: [],
  conditions: [],
  charts: [],
  frozen: { rows: 1, columns: 0 },
  print: { landscape: false, headRows: 0 },
});

const book: WorkbookModel = {
  title: 'Test',
  formulas: 'live',
  made: '2026-03-01',
  farm: '{}',
  sheets: [
    sheet('Water log', [
      [{ value: 'pH', look: 'columnHead' }],
      [{ value: 8, look: 'input' }],
      [{ value: 78, look: 'input' }],
      [
        {
          formula: 'GILL.AMMONIA.UNIONISED(1,A2:A3,25)',
          spill: { rows: 2, columns: 1 },
          look: 'result',
        },
        { value: '2026-03-01', look: 'text' },
      ],
      [undefined, { value: '=1+1', look: 'text' }],
      [
        { value: '0450', look: 'text' },
        { value: 46082, look: 'input', format: 'date' },
      ],
    ]),
    sheet('Sum', [
      [{ formula: "'Water log'!A2*Tank_volume", look: 'computed' }],
      [{ look: 'text' }],
    ]),
  ],
  names: [
    {
      name: 'Tank_volume',
      sheet: 'Water log',
      area: { row: 2, column: 0, rows: 1, columns: 1 },
    },
  ],
};

describe('computed values of a plan', () => {
  const values = computedValues(book);

  it('computes spills, other sheets and names', () => {
    expect(values('Water log', 3, 0)).toBeCloseTo(0.0537, 4);
    expect(values('Sum', 0, 0)).toBe(8 * 78);
  });

  it('gives errors as errors and blanks as undefined', () => {
    expect(values('Water log', 4, 0)).toMatchObject({ code: '#VALUE!' });
    expect(values('Sum', 1, 0)).toBeUndefined();
  });

  it('keeps text that looks like a date, a formula or a number as text', () => {
    expect(values('Water log', 3, 1)).toBe('2026-03-01');
    expect(values('Water log', 4, 1)).toBe('=1+1');
    expect(values('Water log', 5, 0)).toBe('0450');
    expect(values('Water log', 5, 1)).toBe(46082);
  });

  it('refuses a sheet that is not there', () => {
    expect(() => values('Elsewhere', 0, 0)).toThrow('no sheet called "Elsewhere"');
  });

  it('carries frozen rows and names to the grid', () => {
    const data = gridFrom(book);
    expect(data.sheets?.[0]?.panes).toEqual({ xSplit: 0, ySplit: 1 });
    expect(data.namedRanges).toEqual({ Tank_volume: "'Water log'!$A$3" });
  });
});
