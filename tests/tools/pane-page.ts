import { build } from 'esbuild';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { openPage, type WatchedPage } from './browser';
import { libraryFolder } from './excel-library';
import type { PaneExcelOptions, Sheets } from './pane-excel';

export type { Sheets } from './pane-excel';

export const OFFICE = 'https://appsforoffice.microsoft.com/lib/1/hosted/office.js';

/** The host and, untouched, Microsoft's library, as scripts one after the other; made once. */
let scripts: Promise<string> | undefined;

async function hostAndLibrary(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(new URL('./pane-excel.ts', import.meta.url))],
    bundle: true,
    format: 'iife',
    target: 'es2022',
    write: false,
  });
  const library = ['office.js', 'excel-web-16.00.js'].map((file) =>
    readFileSync(join(libraryFolder, file), 'utf8'),
  );
  return [...outputFiles.map(({ text }) => text), ...library].join('\n;\n');
}

/** What stands for Office's own script: the same library, with a workbook in memory for its host. */
async function officeScript(options: PaneExcelOptions): Promise<string> {
  scripts ??= hostAndLibrary();
  return `${await scripts}\n;openPaneExcel(${JSON.stringify(options)});`;
}

export interface PaneOptions {
  readonly width?: number;
  /** Office's theme; the system's where Office names none. */
  readonly dark?: boolean;
  readonly systemDark?: boolean;
  readonly sheets?: Sheets;
}

/** Opens the built pane beside a workbook in memory; everything that should not happen is written down. */
export async function openPane(
  browser: Browser,
  origin: string,
  { width = 320, dark, systemDark = false, sheets = { Sheet1: [] } }: PaneOptions = {},
): Promise<WatchedPage> {
  const body = await officeScript({ sheets, dark });
  const watched = await openPage(browser, `${origin}/pane.html`, {
    width,
    colorScheme: systemDark ? 'dark' : 'light',
    before: (context) =>
      context.route(OFFICE, (route) => route.fulfill({ contentType: 'text/javascript', body })),
  });
  await watched.page.locator('#pane fluent-tab').first().waitFor();
  return watched;
}

/** Misuse of the library or of Excel that was found in the page. */
export const misuseIn = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => window.excel.host.faults);

export const tab = (page: Page, name: string) => page.getByRole('tab', { name, exact: true });

/** Opens the example farm and waits for its balance. */
export async function openExample(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Look at an example farm' }).click();
  await page.locator('.balance-chart').waitFor();
}

/** From the tab Plan to the function for the dew point and back to the list, with the keyboard alone. */
export async function dewPointByKeyboard(page: Page): Promise<void> {
  await tab(page, 'Plan').focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
  await page.getByLabel('What do you want to know?').waitFor();
  await page.keyboard.press('Tab');
  await page.keyboard.type('dew point');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'GILL.AIR.DEWPOINT' }).waitFor();
  await page.keyboard.press('Escape');
}
