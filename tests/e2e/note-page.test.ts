import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { overflow, violations } from '../tools/axe';
import { keyTo, seeFocus } from '../tools/by-keyboard';
import { tab } from '../tools/pane-page';
import { leaveBrowser, sharedBrowser, sharedServer } from '../tools/shared-browser';
import type { StaticServer } from '../tools/static-server';
import { WorkbenchPage } from '../tools/workbench-page';

let server: StaticServer;
let browser: Browser;
let workbench: WorkbenchPage | undefined;

beforeAll(async () => {
  server = await sharedServer();
  browser = await sharedBrowser();
});
afterAll(async () => {
  await leaveBrowser();
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

/** Nothing is wider than the pane, and all that is touched is 44 px high, by itself or with the words beside it. */
const fits = async (page: Page, where: string): Promise<void> => {
  expect(await overflow(page), where).toBe(0);
  expect(await overflow(page, 'body'), where).toBe(0);
  const small = await page
    .locator('#pane :is(button, input, select, summary, fluent-button, fluent-tab):visible')
    .evaluateAll((all) =>
      all
        .filter((one) => {
          const { height } = (one.closest('label') ?? one).getBoundingClientRect();
          return height > 0 && height < 43.5;
        })
        .map((one) => `${one.tagName} ${one.className}: ${one.textContent ?? ''}`),
    );
  expect(small, where).toEqual([]);
};

const check = async (page: Page, where: string): Promise<void> => {
  expect(await violations(page, '.bar', '#pane'), where).toEqual([]);
  await fits(page, where);
};

const PHONE = { width: 320, height: 640 };
/** What a keyboard leaves of it. */
const ABOVE_KEYS = { width: 320, height: 360 };

const LONGEST = ['Moved', 'Water tested', 'Treated'];

/** With a keyboard out the field that is typed into stands above the button, and that above the keys. */
async function typesAboveKeys(page: Page, kind: string): Promise<void> {
  await page.setViewportSize(ABOVE_KEYS);
  const fields = page.locator('.note-form :is(input, select):visible');
  for (let i = 0; i < (await fields.count()); i++) {
    await fields.nth(i).focus();
    const [field, button] = await Promise.all([
      fields.nth(i).boundingBox(),
      page.locator('.note-send').boundingBox(),
    ]);
    const bottom = (field?.y ?? NaN) + (field?.height ?? NaN);
    expect(bottom, `${kind}, field ${i + 1}`).toBeLessThanOrEqual(button?.y ?? NaN);
    expect(field?.y, `${kind}, field ${i + 1}`).toBeGreaterThanOrEqual(0);
  }
  const send = await page.locator('.note-send').boundingBox();
  expect((send?.y ?? NaN) + (send?.height ?? NaN), kind).toBeLessThanOrEqual(ABOVE_KEYS.height);
  await page.setViewportSize(PHONE);
}

/** By finger at 320 px: the smallest telephone. */
it('records what happened on a phone, and takes it back; all of the pane can be touched', async () => {
  const context = await browser.newContext({ viewport: PHONE, hasTouch: true, isMobile: true });
  workbench = await WorkbenchPage.open(browser, server.origin, { context, hash: '#note' });
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
  // One tap takes it back, from where the hand is.
  const undo = page.getByRole('button', { name: /^Take it back: Fish log/ });
  const { y = NaN, height = NaN } = (await undo.boundingBox()) ?? {};
  expect(y).toBeGreaterThanOrEqual((sentence?.y ?? NaN) + (sentence?.height ?? NaN));
  expect(y + height).toBeLessThanOrEqual(PHONE.height);
  await undo.tap();
  await page.locator('.done', { hasText: /^Taken back\./ }).waitFor();

  const kinds = await page.locator('.note-kinds button').allTextContents();
  expect(kinds.length).toBeGreaterThanOrEqual(11);
  expect(kinds).toEqual(expect.arrayContaining(LONGEST));
  for (const kind of kinds) {
    await page.locator('.note-kinds').getByRole('button', { name: kind, exact: true }).tap();
    await page.locator('.note-form').waitFor();
    await fits(page, kind);
    if (LONGEST.includes(kind)) await typesAboveKeys(page, kind);
    await page.getByRole('button', { name: 'Back', exact: true }).tap();
    await page.locator('.note-kinds').first().waitFor();
  }

  for (const [title, shown] of [
    ['Trace', 'Follow it'],
    ['Own figures', 'Read the workbook again'],
    ['Plan', 'Renew the plan of this workbook'],
    ['Ahead', 'Read the workbook again'],
    ['Chances', 'Play the weeks ahead'],
    ['Functions', 'AIR.DEWPOINT'],
    ['Check', 'Check the workbook'],
    ['Hand over', 'Make the copy'],
  ] as const) {
    await tab(page, title).tap();
    await page.getByText(shown).filter({ visible: true }).first().waitFor();
    await fits(page, title);
  }
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
  await page.getByRole('button', { name: 'Weighed', exact: true }).focus();
  await keyTo(page, 'Died');
  await page.keyboard.press('Enter');
  expect((await seeFocus(page, 'the form')).name).toBe('Died');
  // Escape leads back to the button that one came from.
  await page.keyboard.press('Escape');
  await page.locator('.note-kinds').first().waitFor();
  expect((await seeFocus(page, 'left')).name).toBe('Died');
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
  expect(await seeFocus(page, 'written')).toMatchObject({ name: 'Died', isInPane: true });
  expect(await said.getAttribute('role')).toBe('status');
  // The register on the grid has the row.
  const line = Number(/line (\d+)/.exec((await said.textContent()) ?? '')?.[1]);
  await workbench.goToSheet('Fish log');
  expect((await workbench.read(`B${line}:D${line}`))[0]).toEqual(['Tank 1', 'died', '2']);
  await tab(page, 'Note').focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Tab');
  await seeFocus(page, 'the field of Trace');
  await page.keyboard.type('2026-04-03');
  await page.keyboard.press('Enter');
  await page.locator('.traced-lot').first().waitFor();
  await look(page, 'trace');
  await page
    .getByRole('status')
    .filter({ hasText: /by the rows of the registers/ })
    .waitFor();
  await seeFocus(page, 'traced');
  await keyTo(page, 'Save a page to print');
  expect(await page.locator('.traced').textContent()).toMatch(/250 fish .*sold from Tank 5/);
  expect(await violations(page, '#pane')).toEqual([]);
});
