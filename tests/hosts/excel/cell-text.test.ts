import { describe, expect, it } from 'vitest';
import { typedText } from '../../../src/hosts/excel/cell-text';
import { rectanglesByKey } from '../../../src/hosts/excel/rectangles';
import { farmFromXml, farmXml } from '../../../src/ooxml/farm-xml';

describe('text for a cell', () => {
  it('is left alone where Excel can only take it as text', () => {
    for (const text of ['', 'Tank', 'Fish in the tank', 'Äpfel (rot)']) {
      expect(typedText(text)).toBe(text);
    }
  });
  it('gets an apostrophe where Excel would make something else of it', () => {
    for (const text of ['=A1', '+1', '-x', '@x', "'x", '3-4', 'Mar 5', '1e5', 'true', ' x']) {
      expect(typedText(text)).toBe(`'${text}`);
    }
  });
});

describe('rectangles of equal cells', () => {
  const picture = ['aab', 'aab', '.bb', 'aaa'];
  const found = rectanglesByKey(4, 3, (r, c) => {
    const key = picture[r]?.[c];
    return key === '.' ? undefined : key;
  });
  it('cover each cell once, and only cells of their kind', () => {
    const cover = picture.map(() => ['.', '.', '.']);
    for (const [key, areas] of found) {
      for (const { row, column, rows, columns } of areas) {
        for (let r = row; r < row + rows; r++) {
          for (let c = column; c < column + columns; c++) {
            expect(cover[r]?.[c]).toBe('.');
            (cover[r] as string[])[c] = key as string;
          }
        }
      }
    }
    expect(cover.map((row) => row.join(''))).toEqual(picture);
  });
  it('grow downwards', () => {
    expect(found.get('a')?.[0]).toEqual({ row: 0, column: 0, rows: 2, columns: 2 });
  });
});

describe('the farm inside a workbook', () => {
  it('comes back as it was kept', () => {
    const json = JSON.stringify({ name: 'A <b> & "c" \u0001 \'d\' é 鱼' });
    expect(farmFromXml(farmXml(json))).toBe(json);
  });
  it('is read with a prefix, as CDATA and with escaped quotes', () => {
    expect(farmFromXml('<g:farm xmlns:g="urn:gillbed:farm:1">{&quot;a&quot;:1}</g:farm>')).toBe(
      '{"a":1}',
    );
    expect(farmFromXml('<farm xmlns="urn:gillbed:farm:1"><![CDATA[{"a":"<"}]]></farm>')).toBe(
      '{"a":"<"}',
    );
  });
  it('is not taken from anything else', () => {
    expect(farmFromXml('<farm xmlns="urn:other">{}</farm>')).toBeUndefined();
  });
});
