import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from '../tools/browser';
import { type PageWork, workOfOpening } from '../tools/page-work';
import type { StaticServer } from '../tools/static-server';
import { keepEmptyWorkbook } from '../tools/workbench-visit';
import { serveWorkbench, WorkbenchPage } from '../tools/workbench-page';

let server: StaticServer;
let browser: Browser;

beforeAll(async () => {
  server = await serveWorkbench();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

async function visit(isEmpty: boolean): Promise<PageWork> {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  try {
    if (isEmpty) await keepEmptyWorkbook(context, server.origin);
    return await workOfOpening(browser, await context.newPage(), `${server.origin}/index.html`);
  } finally {
    await context.close();
  }
}

/** The time itself, on a machine that does nothing else, is measured by `npm run bench`. */
it('computes little more for the demo plan than for an empty workbook before it is usable, and the rest in slices', async () => {
  const demo = await visit(false);
  const empty = await visit(true);
  // Found from 1.1 to 1.3; with all of the plan before the first look it was 3.
  expect(demo.before / empty.before).toBeLessThan(1.7);
  // What comes in after is several times as much, and goes in slices that let a key be answered between them.
  expect(demo.after).toBeGreaterThan(empty.before);
  expect(demo.longest).toBeLessThan(empty.before);
});

it('keeps a number typed right after the page is usable, and computes all that hangs on it', async () => {
  const workbench = await WorkbenchPage.open(browser, server.origin, { width: 1400 });
  await workbench.goToSheet('Fish log');
  await workbench.type('D11', '1240');
  expect(await workbench.readNumber('D11')).toBe(1240);
  // The line says so for as long as it is not computed.
  await workbench.page.getByText('Kept in this browser').waitFor();
  await workbench.goToSheet('Tanks');
  const [fish, volume, weight, density] = [
    await workbench.readNumber('D6'),
    await workbench.readNumber('B6'),
    await workbench.readNumber('E6'),
    await workbench.readNumber('I6'),
  ];
  // By the demo farm's log 30 of those that came have died.
  expect(fish).toBe(1240 - 30);
  expect(density).toBeCloseTo((fish * weight) / volume, 0);
  expect(workbench.watched.complaints).toEqual([]);
});
