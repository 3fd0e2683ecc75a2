import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { unpack } from '../../src/ooxml/unpack';
import { cards } from '../../src/functions/card-list';
import { partNames, partText } from '../tools/planted';
import { schemaFaults } from '../tools/schema';
import { runHere as run, runProgram, runScript } from '../tools/terminal';

let folder: string;
const at = (name: string): string => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gillbed-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('ask', () => {
  it.each([
    // Published values: UF/IFAS FA16 worked example; Emerson et al. 1975 at 25 degC; FAO 589 leafy 45 g/m2/day.
    ['GILL.AMMONIA.UNIONISED(1,8,24)', 0.0502, 0.0002],
    ['=GILL.AMMONIA.UNIONISED(1,8,25)', 0.0537, 0.00005],
    ['GILL.AMMONIA.UNIONISED(1, 8, "75.2 degF")', 0.0502, 0.0002],
    ['GILL.FEED.AREA(1000,50)', 20, 1e-9],
    ['GILL.STOCK.LIMIT(7800,813.8,61.5)', 589, 0],
    ['GILL.SOW.OFFSET("lettuce","first cut")', 51, 0],
    ['ROUND(SUM(GILL.LOAD.TAN(1000,0.35),1),1)', 33.2, 1e-9],
  ])('%s', async (formula, expected, tolerance) => {
    const { code, out, err } = await run('ask', formula);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(Math.abs(Number(out) - expected)).toBeLessThanOrEqual(tolerance);
  });

  it.each([
    ['how many fish can I put in a 1000 litre tank', 'GILL.STOCK.LIMIT(1000,500)'],
    ['is my ammonia too high', 'GILL.AMMONIA.UNIONISED(1,8,24)'],
    ['how long will my fish live in a power cut', 'GILL.OXYGEN.MINUTES(1000,6,2,12.5)'],
    ['what is my break even price', 'GILL.MONEY.BREAKEVEN(41.09,13)'],
  ])('answers "%s" with formulas to be changed', async (question, formula) => {
    const { code, out, err } = await run('ask', question);
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain(`ask '${formula}'`);
  });

  it('says what is wrong with a formula that cannot be read, and what ask takes', async () => {
    expect((await run('ask', 'GILL.AMMONIA.UNIONISED(1,8,25')).err).toMatch(
      /cannot be read: a bracket may be missing/,
    );
    expect((await run('ask', 'xyzzy plugh')).err).toMatch(/ask takes a formula, such as GILL\./);
  });

  it('prints a date as a date and a block as tab-separated rows', async () => {
    expect((await run('ask', 'GILL.SOW.DATE("2026-06-01","lettuce")')).out.trim()).toBe(
      '2026-04-11',
    );
    const rows = (await run('ask', 'GILL.GROWTH.CURVE(50,14,7,26)')).out.trim().split('\n');
    expect(rows).toHaveLength(3);
    expect(rows.every((row) => row.split('\t').length === 3)).toBe(true);
  });

  it.each([
    ['GILL.AMMONIA.UNIONISED(1,78,25)', '#VALUE! ph must be between 0 and 14; got 78'],
    [
      'GILL.SOW.OFFSET("lettus","clear")',
      '#N/A crop: no crop is called "lettus"; the nearest name is "lettuce"',
    ],
    ['GILL.FLOW.OXYGEN(100,5,6)', '#NUM!'],
    ['FEED.AREA(1000,50)', '#NAME? there is no function FEED.AREA; Gillbed has GILL.FEED.AREA'],
    ['1+feed.aria(1000,50)', 'Gillbed has GILL.FEED.AREA'],
    ['XLOOKUPS(1)', '#NAME? there is no function XLOOKUPS\n'],
  ])('%s: code and sentence on standard error, status 1', async (formula, said) => {
    const { code, out, err } = await run('ask', formula);
    expect(code).toBe(1);
    expect(out).toBe('');
    expect(err).toContain(said);
  });
});

