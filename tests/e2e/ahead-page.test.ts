import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { overflow, violations } from '../tools/axe';
import type { WatchedPage } from '../tools/browser';
import { misuseIn, openPane, tab } from '../tools/pane-page';
import { leaveBrowser, sharedBrowser, sharedServer } from '../tools/shared-browser';
import type { StaticServer } from '../tools/static-server';
import { WorkbenchPage } from '../tools/workbench-page';

let server: StaticServer;
let browser: Browser;
let workbench: WorkbenchPage | undefined;
let pane: WatchedPage | undefined;

beforeAll(async () => {
  server = await sharedServer();
  browser = await sharedBrowser();
});
afterAll(async () => {
  await leaveBrowser();
});
afterEach(async () => {
  const open = [workbench?.watched, pane];
  workbench = pane = undefined;
  for (const watched of open) {
    await watched?.close();
    expect(watched?.complaints ?? []).toEqual([]);
  }
});

const check = async (page: Page, where: string): Promise<void> => {
  expect(await violations(page), where).toEqual([]);
  expect(await overflow(page), where).toBe(0);
};

/** A way from the wishes to the plan before it is written. */
async function plan(page: Page, what: string, weeks: number): Promise<void> {
  await page.getByLabel('What is planned').selectOption({ label: what });
  await page.getByLabel('Weeks', { exact: true }).fill(String(weeks));
  await page.getByRole('button', { name: /^Plan( again)?$/ }).click();
  await page.getByRole('heading', { name: 'What it changes' }).waitFor();
}

describe('a plan of the weeks ahead', () => {
  it('is made in the workbench, cancelled, made again, written into longer registers and taken back', async () => {
    workbench = await WorkbenchPage.open(browser, server.origin, { width: 1280 });
    const { page } = workbench;
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await tab(page, 'Ahead').click();
    await page.getByRole('heading', { name: 'Plan ahead' }).waitFor();
    expect(asked.filter((url) => url.endsWith('.wasm'))).toEqual([]);

    await page.getByRole('button', { name: 'Plan again' }).click();
    await page.getByRole('button', { name: 'Cancel' }).click();
    await page.getByText('The search was ended; nothing has changed.').waitFor();
    // A browser gives a thread that computes two seconds to end by itself.
    await expect.poll(() => page.workers().length).toBe(0);

    // More rows than the register has free lines for.
    await plan(page, 'Beds', 22);
    expect(asked.some((url) => url.endsWith('.wasm'))).toBe(true);
    const says = await page.getByRole('group', { name: 'Before anything is written' }).innerText();
    const [, added = ''] = /Plantings: (\d+) rows added, marked as planned\./.exec(says) ?? [];
    expect(says).toMatch(/Plantings becomes \d+ lines longer\./);
    await check(page, 'before it is written');
    await page.getByRole('button', { name: 'Write it into the workbook' }).click();
    await page.getByText('The plan stands in the registers.').waitFor();

    // The page has read the workbook anew: all rows are in it.
    await page.getByRole('button', { name: 'Take the planner’s rows back' }).click();
    await page
      .getByText(`Plantings: ${added} rows of the planner that nobody touched taken out.`)
      .waitFor();
    await page.getByRole('button', { name: 'Take them back now' }).click();
    await page.getByText('The rows of the planner are taken back.').waitFor();
    await page.getByRole('button', { name: 'Plan', exact: true }).waitFor();
    expect(await page.getByRole('button', { name: 'Take the planner’s rows back' }).count()).toBe(
      0,
    );
  });

  it('is made and written in Excel’s pane', async () => {
    pane = await openPane(browser, server.origin, { width: 320 });
    const { page } = pane;
    await page.getByRole('button', { name: 'Look at an example farm' }).click();
    await page.getByRole('button', { name: 'Build the plan' }).click();
    await page.getByRole('button', { name: 'Build now' }).click();
    await page.getByText('The plan stands.').waitFor();
    const file = readFileSync('sample-workbooks/quillwater-live.xlsx').toString('base64');
    await page.evaluate((text) => {
      window.excel.file.bytes = Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
    }, file);
    await tab(page, 'Ahead').click();
    await page.getByRole('heading', { name: 'The tanks through the year' }).waitFor();
    await check(page, 'the weeks ahead');
    await plan(page, 'Fish', 12);
    const says = await page.getByRole('group', { name: 'Before anything is written' }).innerText();
    const [, added = ''] = /Fish log: (\d+) rows? added, marked as planned/.exec(says) ?? [];
    await check(page, 'before it is written');
    await page.getByRole('button', { name: 'Write it into the workbook' }).click();
    await page.getByText('The plan stands in the registers.').waitFor();
    const remarks = await page.evaluate(() =>
      [...window.excel.workbook.sheet('Fish log').cells.values()].filter(
        ({ value }) => typeof value === 'string' && /^fish plan /.test(value),
      ),
    );
    expect(Number(added)).toBeGreaterThan(0);
    expect(remarks).toHaveLength(Number(added));
    expect(await misuseIn(page)).toEqual([]);
  });
});
