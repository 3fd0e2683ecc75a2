/** A large file on the page of the workbench, as somebody works on it. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { largeWorkbook, type LargeKind } from './large-workbook';
import { type LongStep, noteLongSteps } from './steps-shown';
import { typeAnew } from './workbench-page';

/** What was done, how long it took until the page said no more, and the steps that it took. */
export interface Doing {
  readonly what: string;
  readonly seconds: number;
  readonly steps: readonly LongStep[];
}

/** Nothing goes on any more of which the page says something. */
async function quiet(page: Page): Promise<void> {
  await page.waitForTimeout(200);
  await page.waitForFunction(
    () => !document.querySelector('[data-doing]') && !document.querySelector('[inert]'),
  );
}

async function kept(page: Page): Promise<void> {
  await page.waitForTimeout(1_000);
  await page.waitForFunction(() =>
    /^Kept/.test(document.querySelector('#kept')?.textContent ?? ''),
  );
}

async function select(page: Page, address: string): Promise<void> {
  const box = page.locator('.o-named-range-selector input');
  await box.click();
  await box.fill(address);
  await box.dispatchEvent('change');
  await page.waitForTimeout(300);
}

async function edit(page: Page, address: string, text: string): Promise<void> {
  await select(page, address);
  await typeAnew(page, text);
  await page.keyboard.press('Enter');
  await quiet(page);
}

async function press(page: Page, key: string): Promise<void> {
  await page.keyboard.press(key);
  await quiet(page);
}

async function openFile(page: Page, path: string): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open…' }).click();
  await (await chooser).setFiles(path);
  await page.locator('.o-sheet[title="Records"]').waitFor();
  await quiet(page);
}

async function save(page: Page): Promise<void> {
  const download = page.waitForEvent('download');
  await page.locator('#save').click();
  await (await download).path();
  await quiet(page);
}

async function visit(page: Page): Promise<void> {
  await page.waitForSelector('.o-grid canvas');
  await page.waitForSelector('fluent-tab');
  await quiet(page);
}

const work = (path: string): readonly (readonly [string, (page: Page) => Promise<unknown>])[] => [
  ['open', (page) => openFile(page, path)],
  ['at leisure', (page) => page.waitForTimeout(4_000)],
  ['select a column', (page) => select(page, 'E1:E70000')],
  [
    'check',
    async (page) => {
      await page.getByRole('tab', { name: 'Check' }).click();
      await page.getByRole('button', { name: 'Check the workbook' }).click();
      await page.getByText(/most pressing first|Nothing found/).waitFor();
    },
  ],
  ['first edit', (page) => edit(page, 'F6', '3')],
  ['keep', kept],
  ['second edit', (page) => edit(page, 'F7', '4')],
  ['keep again', kept],
  [
    'a row comes in',
    async (page) => {
      await select(page, 'A20');
      await page.keyboard.press('Shift+Space');
      await press(page, 'Control+Alt+=');
    },
  ],
  ['edit after it', (page) => edit(page, 'F8', '5')],
  ['keep the row', kept],
  ['undo the edit', (page) => press(page, 'Control+z')],
  ['undo the row', (page) => press(page, 'Control+z')],
  ['redo the row', (page) => press(page, 'Control+y')],
  ['keep what was done again', kept],
  ['save', save],
  [
    'found on the next visit',
    async (page) => {
      await page.reload();
      await visit(page);
    },
  ],
  ['at leisure once more', (page) => page.waitForTimeout(4_000)],
  ['first edit of the next visit', (page) => edit(page, 'F9', '6')],
  ['keep on the next visit', kept],
];

/** Works on a large file as somebody does, and tells `note` what each thing took that is wanted. */
export async function workOnLarge(
  browser: Browser,
  origin: string,
  [kind, megabytes]: readonly [LargeKind, number],
  note: (doing: Doing) => void,
  isWanted: (what: string) => boolean = () => true,
): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'gillbed-page-'));
  const path = join(folder, `${kind}.xlsx`);
  writeFileSync(path, largeWorkbook(kind, megabytes));
  const context = await browser.newContext({ serviceWorkers: 'block', acceptDownloads: true });
  try {
    const page = await context.newPage();
    page.setDefaultTimeout(300_000);
    const faults: string[] = [];
    page.on('pageerror', (fault) => faults.push(String(fault)));
    const steps = await noteLongSteps(page);
    const first = (page: Page) => page.goto(`${origin}/index.html`).then(() => visit(page));
    const wanted = work(path).filter(([what]) => isWanted(what));
    for (const [what, doing] of [['the page by itself', first] as const, ...wanted]) {
      const begun = performance.now();
      await doing(page);
      const seconds = (performance.now() - begun) / 1000;
      // A step is told of once it is over.
      await page.waitForTimeout(500);
      note({ what, seconds, steps: await steps() });
      if (faults.length > 0) throw new Error(`${what}: ${faults.join('; ')}`);
    }
  } finally {
    await context.close();
    rmSync(folder, { recursive: true });
  }
}