describe('the terminal as a program', () => {
  it('answers, with its exit status and nothing beside the answer', async () => {
    expect(await runProgram(['ask', 'GILL.FEED.AREA(1000,50)'])).toEqual({
      code: 0,
      out: '20\n',
      err: '',
    });
    expect(await runProgram(['ask', 'GILL.AMMONIA.UNIONISED(1,78,25)'])).toEqual({
      code: 1,
      out: '',
      err: '#VALUE! ph must be between 0 and 14; got 78\n',
    });
    expect(await runProgram(['nonsense'])).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringContaining('nonsense') as unknown,
    });
  });

  it('answers the same as the script of the package', async () => {
    const words = ['ask', 'GILL.AMMONIA.UNIONISED(1, 8, "75.2 degF")'];
    expect(await runScript(words)).toEqual(await runProgram(words));
  });
});

describe('functions', () => {
  it('--json prints the whole catalogue with parameters, units, ranges, sources and examples', async () => {
    const { code, out } = await run('functions', '--json');
    expect(code).toBe(0);
    const list = JSON.parse(out) as Record<string, unknown>[];
    expect(list.map((record) => String(record['id']).replace('GILL.', ''))).toEqual(
      cards.map((card) => card.id),
    );
    for (const record of list) {
      for (const key of ['summary', 'parameters', 'sources', 'examples', 'method', 'validity']) {
        expect(record).toHaveProperty(key);
      }
    }
  });

  it('tells all about one, and the nearest name of one that is not there', async () => {
    expect((await run('functions', 'AMMONIA.UNIONISED')).out).toContain('Emerson');
    const { code, err } = await run('functions', 'AMONIA.UNIONISED');
    expect(code).toBe(2);
    expect(err).toContain('AMMONIA.UNIONISED');
  });
});

/** The smallest of the samples: what the plan of the demo holds is the matter of other tests. */
const SCHOOL = 'sample-workbooks/larkfield-school.json';

