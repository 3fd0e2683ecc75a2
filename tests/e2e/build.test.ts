import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { runInNewContext } from 'node:vm';
import { gzipSync } from 'node:zlib';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { GillError } from '../../src/core/errors';
import { callCard } from '../../src/functions/call';
import type { Card } from '../../src/functions/card';
import { cards } from '../../src/functions/card-list';
import { type FunctionsMetadata, functionsMetadata } from '../../src/functions/metadata';
import { demoWorkbook, type DemoWorkbook } from '../../src/hosts/workbench/demo-plan';
import { unpackedSheets } from '../../src/hosts/workbench/packed-sheets';
import { openPage } from '../tools/browser';
import { builtFolder, HOSTED_BASE } from '../tools/built-folder';
import { foreignAddresses } from '../tools/foreign-addresses';
import { headerRules, headersSent } from '../tools/host-headers';
import { howMany } from '../tools/how-many';
import { manifestProblems } from '../tools/manifest-problems';
import { OFFICE } from '../tools/pane-page';
import { pngSize } from '../tools/png-size';
import { leaveBrowser, sharedBrowser } from '../tools/shared-browser';
import { serveFolder, type StaticServer } from '../tools/static-server';

/** Of the pages of the functions, which differ by their card alone, one of so many is opened. */
const EVERY = howMany(8, 1);
/** Excel waits for the functions of a workbook that is being opened: what must come before them stays small. */
const BYTES_LIMIT = 120_000;

const FOLDER = new URL(HOSTED_BASE).pathname;

let folder: string;
let files: readonly string[];
let server: StaticServer;
let browser: Browser;

beforeAll(async () => {
  folder = await builtFolder();
  files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll('\\', '/'));
  const rules = headerRules(readFileSync(join(folder, '_headers'), 'utf8'));
  // A folder of a larger site, whose host sends what the build asks of it.
  server = await serveFolder(folder, {
    under: FOLDER,
    headers: (path) => headersSent(rules, path),
  });
  browser = await sharedBrowser();
});
afterAll(async () => {
  await leaveBrowser();
  await server?.close();
});

const text = (file: string): string => readFileSync(join(folder, file), 'utf8');

