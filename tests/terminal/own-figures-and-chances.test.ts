import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSheets } from '../../src/ooxml/open-sheets';
import { readFarm } from '../../src/plan/farm';
import { runHere as run } from '../tools/terminal';

const FARM = 'sample-workbooks/quillwater.json';
let folder: string;
const at = (name: string): string => join(folder, name);
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gillbed-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('own-figures', () => {
  it('lists what the registers say beside the table', async () => {
    const { code, out, err } = await run('own-figures', FARM);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(
      /^Nile tilapia: tgc \(Growth coefficient\): .* in 6 batches .*; table 1\.1/m,
    );
    expect(out).toMatch(/^lettuce: bed_days .* 39 in 18 batches/m);
    expect(out).toMatch(/^lettuce: price, in March \(Price, EUR a piece\): .* few sales$/m);
  });

  it('puts a figure into a farm file, few batches on request alone', async () => {
    const taken = await run(
      'own-figures',
      FARM,
      '--take',
      'lettuce: bed_days = own',
      '--out',
      at('own.json'),
    );
    expect([taken.code, taken.err]).toEqual([0, '']);
    const file = JSON.parse(readFileSync(at('own.json'), 'utf8')) as object;
    expect(file).toMatchObject({
      ownFigures: [
        {
          figure: 'Days from planting out to the first cut',
          of: 'lettuce',
          batches: 18,
          mean: 39,
          use: 'own',
        },
      ],
    });
    expect(readFarm(file).crops).toMatchObject({ lettuce: { bed_days: 39 } });
    const few = ['own-figures', FARM, '--take', 'survival = blend', '--out', at('few.json')];
    expect(await run(...few)).toMatchObject({
      code: 2,
      err: expect.stringContaining('rests on 2 batches') as string,
    });
    expect((await run(...few, '--few')).code).toBe(0);
  });

  it('switches a figure in a copy of the workbook, in its own cells, and back to the table', async () => {
    const plan = [
      'plan',
      'sample-workbooks/larkfield-school.json',
      '--plain',
      '--out',
      at('s.xlsx'),
    ];
    expect((await run(...plan)).code).toBe(0);
    const rowOf = async (book: string) => {
      await run('farm', at(book), '--out', at('s.json'), '--force');
      const file = JSON.parse(readFileSync(at('s.json'), 'utf8')) as {
        ownFigures: { figure: string; of: string; use?: string; few?: string }[];
      };
      return file.ownFigures.find(
        ({ figure, of }) => figure === 'Days from sowing to planting out' && of === 'lettuce',
      );
    };
    const before = await rowOf('s.xlsx');
    expect(before?.use).toBeUndefined();
    const take = (book: string, way: string, out: string) =>
      run(
        'own-figures',
        at(book),
        '--take',
        `lettuce: transplant_days = ${way}`,
        '--few',
        '--out',
        at(out),
      );
    const own = await take('s.xlsx', 'own', 's2.xlsx');
    expect([own.code, own.err]).toEqual([0, '']);
    expect(await rowOf('s2.xlsx')).toEqual({ ...before, use: 'own', few: 'yes' });
    await take('s2.xlsx', 'table', 's3.xlsx');
    expect(await rowOf('s3.xlsx')).toEqual({ ...before, use: 'table' });
    // Nothing but the two cells has changed.
    const cells = (book: string) =>
      openSheets(readFileSync(at(book))).flatMap(({ formulas }) => formulas.flat());
    const after = cells('s2.xlsx');
    expect(cells('s.xlsx').filter((value, i) => value !== after[i])).toHaveLength(2);
  });

  it('says what is wrong with a choice', async () => {
    const choose = (take: string) =>
      run('own-figures', FARM, '--take', take, '--out', at('x.json'));
    expect((await choose('letuce: bed_days = own')).err).toContain(
      'the nearest is "lettuce: bed_days"',
    );
    expect((await choose('lettuce: bed_days = mine')).err).toContain('= blend');
    expect((await run('own-figures', FARM, '--take', 'lettuce: bed_days = own')).err).toContain(
      'go together',
    );
  });
});

describe('chances', () => {
  it('says the bands, what moves them and what they rest on', async () => {
    const { code, out, err } = await run('chances', FARM, '--weeks', '8', '--years', '100');
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Fish sold, kg: [\d.]+ \/ [\d.]+ \/ [\d.]+; moved by /m);
    expect(out).toMatch(/^Income from fish and crops, EUR: /m);
    expect(out).toMatch(
      /Growth of the fish: 5 % from batch to batch, 2 % from year to year \(6 own batches or sales\)/,
    );
  });

  it('writes a sheet into a copy, which a renewal keeps and the check calls old once the plan is another', async () => {
    const book = 'sample-workbooks/larkfield-school-plain.xlsx';
    const short = ['--weeks', '8', '--years', '100'];
    const first = await run(
      'chances',
      book,
      ...short,
      '--spread',
      'yield = 20, 5',
      '--out',
      at('1.xlsx'),
    );
    expect([first.code, first.err]).toEqual([0, '']);
    expect(first.out).toMatch(/Yield of a plant: 20 % .* 5 % .*\(as typed\)/);
    expect(first.out).toContain('written on the sheet Chances');
    const again = await run('chances', at('1.xlsx'), ...short, '--out', at('2.xlsx'));
    expect(again.out).toContain('written on the sheet Chances (2)');
    expect((await run('check', at('2.xlsx'))).out).not.toMatch(/the plan has changed since/);

    const renewed = await run(
      ...['renew', at('2.xlsx'), '--day', '2026-03-09', '--yes', '--out', at('3.xlsx')],
    );
    expect([renewed.code, renewed.err]).toEqual([0, '']);
    const sheets = (name: string) =>
      openSheets(readFileSync(at(name))).filter((sheet) => sheet.name.startsWith('Chances'));
    expect(sheets('3.xlsx')).toEqual(sheets('2.xlsx'));
    const { out } = await run('check', at('3.xlsx'));
    expect(out.match(/Chances.* the plan has changed since/g)).toHaveLength(2);
  });

  it('says what is wrong with a spread, and where a sheet has no book', async () => {
    const spread = (text: string) => run('chances', FARM, '--spread', text);
    expect((await spread('yeild = 1, 2')).err).toContain('--spread takes one of growth');
    expect((await spread('yield = 20')).err).toContain('--spread "yield = 15, 5"');
    expect((await spread('yield = 20, 70')).err).toContain('from 0 to 50 %');
    expect((await run('chances', FARM, '--out', at('x.xlsx'))).err).toContain('copy of a workbook');
  });

  it('takes whole numbers within bounds', async () => {
    expect(await run('chances', FARM, '--weeks', '4')).toMatchObject({
      code: 2,
      err: expect.stringContaining('--weeks takes a whole number from 8 to 60; got 4.') as string,
    });
  });
});
