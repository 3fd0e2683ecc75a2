import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { serialFromIsoText } from '../../src/core/serial-date';
import { openTraced } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { cellAddress } from '../../src/plan/addresses';
import { BookCells } from '../../src/plan/book-snapshot';
import { type Farm, readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { readBook } from '../../src/plan/read-book';
import { renew, type Renewal } from '../../src/renew/renew';
import { sampleFarm } from '../tools/farms';
import { livedIn, type OwnWork } from '../tools/lived-in-book';

/** A workbook's Feed log, by the heads of its columns. */
function feedLogOf(bytes: Uint8Array) {
  const cells = new BookCells(openTraced(bytes));
  const dates = cells.name('Feedlog_date');
  if (!dates) throw new Error('no Feed log');
  const { sheet, area } = dates;
  const headAt = (row: number, column: number): string =>
    String(cells.at({ sheet, row, column }).value);
  const columnOf = (head: string): number => {
    for (let column = 0; column < cells.width(sheet); column++)
      if (headAt(area.row - 1, column).split(',')[0] === head) return column;
    throw new Error(`no head ${head}`);
  };
  return {
    sheet,
    first: area.row,
    width: cells.width(sheet),
    columnOf,
    address: (row: number, column: number) => `${sheet}!${cellAddress(row, column)}`,
    /** The lines with a day, each as it shows under some heads. */
    lines: (...heads: string[]) => {
      const columns = heads.map(columnOf);
      const found: unknown[][] = [];
      for (let row = area.row; row < cells.end(sheet); row++)
        if (cells.at({ sheet, row, column: area.column }).value !== '')
          found.push(columns.map((column) => cells.at({ sheet, row, column }).value));
      return found;
    },
    formulas: (head: string) => {
      const column = columnOf(head);
      const found: string[] = [];
      for (let row = area.row; row < cells.end(sheet); row++) {
        const { formula } = cells.at({ sheet, row, column });
        if (formula !== undefined) found.push(`${row}: ${formula}`);
      }
      return found;
    },
  };
}
const farmOf = (bytes: Uint8Array): Farm => readBook(new BookCells(openTraced(bytes))).farm as Farm;

const larkfield = sampleFarm('larkfield-school');
const [north = '', south = ''] = larkfield.tanks.map(({ name }) => name);
// Its figures are shown in pounds: 2 lb are 0.90718474 kg by definition.
const POUND = 0.45359237;

describe('a Feed log that somebody has kept', () => {
  const written = readFarm({
    ...(JSON.parse(larkfield.file) as object),
    feedLog: [
      { date: '2026-04-01', tank: north, given: 1.5, feed: 'grower 3 mm, lot 18', remark: 'slow' },
      { date: '2026-04-01', tank: south, given: 0, remark: 'no feed: moved today' },
    ],
  });
  const book = writeXlsx(planWorkbook(written, { formulas: 'plain' }), () => 0);
  const log = feedLogOf(book);
  const day = (text: string): number => serialFromIsoText(text) as number;
  /** Two lines below those of the farm, with a line left blank, and one below the prepared ones. */
  const prepared = log.formulas('To put right').length;
  const typedAt = [log.first + 3, log.first + 4, log.first + prepared + 6];
  const typed = [
    [day('2026-04-03'), north, 2, 'grower 3 mm, lot 19', 'all eaten'],
    [day('2026-04-02'), south, 2.5, '', 'cloudy water = less'],
    [day('2026-04-04'), north, 1, 'grower 3 mm, lot 19', 'last of the bag'],
  ];
  const own = log.width;
  const seen = [log.first, log.first + 1, ...typedAt];
  const work: OwnWork = {
    columns: { [log.sheet]: ['Seen by'] },
    cells: Object.fromEntries([
      ...typedAt.flatMap((row, i) =>
        (typed[i] ?? []).flatMap((value, column) =>
          value === '' ? [] : [[log.address(row, column), value] as const],
        ),
      ),
      [log.address(log.first - 1, own), 'Seen by'],
      ...seen.map((row, i) => [log.address(row, own), `person ${i + 1}`] as const),
      [log.address(log.first - 1, own + 2), 'In half portions'],
      ...seen.map((row) => [log.address(row, own + 2), `=${cellAddress(row, 2)}/2`] as const),
    ]),
  };
  const source = livedIn(book, work);
  let renewal: Renewal;
  beforeAll(() => {
    renewal = renew(source, { changes: { tanks: larkfield.tanks.length + 1, beds: 9 } });
  });

  it('comes along line by line: day, tank, how much, which feed, remark', () => {
    expect(renewal.losses).toEqual([]);
    const { feedLog } = farmOf(renewal.bytes);
    expect(feedLog).toEqual(farmOf(source).feedLog);
    expect(feedLog.map(({ tank, remark }) => [tank, remark])).toEqual([
      [north, 'slow'],
      [south, 'no feed: moved today'],
      [north, 'all eaten'],
      [south, 'cloudy water = less'],
      [north, 'last of the bag'],
    ]);
    expect(feedLog.map(({ given }) => given)).toEqual(
      [1.5, 0, 2, 2.5, 1].map((pounds) => expect.closeTo(pounds * POUND, 9)),
    );
    expect(feedLog.map(({ feed }) => feed ?? '')).toEqual([
      'grower 3 mm, lot 18',
      '',
      ...typed.map(([, , , feed]) => feed),
    ]);
  });

  it('keeps own columns beside their lines, in the table and further right', () => {
    const now = feedLogOf(renewal.bytes);
    expect(now.lines('Remark', 'Seen by')).toEqual([
      ['slow', 'person 1'],
      ['no feed: moved today', 'person 2'],
      ['all eaten', 'person 3'],
      ['cloudy water = less', 'person 4'],
      ['last of the bag', 'person 5'],
    ]);
    // Each half is that of its own line.
    const halves = now.formulas('In half portions');
    expect(halves).toHaveLength(seen.length);
    for (const one of halves) {
      const [row = '', formula = ''] = one.split(': ');
      expect(formula).toBe(`${cellAddress(Number(row), now.columnOf('Given'))}/2`);
    }
  });

  it('has the plan’s own formula in every line, those that were typed below it included', () => {
    const now = feedLogOf(renewal.bytes);
    const says = new Set(now.formulas('To put right').map((one) => Number(one.split(':')[0])));
    const rows = now.lines('Remark').map((_, i) => now.first + i);
    expect(rows.filter((row) => !says.has(row))).toEqual([]);
  });

  it('and is the same once more, when the renewed plan is renewed', () => {
    const again = renew(renewal.bytes);
    expect(again.losses).toEqual([]);
    expect(farmOf(again.bytes).feedLog).toEqual(farmOf(renewal.bytes).feedLog);
    expect(feedLogOf(again.bytes).lines('Remark', 'Seen by')).toEqual(
      feedLogOf(renewal.bytes).lines('Remark', 'Seen by'),
    );
  });
});

it('a plan of before there was a Feed log gets one, empty and ready to be typed into', () => {
  const old = readFileSync(
    new URL('../plan/fixtures/larkfield-school-0.1.0.xlsx', import.meta.url),
  );
  expect(new BookCells(openTraced(old)).name('Feedlog_date')).toBeUndefined();
  const { bytes, losses } = renew(old);
  expect(losses).toEqual([]);
  expect(farmOf(bytes).feedLog).toEqual([]);
  const log = feedLogOf(bytes);
  expect(log.lines('Date')).toEqual([]);
  expect(log.formulas('To put right').length).toBeGreaterThanOrEqual(10);
  const typed = [serialFromIsoText('2026-04-05') as number, north, 3];
  const fed = livedIn(bytes, {
    cells: Object.fromEntries(
      typed.map((value, column) => [log.address(log.first, column), value]),
    ),
  });
  expect(farmOf(fed).feedLog).toMatchObject([{ tank: north, given: expect.closeTo(3 * POUND, 9) }]);
});
