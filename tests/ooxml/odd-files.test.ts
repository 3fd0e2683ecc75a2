import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { checkSheets } from '../../src/check/check';
import { handOver } from '../../src/handover/hand-over';
import { repair } from '../../src/handover/repair';
import { changeWorkbook } from '../../src/ooxml/change-workbook';
import { isExcelName } from '../../src/ooxml/excel-name';
import { withPlainRanges } from '../../src/ooxml/file-formula';
import { openSheets } from '../../src/ooxml/open-sheets';
import { Package } from '../../src/ooxml/package';
import { unpack } from '../../src/ooxml/unpack';
import { readWorkbookParts } from '../../src/ooxml/workbook-parts';
import { editedParts } from '../tools/edited-parts';
import { framedWorkbook } from '../tools/framed-workbook';

const SHEET = 'xl/worksheets/sheet2.xml';
const framed = framedWorkbook();

function renamedParts(rename: (name: string) => string): Uint8Array {
  const parts = unpack(framed);
  return zipSync(Object.fromEntries([...parts].map(([name, part]) => [rename(name), part])));
}

/** A part as some writers store it: two bytes a letter, the mark of byte order in front. */
function inUtf16(part: string): Uint8Array {
  const parts = unpack(framed);
  const xml = new TextDecoder().decode(parts.get(part));
  const text = `\uFEFF<?xml version="1.0" encoding="UTF-16"?>${xml}`;
  const bytes = new Uint8Array(text.length * 2);
  [...text].forEach((letter, i) => {
    bytes[2 * i] = letter.charCodeAt(0) & 255;
    bytes[2 * i + 1] = letter.charCodeAt(0) >> 8;
  });
  parts.set(part, bytes);
  return zipSync(Object.fromEntries(parts));
}

const odd: readonly (readonly [what: string, bytes: Uint8Array])[] = [
  ['backslashes between folders', renamedParts((name) => name.replaceAll('/', '\\'))],
  ['names that begin at the root', renamedParts((name) => `/${name}`)],
  ['names in other capitals', renamedParts((name) => name.replace('worksheets', 'Worksheets'))],
  ['a sheet in UTF-16', inUtf16(SHEET)],
  ['a workbook in UTF-16', inUtf16('xl/workbook.xml')],
  [
    'an entry that leads to no sheet',
    editedParts(framed, {
      'xl/workbook.xml': (xml) =>
        xml.replace('</sheets>', '<sheet name="Lost" sheetId="9" r:id="rId99"/></sheets>'),
    }),
  ],
  [
    'an address that no sheet has',
    editedParts(framed, { [SHEET]: (xml) => xml.replace('r="B2"', 'r="A0"') }),
  ],
  [
    'a coloured cell at the end of the sheet',
    editedParts(framed, {
      [SHEET]: (xml) =>
        xml.replace('</sheetData>', '<row r="1048576"><c r="XFD1048576" s="1"/></row></sheetData>'),
    }),
  ],
  [
    'a part with a prefix',
    editedParts(framed, {
      [SHEET]: (xml) => xml.replace(/<(\/?)(?=\w)/g, '<$1x:').replace('xmlns="', 'xmlns:x="'),
    }),
  ],
];

describe('files that other programs read', () => {
  it.each(odd)('%s: read, checked, handed over, repaired and changed', (_, bytes) => {
    const sums = openSheets(bytes).find(({ name }) => name === 'Sums');
    expect(sums?.values[0]?.[0]).toBe(295);
    expect(() => checkSheets(openSheets(bytes))).not.toThrow();
    expect(handOver(bytes).turned).toEqual([]);
    expect(repair(bytes).repaired).toEqual([]);
    const file = Package.open(bytes);
    const cell = { kind: 'value', value: '0042' } as const;
    changeWorkbook(file, { cells: new Map([['Sums', [{ row: 6, column: 2, cell }]]]) });
    const again = openSheets(file.bytes()).find(({ name }) => name === 'Sums');
    expect(again?.values[6]?.[2]).toBe('0042');
    expect(again?.values[0]?.[0]).toBe(295);
  });

  it('names of cells are those that spreadsheets take', () => {
    const right = [
      'pH',
      'x',
      'température',
      '水温',
      'Längs_1',
      '_a',
      '\\a',
      'XFE1',
      'A1048577',
      'T.a?',
    ];
    const wrong = [
      '',
      'A1',
      'XFD1048576',
      'R1C1',
      'R',
      'c',
      'RC',
      'TRUE',
      '1a',
      'a b',
      'a-b',
      '.a',
    ];
    expect(right.filter((name) => !isExcelName(name))).toEqual([]);
    expect(wrong.filter((name) => isExcelName(name))).toEqual([]);
    expect(isExcelName('n'.repeat(256))).toBe(false);
  });

  it('one name on two sheets means the cells of each', () => {
    const bytes = editedParts(framed, {
      'xl/workbook.xml': (xml) =>
        xml.replace(
          '</definedNames>',
          '<definedName name="Here" localSheetId="0">Log!$B$2</definedName><definedName name="Here" localSheetId="1">Sums!$C$1</definedName></definedNames>',
        ),
    });
    const book = readWorkbookParts(Package.open(bytes));
    const place = { row: 8, column: 8 };
    const read = (formula: string, sheet: string): string =>
      withPlainRanges(formula, sheet, place, book);
    expect(read('Here*2', 'Log')).toBe('Log!$B$2*2');
    expect(read('Here*2', 'Sums')).toBe('Sums!$C$1*2');
    expect(read('Log!Here*2', 'Sums')).toBe('Log!$B$2*2');
    expect(read('All_fish', 'Sums')).toBe('All_fish');
  });

  it('a part that is no text is refused with a sentence', () => {
    const parts = unpack(framed);
    parts.set(SHEET, strToU8('<worksheet'));
    expect(() => openSheets(zipSync(Object.fromEntries(parts)))).toThrow(
      `The file is damaged: its part ${SHEET} cannot be read.`,
    );
  });
});
