import { beforeAll, describe, expect, it } from 'vitest';
import { computedValues } from '../../src/engine/engine';
import { handOver } from '../../src/handover/hand-over';
import { compareReturned, NotComparable, takenOver } from '../../src/handover/returned';
import { typedOfBook } from '../../src/handover/typed-places';
import type { CellChange } from '../../src/ooxml/cell-changes';
import { changeWorkbook } from '../../src/ooxml/change-workbook';
import { openTraced } from '../../src/ooxml/open-book';
import { Package } from '../../src/ooxml/package';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { BookCells, placeText, type FoundCell } from '../../src/plan/book-snapshot';
import { planWorkbook } from '../../src/plan/plan';
import { sampleFarm } from '../tools/farms';
import { convert } from '../tools/libreoffice';
import { partText } from '../tools/planted';
import { schemaFaults } from '../tools/schema';
import { computed, smallBook, smallSheet, typed, word } from '../tools/small-book';

const plan = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'live' });
const own = writeXlsx(plan, computedValues(plan));
const sent = handOver(own, { typedOnly: true, folded: true });

/** Writes other values into cells, as a client's program does. */
function typedInto(
  bytes: Uint8Array,
  cells: readonly FoundCell[],
  values: readonly (number | string)[],
) {
  const file = Package.open(bytes);
  const changes = new Map<string, CellChange[]>();
  cells.forEach(({ sheet, row, column }, i) => {
    const value = values[i] as number | string;
    changes.set(sheet, [
      ...(changes.get(sheet) ?? []),
      { row, column, cell: { kind: 'value', value } },
    ]);
  });
  changeWorkbook(file, { cells: changes });
  return file.bytes();
}

describe('a plan that was sent, filled in with LibreOffice and came back', () => {
  const places = [...(typedOfBook(new BookCells(openTraced(sent.bytes))) ?? [])];
  const filled = places.filter(
    ([key, { value, formula }]) =>
      typeof value === 'number' && formula === undefined && !/^(?:Crop|Fish)_/.test(key),
  );
  // Thirty of them, spread over all sheets, and each a little more than it was.
  const step = Math.floor(filled.length / 30);
  const chosen = filled
    .filter((_, i) => i % step === 0)
    .slice(0, 30)
    .map(([, cell]) => cell);
  // To fifteen digits, which is what a spreadsheet keeps.
  const values = chosen.map(({ value }) => Number((Number(value) + 1).toPrecision(15)));
  let back: Uint8Array;

  beforeAll(() => {
    const changed = typedInto(sent.bytes, chosen, values);
    back = convert(new Map([['back.xlsx', changed]]), 'xlsx').get('back.xlsx') as Uint8Array;
  });

  it('shows all thirty changes, by label, and no other', () => {
    expect(chosen).toHaveLength(30);
    expect(new Set(chosen.map(({ sheet }) => sheet)).size).toBeGreaterThan(4);
    const { differences, elsewhere } = compareReturned(openTraced(own), openTraced(back));
    expect(elsewhere).toEqual([]);
    expect(differences.map(({ where }) => where).sort()).toEqual(chosen.map(placeText).sort());
    for (const { where, was, now, label } of differences) {
      const i = chosen.findIndex((cell) => placeText(cell) === where);
      expect([was, now]).toEqual([chosen[i]?.value, values[i]]);
      expect(label).not.toBe('');
    }
  });

  it('is taken into the own workbook, which stays live', () => {
    const { differences } = compareReturned(openTraced(own), openTraced(back));
    const mine = takenOver(own, differences);
    const cells = new BookCells(openTraced(mine));
    chosen.forEach((cell, i) => expect(cells.at(cell).value).toBe(values[i]));
    expect(compareReturned(openTraced(mine), openTraced(back)).differences).toEqual([]);
    const formulas = (bytes: Uint8Array) =>
      openTraced(bytes).sheets.map((sheet) =>
        sheet.formulas.flat().filter((one) => String(one).startsWith('=')),
      );
    expect(formulas(mine)).toEqual(formulas(own));
    expect(schemaFaults(mine)).toBe('');
  });
});

describe('a copy in which only typed cells can be changed', () => {
  it('is protected without a password, its typed cells open, its helpers hidden', () => {
    expect(schemaFaults(sent.bytes)).toBe('');
    const file = Package.open(sent.bytes);
    const parts = file.names.filter((name) => /worksheets\/[^/]+\.xml$/.test(name));
    for (const part of parts) {
      const xml = partText(sent.bytes, part);
      expect(xml, part).toMatch(/<sheetProtection [^>]*sheet="1"/);
      expect(xml, part).not.toMatch(/password|hashValue/);
    }
    const book = partText(sent.bytes, 'xl/workbook.xml');
    expect(book).toMatch(/<sheet [^>]*name="Steps"[^>]*state="hidden"/);
    const styles = partText(sent.bytes, 'xl/styles.xml');
    expect(styles).toMatch(/<protection locked="0"\/>/);
    expect(sent.notes.join()).toMatch(/Only the \d+ cells that are typed into can be changed/);
  });

  it('leaves a copy unprotected where nobody asked for it', () => {
    expect(partText(handOver(own).bytes, 'xl/worksheets/sheet1.xml')).not.toContain(
      'sheetProtection',
    );
  });
});

describe('workbooks without a plan', () => {
  const rows = (length: number | string, extra?: string) => [
    [word('Length'), typeof length === 'number' ? typed(length) : word(length), word('m')],
    [word('Double'), computed('B1*2')],
    ...(extra === undefined ? [] : [[word(extra)]]),
  ];
  const bookOf = (...given: Parameters<typeof rows>) =>
    openTraced(writeXlsx(smallBook([smallSheet('Trough', rows(...given))]), () => 16));

  it('are compared cell by cell', () => {
    const { differences } = compareReturned(bookOf(8), bookOf(9, 'A remark'));
    expect(differences.map(({ where, shownWas, shownNow }) => [where, shownWas, shownNow])).toEqual(
      [
        ['Trough!B1', '8 m', '9 m'],
        ['Trough!A3', 'blank', '"A remark"'],
      ],
    );
  });

  it('accept no words in place of a number', () => {
    const [difference] = compareReturned(bookOf(8), bookOf('nine')).differences;
    expect(difference?.refused).toMatch(/words where a number stood/);
    const bytes = writeXlsx(smallBook([smallSheet('Trough', rows(8))]), () => 16);
    const kept = openTraced(takenOver(bytes, difference ? [difference] : []));
    expect(kept.sheets[0]?.values[0]?.[1]).toBe(8);
  });

  it('are refused beside a plan', () => {
    expect(() => compareReturned(openTraced(own), bookOf(8))).toThrow(NotComparable);
  });
});
