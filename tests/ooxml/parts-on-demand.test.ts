import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { atOnce } from '../../src/plan/in-steps';
import { Package } from '../../src/ooxml/package';
import { eachRow, readSheetCells, type SheetRow, translated } from '../../src/ooxml/sheet-cells';
import { packedParts } from '../../src/ooxml/unpack';
import { readWorkbookParts } from '../../src/ooxml/workbook-parts';
import { crc32 } from '../../src/ooxml/crc32';
import { writersWorkbooks } from '../tools/foreign-workbooks';
import { largeWorkbook } from '../tools/large-workbook';

const SHEET = 'xl/worksheets/sheet1.xml';
const large = largeWorkbook('records', 0.02);

describe('parts of a file', () => {
  it('stay packed as they were where nothing changes them', () => {
    const file = Package.open(large);
    file.edit(SHEET, [{ start: 0, end: 0, text: '' }]);
    const saved = file.bytes();
    const [before, after] = [packedParts(large), packedParts(saved)];
    expect([...after.keys()]).toEqual([...before.keys()]);
    for (const [name, part] of before) {
      if (name === SHEET) continue;
      expect(after.get(name), name).toEqual(part);
    }
    // A general library reads what was written here, check sums and all.
    expect(unzipSync(saved)).toEqual(unzipSync(large));
  });

  it('of a new file are packed as a general library packs them', () => {
    const file = new Package();
    file.add('a.xml', undefined, '<a/>');
    file.add('ä.xml', undefined, '<ä>ö</ä>');
    const bytes = file.bytes();
    const known = unzipSync(bytes);
    const mtime = new Date(1980, 0, 1);
    expect(bytes).toEqual(zipSync(known, { level: 6, mtime }));
    expect(strFromU8(known['ä.xml'] as Uint8Array)).toBe('<ä>ö</ä>');
  });

  it('have the check sum of the format', () => {
    // The check value of CRC-32/ISO-HDLC, as catalogues of check sums give it for these nine figures.
    expect(crc32(strToU8('123456789'))).toBe(0xcbf43926);
    expect(crc32(strToU8('6789'), crc32(strToU8('12345')))).toBe(0xcbf43926);
  });

  it('come in pieces that are the whole text', () => {
    const file = Package.open(large);
    expect([...file.pieces(SHEET)].join('')).toBe(Package.open(large).text(SHEET));
    const utf16 = (text: string): Uint8Array =>
      Uint8Array.from([0xff, 0xfe, ...[...text].flatMap((sign) => [sign.charCodeAt(0), 0])]);
    const wide = zipSync({
      ...unzipSync(large),
      [SHEET]: utf16(Package.open(large).text(SHEET).replace('UTF-8', 'UTF-16')),
    });
    expect([...Package.open(wide).pieces(SHEET)].join('')).toBe(Package.open(wide).text(SHEET));
  });
});

describe('rows of a sheet, one after the other', () => {
  const books = [...writersWorkbooks(), { name: 'large', bytes: large }];

  it.each(books)('are the rows and places of the whole: $name', ({ bytes }) => {
    const file = Package.open(bytes);
    for (const { part } of readWorkbookParts(file).sheets) {
      const rows: SheetRow[] = [];
      const { root } = atOnce(eachRow(file, part, (row) => rows.push(row), { placed: true }));
      const whole = readSheetCells(file, part);
      expect(rows).toEqual(whole.rows);
      const others = (all: readonly object[]) =>
        all.filter((one) => (one as { name: string }).name !== 'sheetData');
      expect(others(root.children)).toEqual(others(whole.root.children));
    }
  });

  it('have shared formulas as the library moves them', () => {
    const shared = [
      'F2*G2',
      "SUM($A$1:A2)&'Other sheet'!B$2",
      'LOG10(C2)+IF(B2>1,"A1",T1)',
      'SUM(A:A)/2:2',
      'Rate*A2',
      'A1#+1',
    ];
    const sheet = strFromU8(unzipSync(large)[SHEET] as Uint8Array);
    shared.forEach((formula) => {
      const written = formula.replaceAll('&', '&amp;').replaceAll('>', '&gt;');
      const xml = sheet
        .replace(/<sheetData>.*<\/sheetData>/s, '<sheetData>$</sheetData>')
        .replace(
          '$',
          () =>
            `<row r="5"><c r="C5"><f t="shared" si="0" ref="C5:D9">${written}</f></c><c r="D5"><f t="shared" si="0"/></c></row><row r="9"><c r="B9"><f t="shared" si="0"/></c></row>`,
        );
      const file = Package.open(zipSync({ ...unzipSync(large), [SHEET]: strToU8(xml) }));
      const cells = readSheetCells(file, SHEET).rows.flatMap((row) => row.cells);
      expect(cells.map((cell) => cell.formula)).toEqual(
        cells.map((cell) => translated(formula, { row: 4, column: 2 }, cell)),
      );
    });
  });
});
