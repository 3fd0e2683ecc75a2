import { strFromU8, strToU8, zipSync } from 'fflate';
import { writeXlsx } from 'hucre/xlsx';
import { beforeAll, describe, expect, it } from 'vitest';
import { handOver } from '../../src/handover/hand-over';
import { repair } from '../../src/handover/repair';
import { unpack } from '../../src/ooxml/unpack';
import { UnreadableFile } from '../../src/ooxml/unreadable-file';

let sound: Uint8Array;

beforeAll(async () => {
  const cells = new Map([
    ['0,1', { type: 'formula' as const, formula: '_xldudf_GILL_LOAD_TAN(A1)', formulaResult: 1 }],
  ]);
  sound = new Uint8Array(
    await writeXlsx({ sheets: [{ name: 'Data', rows: [[1000, null]], cells }] } as never),
  );
});

const changed = (change: (parts: Map<string, Uint8Array>) => void): Uint8Array => {
  const parts = unpack(sound);
  change(parts);
  return zipSync(Object.fromEntries(parts));
};
const edited = (part: string, edit: (xml: string) => string): Uint8Array =>
  changed((parts) =>
    parts.set(part, strToU8(edit(strFromU8(parts.get(part) ?? new Uint8Array())))),
  );

const SHEET = 'xl/worksheets/sheet1.xml';

const corpus: [string, () => Uint8Array][] = [
  ['nothing', () => new Uint8Array()],
  ['one byte', () => new Uint8Array([80])],
  ['a text file', () => strToU8('date,pH\n2026-01-01,7')],
  ['a picture', () => new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10])],
  ['an encrypted workbook or old .xls', () => new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0, 0, 0, 0])],
  ['an archive of something else', () => zipSync({ 'a.txt': strToU8('a') })],
  ['cut in the middle', () => sound.slice(0, Math.floor(sound.length / 2))],
  ['cut at the end', () => sound.slice(0, sound.length - 30)],
  ['without its workbook', () => changed((p) => p.delete('xl/workbook.xml'))],
  ['without its sheet', () => changed((p) => p.delete(SHEET))],
  ['without relationships', () => changed((p) => p.delete('_rels/.rels'))],
  [
    'without the workbook’s relationships',
    () => changed((p) => p.delete('xl/_rels/workbook.xml.rels')),
  ],
  [
    'a sheet that is no text',
    () => changed((p) => p.set(SHEET, new Uint8Array([0xff, 0xfe, 0xfd, 0]))),
  ],
  ['a sheet that ends early', () => edited(SHEET, (xml) => xml.slice(0, xml.length / 2))],
  ['a sheet without cells', () => edited(SHEET, () => '<worksheet/>')],
  ['an empty sheet part', () => edited(SHEET, () => '')],
  [
    'entities of its own',
    () =>
      edited(SHEET, (xml) => xml.replace(/<worksheet/, '<!DOCTYPE a [<!ENTITY b "c">]><worksheet')),
  ],
  [
    'entities that multiply',
    () =>
      edited(
        SHEET,
        () =>
          '<!DOCTYPE a [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]><worksheet>&b;</worksheet>',
      ),
  ],
  ['an entity that is not declared', () => edited(SHEET, (xml) => xml.replace('1000', '&farm;'))],
  [
    'elements nested without end',
    () => edited(SHEET, () => '<worksheet>'.repeat(5000) + '</worksheet>'.repeat(5000)),
  ],
  [
    'a part that expands beyond reason',
    () => changed((p) => p.set('xl/media/big.bin', new Uint8Array(60 * 1024 * 1024))),
  ],
  ['a document of another kind', () => edited('xl/workbook.xml', () => '<document/>')],
];

describe('files that cannot be worked on get a sentence', () => {
  it.each(corpus)('%s', (_, make) => {
    const bytes = make();
    for (const work of [() => handOver(bytes), () => repair(bytes)]) {
      expect(work).toThrow(UnreadableFile);
      expect(work).toThrow(/^[A-Z].{10,}\.$/);
    }
  });

  it('and the sound file that they were made from goes through', () => {
    expect(handOver(sound).turned).toHaveLength(1);
  });
});

describe('odd files that can still be worked on', () => {
  it('a formula that refers to itself', () => {
    const bytes = edited(SHEET, (xml) =>
      xml.replace('_xldudf_GILL_LOAD_TAN(A1)', '_xldudf_GILL_LOAD_TAN(B1)'),
    );
    expect(handOver(bytes).turned[0]?.became).toBe('formula');
  });

  it('a wrong type of cell', () => {
    const bytes = edited(SHEET, (xml) => xml.replace('<v>1000</v>', '<v>a thousand</v>'));
    expect(handOver(bytes).turned[0]?.became).toBe('value');
  });

  it('a shared formula without its first cell', () => {
    const bytes = edited(SHEET, (xml) =>
      xml.replace(/<f>_xldudf_GILL_LOAD_TAN\(A1\)<\/f>/, '<f t="shared" si="7"/>'),
    );
    expect(handOver(bytes).turned).toEqual([]);
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])(
    'one byte changed, place %i of 8: a result or a sentence',
    (n) => {
      const bytes = sound.slice();
      const at = Math.floor((bytes.length * n) / 9);
      bytes[at] = (bytes[at] ?? 0) ^ 0x55;
      try {
        expect(handOver(bytes).bytes.length).toBeGreaterThan(0);
      } catch (problem) {
        expect(problem).toBeInstanceOf(UnreadableFile);
      }
    },
  );
});
