import { readFileSync } from 'node:fs';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import ts from 'typescript';
import { withAxe } from './axe';
import { openPage, type WatchedPage } from './browser';
import type { FakeExcel, Value } from './fake-excel';

export const OFFICE = 'https://appsforoffice.microsoft.com/lib/1/hosted/office.js';

declare global {
  interface Window {
    fake: FakeExcel;
    /** Functions as the pane associated them, by id. */
    functions: Record<string, (...args: unknown[]) => unknown>;
  }
}

/** A workbook as it stands before the pane opens: its sheets' cells from A1 on. */
export type Sheets = Readonly<Record<string, readonly (readonly Value[])[]>>;

/** The workbook that only behaves like Excel, as a script; made once. */
let fakeExcel: string | undefined;

/** What stands in for Office's own script: the same globals over that workbook. */
function officeScript(sheets: Sheets, dark: boolean | undefined): string {
  fakeExcel ??= ts.transpileModule(
    readFileSync(new URL('./fake-excel.ts', import.meta.url), 'utf8'),
    { compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.CommonJS } },
  ).outputText;
  return `{
    const exports = {};
    ${fakeExcel}
    const sheets = ${JSON.stringify(sheets)};
    const fake = new exports.FakeExcel(Object.keys(sheets));
    for (const [name, cells] of Object.entries(sheets)) {
      if (cells.length > 0) {
        const box = { row: 0, column: 0, rows: cells.length, columns: cells[0].length };
        fake.write(fake.sheet(name), box, cells);
      }
    }
    window.fake = fake;
    window.Excel = fake.Excel;
    window.Office = { ...fake.Office, HostType: { Excel: 'Excel' } };
    ${dark === undefined ? '' : `Office.context.officeTheme = { isDarkTheme: ${dark} };`}
    window.functions = {};
    window.CustomFunctions = {
      ErrorCode: { invalidValue: '#VALUE!', notAvailable: '#N/A', invalidNumber: '#NUM!', divisionByZero: '#DIV/0!', nullReference: '#NULL!' },
      Error: class { constructor(code, message) { this.code = code; this.message = message; } },
      associate: (id, call) => { window.functions[id] = call; },
    };
  }`;
}

export interface PaneOptions {
  readonly width?: number;
  /** Office's theme; the system's where Office names none. */
  readonly dark?: boolean;
  readonly systemDark?: boolean;
  readonly sheets?: Sheets;
}

export interface OpenPane extends WatchedPage {
  readonly context: BrowserContext;
}

/** Opens the built pane beside a fake workbook; everything that should not happen is written down. */
export async function openPane(
  browser: Browser,
  origin: string,
  { width = 320, dark, systemDark = false, sheets = { Sheet1: [] } }: PaneOptions = {},
): Promise<OpenPane> {
  const context = await browser.newContext({
    viewport: { width, height: 800 },
    colorScheme: systemDark ? 'dark' : 'light',
    acceptDownloads: true,
  });
  await withAxe(context);
  await context.route(`${new URL(OFFICE).origin}/**`, (route) =>
    route.fulfill({ contentType: 'text/javascript', body: officeScript(sheets, dark) }),
  );
  const watched = await openPage(browser, `${origin}/pane.html`, { context });
  await watched.page.locator('#pane fluent-tab').first().waitFor();
  return watched;
}

export const tab = (page: Page, name: string) => page.getByRole('tab', { name, exact: true });

/** Opens the example farm and waits for its balance. */
export async function openExample(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Look at an example farm' }).click();
  await page.locator('.balance-chart').waitFor();
}

/** From the tab Plan to the function for the dew point and back to the list, with the keyboard alone. */
export async function dewPointByKeyboard(page: Page): Promise<void> {
  await tab(page, 'Plan').focus();
  await page.keyboard.press('ArrowRight');
  await page.getByLabel('What do you want to know?').waitFor();
  await page.keyboard.press('Tab');
  await page.keyboard.type('dew point');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'GILL.AIR.DEWPOINT' }).waitFor();
  await page.keyboard.press('Escape');
}
