import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBook } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { planWorkbook } from '../../src/plan/plan';
import { readBook } from '../../src/plan/read-book';
import { sampleFarm } from '../tools/farms';
import { livedIn } from '../tools/lived-in-book';
import { runHere as run } from '../tools/terminal';

let folder: string;
const at = (name: string): string => join(folder, name);
const farm = sampleFarm('larkfield-school');

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gillbed-'));
  const book = writeXlsx(planWorkbook(farm, { formulas: 'plain' }), () => 0);
  writeFileSync(
    at('book.xlsx'),
    livedIn(book, {
      sheets: { Mine: [[{ formula: "Tanks!B6+'Water log'!A999", value: 0 }]] },
    }),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('lists what would be lost and writes nothing until it is told to', async () => {
  const before = readFileSync(at('book.xlsx'));
  const asked = ['renew', at('book.xlsx'), '--out', at('new.xlsx'), '--tanks', '4'];
  const { code, out } = await run(...asked);
  expect(code).toBe(1);
  expect(out).toMatch(/^Mine!A1\t=Tanks!B6\+'Water log'!A999: 'Water log'!A999 has no counterpart/);
  expect(out).toMatch(/new\.xlsx was not written: one thing above/);
  expect(existsSync(at('new.xlsx'))).toBe(false);
  const told = await run(...asked, '--yes');
  expect(told.code).toBe(0);
  expect(readBook(openBook(readFileSync(at('new.xlsx')))).farm?.tanks).toHaveLength(4);
  expect(readFileSync(at('book.xlsx'))).toEqual(before);
});

it.each([
  [['--tanks', 'many'], /--tanks takes how many there are to be in all/],
  [['--plain', '--live'], /opposite things/],
  [['--day', 'soon'], /asOf must be a date/],
  [['--tanks', '1'], /more than 1: which are to go/],
])('explains for %j what would be right', async (words, says) => {
  const { code, err } = await run('renew', at('book.xlsx'), '--out', at('wrong.xlsx'), ...words);
  expect(code).toBe(2);
  expect(err).toMatch(says);
  expect(existsSync(at('wrong.xlsx'))).toBe(false);
});
