import { describe, expect, it } from 'vitest';
import { argumentFor, NoPlainForm } from '../../src/handover/arguments';
import type { WorkbookParts } from '../../src/ooxml/workbook-parts';

const element = {} as WorkbookParts['names'][number]['element'];
const book = {
  tables: [
    {
      name: 'Log',
      part: 'xl/tables/table1.xml',
      sheet: 'Water log',
      area: { row: 4, column: 1, rows: 11, columns: 3 },
      columns: ['Date', 'pH', 'TAN, mg/L'],
    },
  ],
  names: [
    { name: 'Temps', text: "'Water log'!$F$2:$F$9", element },
    { name: 'Salt', text: 'Site!$B$3', element },
  ],
} as unknown as WorkbookParts;

/** The argument's text for row 3 and column 1 of what the call fills, counted from 1. */
const third = (text: string, spreads = true): string => argumentFor(text, 2, 0, spreads, book);

describe('one cell of an argument', () => {
  it.each([
    ['a range', 'B2:B10', 'B4'],
    ['a fixed range on another sheet', "'It''s'!$B$2:$B$10", "'It''s'!$B$4"],
    ['a row stretched down', 'B2:F2', 'B2'],
    ['a whole column', 'B:B', 'INDEX(B:B,3)'],
    ['a table column', 'Log[pH]', "'Water log'!$C$8"],
    ['a table column with signs in its name', 'Log[[TAN, mg/L]]', "'Water log'!$D$8"],
    ['this row of a table', 'Log[[#This Row],[pH]]', 'Log[[#This Row],[pH]]'],
    ['a name of many cells', 'Temps', 'INDEX(Temps,3,1)'],
    ['a name of one cell', 'Salt', 'Salt'],
    ['an array constant', '{1;2;3}', '3'],
    ['a single cell', '$A$1', '$A$1'],
    ['a sum', 'A1+2', 'A1+2'],
  ])('%s', (_, text, expected) => {
    expect(third(text)).toBe(expected);
  });

  it.each([
    ['a range where the call stands inside another formula', 'B2:B10', false],
    ['a range that is too short', 'B2:B3', true],
    ['arithmetic with a range', 'B2:B10*2', true],
    ['a table that is not there', 'Nothing[pH]', true],
  ])('%s has none', (_, text, spreads) => {
    expect(() => third(text, spreads)).toThrow(NoPlainForm);
  });
});
