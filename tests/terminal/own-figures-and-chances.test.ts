import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
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
    const file = JSON.parse(readFileSync(at('own.json'), 'utf8')) as { crops: object };
    expect(file.crops).toMatchObject({ lettuce: { bed_days: 39 } });
    const few = ['own-figures', FARM, '--take', 'survival = blend', '--out', at('few.json')];
    expect(await run(...few)).toMatchObject({
      code: 2,
      err: expect.stringContaining('rests on 2 batches') as string,
    });
    expect((await run(...few, '--few')).code).toBe(0);
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

  it('takes whole numbers within bounds', async () => {
    expect(await run('chances', FARM, '--weeks', '4')).toMatchObject({
      code: 2,
      err: expect.stringContaining('--weeks takes a whole number from 8 to 60; got 4.') as string,
    });
  });
});