describe('the folder for a hosted copy', () => {
  it('has a manifest whose every address is a file in it', () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    const around = {
      files: new Set(files),
      pixels: (path: string) => pngSize(join(folder, path)),
      base: HOSTED_BASE,
      version,
    };
    expect(manifestProblems(text('manifest.xml'), around)).toEqual([]);
  });

  it('lists every function for Excel, each with a help page that is there', () => {
    const listed = JSON.parse(text('functions.json')) as FunctionsMetadata;
    expect(listed).toEqual(functionsMetadata(cards, `${HOSTED_BASE}reference/`));
    const there = new Set(files.map((file) => `${HOSTED_BASE}${file}`));
    const without = listed.functions.filter(({ helpUrl }) => !there.has(helpUrl ?? ''));
    expect(without.map(({ id }) => id)).toEqual([]);
    for (const { id, helpUrl = '' } of listed.functions) {
      expect(text(helpUrl.slice(HOSTED_BASE.length))).toContain(`GILL.${id}`);
    }
  });

  it('holds the demo plan with the values of its own formulas', () => {
    const { program, data, sheets, farm } = JSON.parse(
      text('demo-workbook.json'),
    ) as DemoWorkbook & {
      readonly program: string;
    };
    expect(program).toMatch(/^[0-9a-f]{16,}$/);
    expect(files.some((file) => file.endsWith('.js') && text(file).includes(program))).toBe(true);
    const computed = demoWorkbook();
    const asStored = (of: unknown): unknown => JSON.parse(JSON.stringify(of));
    expect(data).toEqual(asStored(computed.data));
    expect(sheets).toEqual(computed.sheets);
    expect(farm).toBe(computed.farm);
    const contentsOf = unpackedSheets(sheets);
    const values = Object.keys(sheets).flatMap((id) => Object.keys(contentsOf(id)?.values ?? {}));
    expect(values.length).toBeGreaterThan(5000);
  });

  it("takes Office's script from Office and holds none of it", () => {
    expect(text('pane.html')).toContain(OFFICE);
    expect(files.filter((file) => /office/i.test(file))).toEqual([]);
  });

  it('includes the licences of everything that it is made of', () => {
    for (const [bundle, name] of [
      ['workbench', '@odoo/o-spreadsheet'],
      ['workbench', 'bootstrap'],
      ['workbench', 'font-awesome'],
      ['excel', '@fluentui/web-components'],
      ['excel', 'fflate'],
    ]) {
      expect(text(`licences/packages-of-${bundle}.txt`)).toMatch(
        new RegExp(`^${name} [\\d.]+: `, 'm'),
      );
    }
    const lists = ['workbench', 'excel'].map((name) => text(`licences/packages-of-${name}.txt`));
    const all = lists.join('').trim().split('\n');
    expect(
      all.filter((line) => !/: .*\b(?:MIT|ISC|Apache-2\.0|LGPL-3\.0|0BSD|OFL-1\.1)\b/.test(line)),
    ).toEqual([]);
    expect(files).toContain('licences/gillbed/LICENSE');
    expect(text('licences/@odoo/o-spreadsheet/LICENSE')).toContain('LESSER GENERAL PUBLIC LICENSE');
    expect(text('licences/mathjs/NOTICE')).toContain('math.js');
  });

  it('mentions no development address', () => {
    const speaking = files.filter((file) => /\.(?:html|js|json|xml|css)$|^_headers$/.test(file));
    expect(speaking.filter((file) => text(file).includes('localhost:3000'))).toEqual([]);
  });

  it("requests nothing from any other host, except Office's script", () => {
    const texts = files.filter((file) => /\.(?:html|css|js|json|svg)$/.test(file));
    const built = new Map(texts.map((file) => [file, text(file)]));
    expect(built.size).toBeGreaterThan(100);
    expect(foreignAddresses(built, HOSTED_BASE)).toEqual([]);
  });

  it('opens every page without an error, requesting nothing but from Office', async () => {
    const context = await browser.newContext();
    // What Office's script does outside Office is looked at below.
    await context.route(OFFICE, (route) =>
      route.fulfill({
        contentType: 'text/javascript',
        body: 'Office = { onReady: () => Promise.resolve({ host: null }), HostType: {} }; CustomFunctions = { associate() {} };',
      }),
    );
    const ofFunctions = cards.map(
      ({ id }) => `reference/${id.toLowerCase().replaceAll('.', '-')}.html`,
    );
    const passedOver = new Set(ofFunctions.filter((_, i) => i % EVERY !== 0));
    const pages = files.filter((file) => file.endsWith('.html') && !passedOver.has(file));
    expect(files).toEqual(expect.arrayContaining(ofFunctions));
    expect(pages).toContain('guides/install-in-excel.html');
    const watched = await openPage(browser, `${server.origin}${FOLDER}guides/index.html`, {
      context,
    });
    const { page, complaints, foreignRequests } = watched;
    const wrong: string[] = [];
    // One page that goes from one file to the next: each is loaded anew.
    for (const file of pages) {
      await page.goto(`${server.origin}${FOLDER}${file}`);
      // The others have nothing to fetch once they are loaded.
      if (['index.html', 'pane.html'].includes(file)) await page.waitForLoadState('networkidle');
      expect(await page.title(), file).not.toBe('');
      const foreign = foreignRequests.splice(0).filter((address) => address !== OFFICE);
      wrong.push(...[...complaints.splice(0), ...foreign].map((what) => `${file}: ${what}`));
    }
    await context.close();
    expect(wrong).toEqual([]);
  });
});

