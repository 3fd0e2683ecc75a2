import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { planWorkbook } from '../../src/plan/plan';
import { readFarm } from '../../src/plan/farm';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import { sampleFarm } from '../tools/farms';
import { farmDifferences } from '../tools/same-farm';
import { runHere as run } from '../tools/terminal';

let folder: string;
const at = (name: string): string => join(folder, name);
const farm = sampleFarm('larkfield-school');
const plan = planWorkbook(farm, { formulas: 'plain' });

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gillbed-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const written = (name: string, model: WorkbookModel): string => {
  writeFileSync(
    at(name),
    writeXlsx(model, () => 0),
  );
  return at(name);
};

it('reads the farm of a workbook into a farm file', async () => {
  const book = written('book.xlsx', plan);
  const { code, out, err } = await run('farm', book, '--out', at('farm.json'));
  expect(err).toBe('');
  expect(code).toBe(0);
  expect(out).toMatch(/tanks 2/);
  const back = readFarm(JSON.parse(readFileSync(at('farm.json'), 'utf8')));
  expect(farmDifferences(farm, back)).toEqual([]);
  // A file that is there is not written over.
  expect((await run('farm', book, '--out', at('farm.json'))).code).toBe(2);
});

it('names a wrong cell and writes nothing', async () => {
  const sheets = plan.sheets.map((sheet) => {
    if (sheet.name !== 'Tanks') return sheet;
    const rows = sheet.rows.map((row, r) =>
      row.map((cell, c) => (r === 5 && c === 1 && cell ? { ...cell, value: -5 } : cell)),
    );
    return { ...sheet, rows };
  });
  const book = written('wrong.xlsx', { ...plan, sheets });
  const { code, out } = await run('farm', book, '--out', at('wrong.json'));
  expect(code).toBe(1);
  expect(out).toMatch(/^Tanks!B6 \(Water, gal\) must be a number above 0/);
  expect(existsSync(at('wrong.json'))).toBe(false);
});

it('says of a workbook without a plan that there is none', async () => {
  const book = written('other.xlsx', { ...plan, names: [], sheets: plan.sheets.slice(-1) });
  const { code, err } = await run('farm', book, '--out', at('other.json'));
  expect(code).toBe(2);
  expect(err).toMatch(/holds no plan/);
});
