import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { demoFarm } from '../../src/plan/demo-farm';
import { leaveBrowser, sharedBrowser, sharedServer } from '../tools/shared-browser';
import type { StaticServer } from '../tools/static-server';
import { WorkbenchPage } from '../tools/workbench-page';

/** Tank 1 of the demo farm: its fish, and what is computed from them. */
const FISH = 'D6';
/** How many came into it, in the Fish log. */
const CAME = 'D11';
const DENSITY = 'I6';
const FEED = 'M6';
const FREE_CELL = 'B40';

let server: StaticServer;
let browser: Browser;
let workbench: WorkbenchPage;
let folder: string;

/** Opened once: each test goes on in the workbook as the one before left it, or brings its own. */
beforeAll(async () => {
  server = await sharedServer();
  browser = await sharedBrowser();
  folder = mkdtempSync(join(tmpdir(), 'gillbed-'));
  workbench = await WorkbenchPage.open(browser, server.origin, { width: 1400 });
});
afterAll(async () => {
  await workbench?.watched.close();
  await leaveBrowser();
  if (folder) rmSync(folder, { recursive: true, force: true });
});
afterEach(() => {
  expect(workbench.watched.complaints).toEqual([]);
  expect(workbench.watched.foreignRequests).toEqual([]);
});

describe('the workbench for a grower', () => {
  // First, as the page waits the longer before it keeps its work the longer the last time took.
  it('starts over with the demo plan once the grower agrees', async () => {
    const { page } = workbench;
    await workbench.goToSheet('Fish log');
    const before = await workbench.readNumber(CAME);
    // The name box given the cell that is selected already opens it for editing.
    await workbench.select('A1');
    await workbench.type(CAME, String(before + 7));
    await page.getByText('Kept in this browser').waitFor();
    await page.getByRole('button', { name: 'Start again' }).first().click();
    await page.getByRole('button', { name: 'Keep my work' }).click();
    expect(await workbench.readNumber(CAME)).toBe(before + 7);
    await page.getByRole('button', { name: 'Start again' }).first().click();
    await page.getByRole('button', { name: 'Remove my work' }).click();
    await page.getByText('Kept in this browser').waitFor({ state: 'detached' });
    await page.reload();
    await workbench.ready();
    await workbench.goToSheet('Fish log');
    expect(await workbench.readNumber(CAME)).toBe(demoFarm.fishLog[5]?.fish);
  });

  it('lets density, feed and the Start sheet follow the stocking of a tank', async () => {
    await workbench.goToSheet('Start');
    const standing = await workbench.readNumber('B6');
    await workbench.goToSheet('Tanks');
    const [fish, density, feed] = [
      await workbench.readNumber(FISH),
      await workbench.readNumber(DENSITY),
      await workbench.readNumber(FEED),
    ];
    const volume = await workbench.readNumber('B6');
    const weight = await workbench.readNumber('E6');
    await workbench.goToSheet('Fish log');
    const came = await workbench.readNumber(CAME);
    await workbench.type(CAME, String(came + fish));
    await workbench.goToSheet('Tanks');
    // As shown, to the decimals of its format.
    expect(await workbench.readNumber(DENSITY)).toBeCloseTo((2 * fish * weight) / volume, 0);
    expect(await workbench.readNumber(DENSITY)).toBeGreaterThan(density);
    expect(Math.abs((await workbench.readNumber(FEED)) - 2 * feed)).toBeLessThanOrEqual(1.5);
    await workbench.goToSheet('Start');
    const more = (await workbench.readNumber('B6')) - standing;
    expect(Math.abs(more - (fish * weight) / 1000)).toBeLessThanOrEqual(1);
  });

  it('offers a function with its arguments while it is typed, and computes it', async () => {
    const { page } = workbench;
    await workbench.goToSheet('Tanks');
    await workbench.select(FREE_CELL);
    await page.keyboard.type('=GILL.STOCK.L');
    await page.locator('.o-autocomplete-dropdown').getByText('GILL.STOCK.LIMIT').first().waitFor();
    await page.keyboard.type('IMIT(');
    await page
      .locator('.o-formula-assistant')
      .getByText('weight', { exact: false })
      .first()
      .waitFor();
    // Capacity is density times volume over weight: 20 kg/m3 x 1000 L / 500 g = 40 fish.
    await page.keyboard.type('1000,500,20)');
    await page.keyboard.press('Enter');
    expect(await workbench.readNumber(FREE_CELL)).toBe(40);
  });

  it('shows #VALUE! for a wrong argument, and its sentence under the pointer', async () => {
    const { page } = workbench;
    await workbench.goToSheet('Start');
    await workbench.type('E5', '=GILL.AMMONIA.UNIONISED(1,72,24)');
    expect(await workbench.read('E5')).toEqual([['#VALUE!']]);
    await workbench.hover('E5');
    await page.locator('.o-error-tooltip').getByText(/72/).first().waitFor();
  });

  it('opens a farm file', async () => {
    const { page } = workbench;
    const path = join(folder, 'farm.json');
    writeFileSync(path, JSON.stringify({ ...demoFarm, name: 'Reed Pool Greens' }));
    await page.locator('#file').setInputFiles(path);
    await page.locator('.o-sheet[title="Start"]').waitFor();
    await expect
      .poll(async () => {
        await workbench.goToSheet('Start');
        return workbench.read('A1');
      })
      .toEqual([['Reed Pool Greens']]);
  });

  it('opens without a network after the first visit', async () => {
    const { page, context } = workbench.watched;
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await context.setOffline(true);
    await page.reload();
    await workbench.ready();
    expect(await workbench.sheetNames()).toContain('Tanks');
    await page.getByRole('tab', { name: 'Check' }).click();
    await page.getByRole('button', { name: 'Check the workbook' }).click();
    await page.locator('.finding').first().waitFor();
  });
});