describe("the pane with Office's own script", () => {
  it('says outside Excel where it belongs', async () => {
    const context = await browser.newContext({ serviceWorkers: 'block' });
    const asked: string[] = [];
    await context.route(
      (address) => address.origin !== server.origin,
      (route) => {
        const address = route.request().url();
        asked.push(address);
        const own = address.startsWith(OFFICE.replace('office.js', ''));
        const file = address.slice(OFFICE.length - 'office.js'.length).replace(/[?#].*$/, '');
        return own
          ? route.fulfill({ path: join('node_modules/@microsoft/office-js/dist', file) })
          : route.abort();
      },
    );
    const page = await context.newPage();
    const thrown: string[] = [];
    page.on('pageerror', (error) => thrown.push(String(error)));
    await page.goto(`${server.origin}${FOLDER}pane.html`);
    await page.getByText('open Gillbed from Excel’s Home tab').waitFor();
    expect(thrown).toEqual([]);
    expect(asked).toContain(OFFICE);
    await context.close();
  });
});

describe("the pane where Office's script cannot be had", () => {
  it('says what is missing', async () => {
    const context = await browser.newContext({ serviceWorkers: 'block' });
    await context.route(OFFICE, (route) => route.abort());
    const page = await context.newPage();
    const thrown: string[] = [];
    page.on('pageerror', (error) => thrown.push(String(error)));
    await page.goto(`${server.origin}${FOLDER}pane.html`);
    await page.getByText('Gillbed needs a network').waitFor();
    expect(thrown).toEqual([]);
    await context.close();
  });
});

describe('the script that Excel waits for', () => {
  type Called = (...args: unknown[]) => unknown[][];
  const called = new Map<string, Called>();
  class ExcelError {
    constructor(
      readonly code: string,
      readonly message: string,
    ) {}
  }

  beforeAll(() => {
    const associate = (id: string, compute: Called): void => void called.set(id, compute);
    const ErrorCode = { notAvailable: '#N/A', invalidValue: '#VALUE!' };
    // The pane that the script fetches behind the functions never comes.
    const element = { setAttribute: () => undefined, appendChild: () => undefined };
    runInNewContext(text('functions.js'), {
      CustomFunctions: { associate, ErrorCode, Error: ExcelError },
      document: {
        baseURI: 'https://farm.example/',
        currentScript: { tagName: 'SCRIPT', src: 'https://farm.example/functions.js' },
        getElementsByTagName: () => [],
        createElement: () => element,
        head: element,
      },
      setTimeout: () => 0,
      clearTimeout: () => undefined,
      self: {},
    });
  });

  it('answers every example as the whole card does', () => {
    const differing = cards.filter((card) => {
      const found = card.examples.map(({ args }) => called.get(card.id)?.(...args));
      const wanted = card.examples.map(({ args }) => {
        const outcome = callCard(card, args);
        return Array.isArray(outcome) ? outcome : [[outcome]];
      });
      return JSON.stringify(found) !== JSON.stringify(wanted);
    });
    expect(differing.map(({ id }) => id)).toEqual([]);
    expect(called.size).toBe(cards.length);
  });

  it('says what is wrong in the same sentence', () => {
    const wrong = ['far too warm', 7];
    const outcome = callCard(cards.find(({ id }) => id === 'OXYGEN.FULL') as Card, wrong);
    const [[answer] = []] = called.get('OXYGEN.FULL')?.(...wrong) ?? [];
    expect(answer).toBeInstanceOf(ExcelError);
    expect((answer as ExcelError).message).toBe((outcome as GillError).message);
  });

  it('holds nothing of the cards that only a reader needs', () => {
    const script = text('functions.js');
    const prose = cards.flatMap(({ id, method, validity, examples }) =>
      [method, validity, ...examples.map(({ says }) => says)].map((words) => [id, words] as const),
    );
    // Letters alone, as the script may spell the others in another way.
    const plain = prose.filter(([, words]) => /^[\w ,.:;()-]{30,}$/.test(words));
    expect(plain.length).toBeGreaterThan(100);
    expect(plain.filter(([, words]) => script.includes(words))).toEqual([]);
  });
});

describe('what Excel waits for before it knows the functions', () => {
  it(`is at most ${BYTES_LIMIT / 1000} kB, and nothing else is asked for before`, async () => {
    const context = await browser.newContext({ serviceWorkers: 'block' });
    await context.route(OFFICE, (route) =>
      route.fulfill({
        contentType: 'text/javascript',
        // Office that never becomes ready: the functions must not wait for it.
        body: `
          Office = { onReady: () => new Promise(() => undefined) };
          known = [];
          CustomFunctions = { associate: (id) => {
            known.push(id);
            asked = performance.getEntriesByType('resource').map(({ name }) => name);
            dynamic = document.querySelectorAll('script').length;
          } };`,
      }),
    );
    const page = await context.newPage();
    await page.goto(`${server.origin}${FOLDER}pane.html`);
    await page.waitForFunction(`known.length >= ${cards.length}`);
    const found = (await page.evaluate('({ known, asked, dynamic })')) as {
      known: string[];
      asked: string[];
      dynamic: number;
    };
    await context.close();
    expect(found.known).toEqual(cards.map(({ id }) => id));
    const base = `${server.origin}${FOLDER}`;
    const own = found.asked.filter((address) => address !== OFFICE);
    expect(own.every((address) => address.startsWith(`${base}functions.js?`))).toBe(true);
    // Office's script and the one with the functions; the pane's own are added by it afterwards.
    expect(found.dynamic).toBe(2);
    const bytes = ['pane.html', 'functions.json', 'functions.js']
      .map((file) => gzipSync(readFileSync(join(folder, file))).length)
      .reduce((sum, value) => sum + value);
    console.log(`before the functions are known: ${bytes} bytes gzipped`);
    expect(bytes).toBeLessThanOrEqual(BYTES_LIMIT);
  });
});