describe('plan, check, handover and repair', () => {
  it('plan writes a live workbook with functions as Excel stores them, and never over a file', async () => {
    expect((await run('plan', SCHOOL, '--out', at('school.xlsx'))).code).toBe(0);
    const parts = unpack(readFileSync(at('school.xlsx')));
    const text = [...parts]
      .filter(([name]) => name.includes('worksheets/sheet'))
      .map(([, bytes]) => new TextDecoder().decode(bytes))
      .join('');
    expect(text).toContain('_xldudf_GILL_FEED_DAY(');
    expect(text).not.toContain('GILL.FEED.DAY(');
    const again = await run('plan', SCHOOL, '--out', at('school.xlsx'));
    expect(again.code).toBe(2);
    expect(again.err).toContain('--force');
  });

  it('plan --add-in names the add-in of the manifest, in the place where the recipient has it', async () => {
    const manifest = readFileSync('manifest.xml', 'utf8');
    const id = /<Id>(.+?)</.exec(manifest)?.[1];
    const version = /<Version>(.+?)</.exec(manifest)?.[1];
    const { code, out } = await run(
      ...['plan', SCHOOL, '--out', at('offered.xlsx'), '--add-in', '\\\\server\\add-ins'],
    );
    expect(code).toBe(0);
    expect(out).toContain('offers the pane');
    const file = readFileSync(at('offered.xlsx'));
    expect(partText(file, 'xl/webextensions/webextension1.xml')).toContain(
      `<we:reference id="${id}" version="${version}" store="\\\\server\\add-ins" storeType="FileSystem"/>`,
    );
    expect(schemaFaults(file)).toBe('');
    // Nothing of it is left in a copy that needs no Gillbed.
    await run('handover', at('offered.xlsx'), '--out', at('offered-plain.xlsx'));
    expect(partNames(readFileSync(at('offered-plain.xlsx'))).join()).not.toContain('webextension');
  });

  it.each([
    [['--add-in', 'everywhere'], '--add-in takes organisation, sideloaded'],
    [['--add-in', 'organisation', '--plain'], 'leave one of them out'],
  ])('plan %j is answered by a sentence', async (more, said) => {
    const { code, err } = await run('plan', '--demo', '--out', at('never.xlsx'), ...more);
    expect(code).toBe(2);
    expect(err).toContain(said);
    expect(existsSync(at('never.xlsx'))).toBe(false);
  });

  it('plan says of a wrong farm file which field is wrong and what would be right', async () => {
    const farm = JSON.parse(readFileSync(resolve('sample-workbooks/quillwater.json'), 'utf8')) as {
      site: { latitude: unknown };
    };
    farm.site.latitude = 95;
    writeFileSync(at('wrong.json'), JSON.stringify(farm));
    const { code, err } = await run('plan', at('wrong.json'), '--out', at('wrong.xlsx'));
    expect(code).toBe(2);
    expect(err).toContain('site.latitude');
    expect(existsSync(at('wrong.xlsx'))).toBe(false);
  });

  it('check: status 1 and findings as text or JSON', async () => {
    const { code, out } = await run('check', at('school.xlsx'), '--json');
    expect(code).toBe(1);
    const findings = JSON.parse(out) as {
      what: string;
      sheet: string;
      address: string;
      remedy: string;
    }[];
    expect(findings.length).toBeGreaterThan(0);
    for (const finding of findings) expect(finding.remedy.length).toBeGreaterThan(10);
    expect((await run('check', at('school.xlsx'))).out).toContain(findings[0]?.what);
  });

  it('why: the chain of a cell in words, and which cell was meant where there is none', async () => {
    const { code, out, err } = await run('why', at('school.xlsx'), 'Site!B16');
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Site!B16, Air that vents or fans must move: 5,300 cfm/);
    expect(out).toContain('Source: ');
    expect(out).toMatch(/a tenth more \(5,830 ft³\) gives 5,830 cfm/);
    const wrong = await run('why', at('school.xlsx'), 'Sight!B16');
    expect([wrong.code, wrong.err]).toEqual([
      2,
      expect.stringContaining('There is no sheet "Sight"'),
    ]);
  });

  it('handover: a copy without GILL calls; the input stays, and is never written over', async () => {
    const before = readFileSync(at('school.xlsx'));
    const { code, out } = await run('handover', at('school.xlsx'), '--out', at('client.xlsx'));
    expect(code).toBe(0);
    expect(out).toMatch(/GILL formulas, \d+ now plain, 0 now values/);
    expect(readFileSync(at('school.xlsx')).equals(before)).toBe(true);
    const self = await run('handover', at('school.xlsx'), '--out', at('school.xlsx'), '--force');
    expect(self.code).toBe(2);
    expect(readFileSync(at('school.xlsx')).equals(before)).toBe(true);
    expect((await run('handover', at('client.xlsx'), '--out', at('twice.xlsx'))).out).toContain(
      '0 GILL formulas',
    );
  });

  it('returned: what was typed otherwise, and a copy of the own workbook with it', async () => {
    const same = await run('returned', at('school.xlsx'), at('client.xlsx'));
    expect([same.code, same.out]).toEqual([
      0,
      expect.stringMatching(/^0 of \d{3,} typed cells differ\.\s$/),
    ]);
    const wrong = await run('returned', at('school.xlsx'));
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('OWN.xlsx BACK.xlsx')]);
  });

  it('repair: nothing to mend in a sound workbook', async () => {
    const { code, out } = await run('repair', at('school.xlsx'), '--out', at('mended.xlsx'));
    expect(code).toBe(0);
    expect(out).toContain('0 formulas mended');
  });

  it.each(['check', 'handover', 'repair'])(
    '%s: a damaged file gets a sentence and status 2, and nothing is left behind',
    async (command) => {
      writeFileSync(at('damaged.xlsx'), readFileSync(at('school.xlsx')).subarray(0, 9000));
      const before = readdirSync(folder);
      const args = command === 'check' ? [] : ['--out', at('never.xlsx')];
      const { code, err } = await run(command, at('damaged.xlsx'), ...args);
      expect(code).toBe(2);
      expect(err).toContain('damaged');
      expect(readdirSync(folder)).toEqual(before);
    },
  );

  it.each([
    [['nonsense'], 'nonsense'],
    [['plan'], 'plan takes'],
    [['handover', 'x.xlsx'], '--out'],
    [['check', 'not-there.xlsx'], 'There is no file'],
    [['ask'], 'ask takes a formula'],
  ])('%j is answered by a sentence', async (args, said) => {
    const { code, err } = await run(...args);
    expect(code).toBe(2);
    expect(err).toContain(said);
  });
});
