import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { BedReport } from '../../src/ahead/bed-report';
import type { FishReport } from '../../src/ahead/fish-report';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planAside } from '../../src/terminal/plan-aside';
import { runHere } from '../tools/terminal';

interface Report {
  readonly farm: string;
  readonly fish: FishReport;
  readonly beds: BedReport;
}

let folder: string;
const at = (name: string): string => join(folder, name);
const reportIn = (name: string): Report => JSON.parse(readFileSync(at(name), 'utf8')) as Report;
const school = 'sample-workbooks/larkfield-school.json';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gillbed-ahead-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('ahead', () => {
  it('plans the tanks of a farm file and reports groups, moves, sales, densities, objective and bound', async () => {
    const farm = {
      ...demoFarm,
      tanks: demoFarm.tanks.map((tank, n) =>
        n === 2 ? { ...tank, species: 'common carp' } : tank,
      ),
    };
    writeFileSync(at('farm.json'), JSON.stringify(farm));
    const { code, out, err } = await runHere(
      'ahead',
      at('farm.json'),
      ...[
        '--fish',
        '--weeks',
        '10',
        '--seconds',
        '6',
        '--without',
        'tank 5',
        '--json',
        at('fish.json'),
      ],
    );
    expect(err).toBe('');
    expect(code).toBe(0);
    const { farm: name, fish: report } = reportIn('fish.json');
    expect(name).toBe('Quillwater');
    expect(report.leftOut.map(({ tank }) => tank)).toEqual(['Tank 3', 'Tank 5']);
    expect(report.density).toHaveLength(11);
    for (const { tanks } of report.density) {
      expect(Object.keys(tanks)).toEqual(['Tank 1', 'Tank 2', 'Tank 4']);
      for (const density of Object.values(tanks)) expect(density).toBeLessThanOrEqual(60.005);
    }
    // The fullest tank on the first day: 620 fish of 640 g in 7,800 L.
    expect(report.density[0]?.tanks['Tank 1']).toBeCloseTo((620 * 640) / 7800, 1);
    expect(report.sales.length).toBeGreaterThan(0);
    for (const { fish, weight, mass } of report.sales) {
      expect(mass).toBeCloseTo((fish * weight) / 1000, 0);
    }
    expect(report.objective).toBeLessThanOrEqual(report.bound);
    if (report.gap > 0.05)
      expect(report.reasons.join()).toMatch(/better plan may be possible|whole fish|ways to lead/);
    expect(out).toContain('No feed on the day before fish are moved or sold.');
    expect(out).toContain('Tank 3: holds common carp, not Nile tilapia.');
  });

  it('plans fish, then beds to their feed, in the units of the farm', async () => {
    const { code, out, err } = await runHere(
      'ahead',
      school,
      ...['--weeks', '12', '--json', at('both.json')],
    );
    expect(err).toBe('');
    expect(code).toBe(0);
    const { fish, beds } = reportIn('both.json');
    expect(fish.units).toMatchObject({ weight: 'lb', mass: 'lb', density: 'lb/gal' });
    expect(beds.units).toEqual({ area: 'ft²', feed: 'lb/day' });
    // 18 fish of 0.75 lb and 20 of 0.2 lb stand in 150 gal each.
    expect(fish.density[0]?.tanks['Tank A']).toBeCloseTo((18 * 0.75) / 150, 2);
    expect(fish.groups[1]).toMatchObject({ tank: 'Tank B', fish: 20, weight: 0.2 });
    // Beds of 8 ft by 4 ft, of which parts are planted.
    for (const { area, plants, seeds } of beds.plantings) {
      expect(area).toBeLessThanOrEqual(32.01);
      expect(seeds).toBeGreaterThanOrEqual(plants);
    }
    // The first week begins on the day of the plan, a Monday: the beds are planned to what the fish are fed then.
    expect(beds.feed[0]?.given).toBeCloseTo(fish.feed[0]?.feed ?? 0, 2);
    for (const { supply, wanted } of beds.market.flatMap(({ weeks }) => weeks)) {
      expect(supply).toBeGreaterThanOrEqual(0);
      expect(wanted).toBeGreaterThanOrEqual(0);
    }
    expect(beds.objective).toBeGreaterThanOrEqual(beds.bound ?? Infinity);
    expect(out).toMatch(/At most \d+\.\d % from the best possible plan\./);
    expect(out).not.toMatch(/ kg | °C/);
  });

  it('names the three best crops for an open bed, each with its reason', async () => {
    const { code, out } = await runHere('ahead', '--demo', '--open', 'r24');
    expect(code).toBe(0);
    const lines = out.trimEnd().split('\n');
    expect(lines).toHaveLength(6);
    expect(lines[0]).toMatch(/^1\. .*: \d+ plants, sown 2026-/);
    expect(lines[1]).toMatch(/^ {3}the market is short of/);
  });

  it('plans the beds again from a later day, keeps to an earlier report, and says what changes', async () => {
    const file = JSON.parse(readFileSync(school, 'utf8')) as object;
    writeFileSync(at('later.json'), JSON.stringify({ ...file, asOf: '2026-03-16' }));
    const before = await runHere(
      'ahead',
      school,
      ...['--beds', '--weeks', '12', '--json', at('before.json')],
    );
    expect(before.err).toBe('');
    const { code, out, err } = await runHere(
      'ahead',
      at('later.json'),
      ...['--beds', '--weeks', '10', '--again', at('before.json'), '--json', at('after.json')],
    );
    expect(err).toBe('');
    expect(code).toBe(0);
    const sown = (report: BedReport): string[] =>
      report.plantings
        .filter((one) => one.sown < '2026-03-16' && one.plantedOut >= '2026-03-16')
        .map(({ crop, plantedOut, plants }) => `${crop} ${plantedOut} ${plants}`);
    const wasSown = sown(reportIn('before.json').beds);
    expect(wasSown.length).toBeGreaterThan(0);
    expect(sown(reportIn('after.json').beds)).toEqual(wasSown);
    expect(out).toMatch(/Changes:|Nothing changes\./);
  });

  it('reads the farm from the cells of its workbook', async () => {
    const book = 'sample-workbooks/quillwater-live.xlsx';
    const fromCells = await runHere('ahead', book, '--open', 'R24');
    expect(fromCells.err).toBe('');
    expect(fromCells.out).toBe((await runHere('ahead', '--demo', '--open', 'R24')).out);
  });

  it('ends with the best plan found so far when it is interrupted', async () => {
    const said = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const farm = readFarm(demoFarm);
    let interrupted = false;
    const { beds } = await planAside({ farm, beds: { weeks: 52 }, seconds: 600 }, () => {
      if (!interrupted) process.emit('SIGINT');
      interrupted = true;
    });
    expect(said.mock.calls).toEqual([[expect.stringContaining('the best plan found so far')]]);
    said.mockRestore();
    expect(beds?.report.status).toBe('stopped');
    expect(beds?.report.reasons).toEqual(['the search was stopped before more was proven']);
    expect(beds?.report.market).toHaveLength(7);
  });

  it.each([
    [[], /either a farm file/],
    [['book.xlsx', '--fish'], /There is no file book.xlsx/],
    [['--demo', '--fish', '--weeks', '3'], /--weeks takes a whole number from 4 to 104; got 3/],
    [['--demo', '--beds', '--weeks', '7'], /--weeks takes a whole number from 8 to 60; got 7/],
    [['--demo', '--fish', '--without', 'Tank 9'], /there is no tank "Tank 9" to leave out/],
    [['--demo', '--fish', '--grade', 'Tank 1'], /--grade needs --spread/],
    [['--demo', '--fish', '--spread', '0.2'], /--spread says how to grade: add --grade/],
    [['--demo', '--beds', '--grade', 'Tank 1', '--spread', '0.2'], /--grade goes with --fish/],
    [['--demo', '--fish', '--grade', 'Tank 9', '--spread', '0.2'], /there is no tank "Tank 9"/],
    [['--demo', '--beds', '--without', 'R99'], /there is no bed "R99" to leave out/],
    [['--demo', '--fish', '--again', 'x.json'], /x\.json cannot be read/],
    [['--demo', '--beds', '--again', school], /the earlier report has no plan of beds/],
    [['--demo', '--open', 'Q24'], /there is no bed "Q24"; the nearest name is "\w24"/],
  ] as const)('%j: says what would be right', async (args, sentence) => {
    const { code, err } = await runHere('ahead', ...args);
    expect(code).toBe(2);
    expect(err).toMatch(sentence);
  });

  it('writes its rows into a copy of the farm file, and takes them back', async () => {
    const planned = await runHere(
      'ahead',
      school,
      ...['--beds', '--weeks', '10', '--seconds', '5', '--out', at('with.json')],
    );
    expect(planned.err).toBe('');
    expect(planned.out).toMatch(/with\.json: Plantings: \d+ rows? planned\./);
    const before = readFarm(JSON.parse(readFileSync(school, 'utf8')));
    const there = readFarm(JSON.parse(readFileSync(at('with.json'), 'utf8')));
    expect(there.plantings.length).toBeGreaterThan(before.plantings.length);
    expect(there.plantings.slice(0, before.plantings.length)).toEqual(before.plantings);
    const back = await runHere('ahead', at('with.json'), '--take-back', '--out', at('back.json'));
    expect(back.code).toBe(0);
    expect(readFarm(JSON.parse(readFileSync(at('back.json'), 'utf8'))).plantings).toEqual(
      before.plantings,
    );
    expect((await runHere('ahead', school, '--take-back')).err).toContain('add --out');
    expect((await runHere('ahead', school, '--out', at('x.txt'))).err).toContain(
      '.xlsx or a .json',
    );
  });
});
