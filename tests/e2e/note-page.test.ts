import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { overflow, violations } from '../tools/axe';
import { openBrowser } from '../tools/browser';
import { tab } from '../tools/pane-page';
import type { StaticServer } from '../tools/static-server';
import { serveWorkbench, WorkbenchPage } from '../tools/workbench-page';

let server: StaticServer;
let browser: Browser;
let workbench: WorkbenchPage | undefined;

beforeAll(async () => {
  server = await serveWorkbench();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});
afterEach(async () => {
  const { close, complaints, foreignRequests } = workbench?.watched ?? {};
  workbench = undefined;
  await close?.();
  expect(complaints).toEqual([]);
  expect(foreignRequests).toEqual([]);
});

const PICTURES = process.env['NOTE_PICTURES'];
const look = async (page: Page, name: string): Promise<void> => {
  if (PICTURES !== undefined)
    await page.screenshot({ path: `${PICTURES}/${name}.png`, fullPage: false });
};

const check = async (page: Page, where: string): Promise<void> => {
  expect(await violations(page, '.bar', '#pane'), where).toEqual([]);
  expect(await overflow(page), where).toBe(0);
  const small = await page
    .locator('#pane .note :is(button, input, select):visible')
    .evaluateAll((all) =>
      all.filter((one) => one.getBoundingClientRect().height < 44).map((one) => one.textContent),
    );
  expect(small, where).toEqual([]);
};

/** By mouse at 320 px: the smallest telephone. */
it('records what happened on a phone, and takes it back', async () => {
  const phone = { width: 320, height: 640, hash: '#note' };
  workbench = await WorkbenchPage.open(browser, server.origin, phone);
  const { page } = workbench;
  await page.locator('.note-kinds').first().waitFor();
  await look(page, 'menu');
  await check(page, 'the menu');
  await page.getByRole('button', { name: 'Moved', exact: true }).click();
  await page.getByLabel('Day').fill('2026-04-13');
  await page.getByLabel('Tank', { exact: true }).selectOption('Tank 1');
  await page.getByLabel('To tank', { exact: true }).selectOption('Tank 5');
  await page.getByLabel('Fish', { exact: true }).fill('5000');
  await look(page, 'form');
  await check(page, 'the form');
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText(/5000 cannot leave it/).waitFor();
  await page.getByLabel('Fish', { exact: true }).fill('100');
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.locator('.done', { hasText: /^Written\. Fish log, line \d+: 2026-04-13/ }).waitFor();
  await look(page, 'written');
  // All of the sentence, below the line with the pages.
  const [above, sentence] = await Promise.all(
    ['.gillbed .top', '.done'].map((part) => page.locator(part).first().boundingBox()),
  );
  expect(sentence?.y).toBeGreaterThanOrEqual((above?.y ?? NaN) + (above?.height ?? NaN));
  await check(page, 'written');
  await page.getByRole('button', { name: /^Take it back: Fish log/ }).click();
  await page.locator('.done', { hasText: /^Taken back\./ }).waitFor();
});

it('works by keyboard, and follows a lot', async () => {
  workbench = await WorkbenchPage.open(browser, server.origin, { hash: '#note' });
  const { page } = workbench;
  // What the Beds and Sowing sheets ask for this week has a form of its own, filled as far as they know.
  const rest = page.locator('.more-due > summary');
  await rest.click();
  await page
    .getByRole('button', { name: /^Sown: Sow / })
    .first()
    .waitFor();
  await check(page, 'what is due');
  await rest.scrollIntoViewIfNeeded();
  await look(page, 'due');
  await page.getByRole('button', { name: 'Died', exact: true }).focus();
  await page.keyboard.press('Enter');
  await page.getByLabel('Day').fill('2026-04-13');
  await page.getByLabel('Tank', { exact: true }).focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Tab');
  await page.keyboard.type('2');
  await page.keyboard.press('Enter');
  const said = page.locator('.done', {
    hasText: /^Written\. Fish log, line \d+: 2026-04-13, died, Tank 1, 2$/,
  });
  await said.waitFor();
  // The keys stay in the pane: on the grid they would be typed over a cell.
  expect(await page.locator('#pane :focus').count()).toBe(1);
  // The register on the grid has the row.
  const line = Number(/line (\d+)/.exec((await said.textContent()) ?? '')?.[1]);
  await workbench.goToSheet('Fish log');
  expect((await workbench.read(`B${line}:D${line}`))[0]).toEqual(['Tank 1', 'died', '2']);
  await tab(page, 'Trace').click();
  await page.getByLabel('Lot, batch or day').fill('2026-04-03');
  await page.keyboard.press('Enter');
  await page.locator('.traced-lot').first().waitFor();
  await look(page, 'trace');
  expect(await page.locator('.traced').textContent()).toMatch(/250 fish .*sold from Tank 5/);
  expect(await violations(page, '#pane')).toEqual([]);
});
