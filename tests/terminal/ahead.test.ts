import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FishReport } from '../../src/ahead/fish-report';
import { demoFarm } from '../../src/plan/demo-farm';

interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

const run = (...args: string[]): Promise<Said> =>
  new Promise((done) => {
    execFile(
      process.execPath,
      [resolve('node_modules/tsx/dist/cli.mjs'), resolve('src/terminal/main.ts'), 'ahead', ...args],
      { maxBuffer: 1 << 26 },
      (fault, out, err) => done({ code: fault ? Number(fault.code) : 0, out, err }),
    );
  });

let folder: string;
const at = (name: string): string => join(folder, name);
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gillbed-ahead-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('ahead --fish', () => {
  it('plans the tanks of a farm file and reports groups, moves, sales, densities, objective and bound', async () => {
    const farm = {
      ...demoFarm,
      tanks: demoFarm.tanks.map((tank, n) =>
        n === 2 ? { ...tank, species: 'common carp' } : tank,
      ),
    };
    writeFileSync(at('farm.json'), JSON.stringify(farm));
    const { code, out, err } = await run(
      at('farm.json'),
      '--fish',
      '--weeks',
      '16',
      '--without',
      'tank 5',
      '--json',
      at('report.json'),
    );
    expect(err).toBe('');
    expect(code).toBe(0);
    const report = JSON.parse(readFileSync(at('report.json'), 'utf8')) as FishReport & {
      farm: string;
    };
    expect(report.farm).toBe('Quillwater');
    expect(report.leftOut.map(({ tank }) => tank)).toEqual(['Tank 3', 'Tank 5']);
    expect(report.density).toHaveLength(17);
    for (const { tanks } of report.density) {
      expect(Object.keys(tanks)).toEqual(['Tank 1', 'Tank 2', 'Tank 4']);
      for (const density of Object.values(tanks)) expect(density).toBeLessThanOrEqual(60.005);
    }
    // The fullest tank on the first day: 620 fish of 640 g in 7,800 L.
    expect(report.density[0]?.tanks['Tank 1']).toBeCloseTo((620 * 640) / 7800, 1);
    expect(report.sales.length).toBeGreaterThan(0);
    for (const { fish, weight, kg } of report.sales)
      expect(kg).toBeCloseTo((fish * weight) / 1000, 0);
    expect(report.objective).toBeLessThanOrEqual(report.bound);
    expect(report.gap).toBeLessThanOrEqual(0.05);
    expect(out).toContain('No feed on the day before fish are moved or sold.');
    expect(out).toContain('Tank 3: holds common carp, not Nile tilapia.');
  });

  it.each([
    [['--demo'], /Say what to plan/],
    [['--fish'], /either a farm file/],
    [['book.xlsx', '--fish'], /cannot read or write a workbook yet/],
    [['--demo', '--fish', '--out', 'x.xlsx'], /cannot read or write a workbook yet/],
    [['--demo', '--fish', '--weeks', '3'], /--weeks takes a whole number from 4 to 104; got 3/],
    [['--demo', '--fish', '--without', 'Tank 9'], /there is no tank "Tank 9" to leave out/],
  ] as const)('%j: says what would be right', async (args, sentence) => {
    const { code, err } = await run(...args);
    expect(code).toBe(2);
    expect(err).toMatch(sentence);
  });
});
