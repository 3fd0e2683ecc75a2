import { describe, expect, it } from 'vitest';
import { bedFields, tankFields } from '../../src/sidebar/plan/form-fields';
import { matchColumns, rowsFrom } from '../../src/sidebar/plan/rows-from-sheet';

describe('columns of a sheet', () => {
  it('are matched by their headings, whatever their order and units', () => {
    const heads = [
      'Remark',
      'Mean weight (g)',
      'Tank',
      'Volume, L',
      'Fish',
      'Stocking date',
      'Fish species',
    ];
    expect(Object.fromEntries(matchColumns(heads, tankFields))).toEqual({
      name: 2,
      volume: 3,
      species: 6,
      fish: 4,
      weight: 1,
      stocked: 5,
    });
  });

  it('serve one field each', () => {
    const columns = [
      ...matchColumns(['Bed', 'Length', 'Length', 'Plants', 'Plant'], bedFields).values(),
    ];
    expect(new Set(columns).size).toBe(columns.length);
    expect(matchColumns(['Bed', 'Plants', 'Plant'], bedFields).get('plants')).toBe(1);
    expect(matchColumns(['Bed', 'Plants', 'Plant'], bedFields).get('crop')).toBe(2);
  });

  it('are left alone where no heading fits', () => {
    expect(matchColumns(['', 'Qqq'], bedFields).size).toBe(0);
  });
});

describe('rows of a sheet', () => {
  const cells = [
    ['Bed', 'Sown', 'Crop', 'Length'],
    [7, 46082, ' basil ', 6.5],
    ['', '', '', ''],
    ['R8', '2026-03-02', '', '20 ft'],
  ];
  it('become rows of the farm file; empty ones are counted, not dropped silently', () => {
    const columns = new Map([
      ['name', 0],
      ['sown', 1],
      ['crop', 2],
      ['length', 3],
    ]);
    expect(rowsFrom(cells, bedFields, columns)).toEqual({
      empty: 1,
      rows: [
        // 2026-03-01 is day 46082 of the 1900 system.
        { name: '7', sown: '2026-03-01', crop: 'basil', length: 6.5 },
        { name: 'R8', sown: '2026-03-02', length: '20 ft' },
      ],
    });
  });
  it('hold only the columns that were chosen', () => {
    expect(rowsFrom(cells, bedFields, new Map([['crop', 2]])).rows).toEqual([{ crop: 'basil' }]);
  });
});
