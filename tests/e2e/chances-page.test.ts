import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { markOfBook } from '../../src/chances/plan-mark';
import { readChancesSheets } from '../../src/chances/read-chances-sheet';
import { openBook } from '../../src/ooxml/open-book';
import { overflow, violations } from '../tools/axe';
import { few } from '../tools/how-many';
import { misuseIn, openPane, tab } from '../tools/pane-page';
import { leaveBrowser, sharedBrowser, sharedServer } from '../tools/shared-browser';
import type { StaticServer } from '../tools/static-server';
import { WorkbenchPage } from '../tools/workbench-page';

let server: StaticServer;
let browser: Browser;
beforeAll(async () => {
  server = await sharedServer();
  browser = await sharedBrowser();
});
afterAll(async () => {
  await leaveBrowser();
});

const SCHOOL = 'sample-workbooks/larkfield-school-plain.xlsx';

const check = async (page: Page, where: string): Promise<void> => {
  expect(await violations(page, '#pane'), where).toEqual([]);
  expect(await overflow(page), where).toBe(0);
};

describe('chances of the weeks ahead', () => {
  it('are played, cancelled, written beside the workbook’s sheets, called old by the check and taken out', async () => {
    const workbench = await WorkbenchPage.open(browser, server.origin, { width: 1280 });
    const { page } = workbench;
    await page.locator('#file').setInputFiles(SCHOOL);
    await page.locator('#note[open] button').last().click();
    await tab(page, 'Chances').click();
    const go = page.getByRole('button', { name: 'Play the weeks ahead' });
    await go.waitFor();
    await check(page, 'before it is played');

    await page.getByLabel('Years played').fill('10000');
    await go.click();
    await page.getByRole('button', { name: 'Cancel' }).click();
    await page.getByText('Ended; nothing has changed.').waitFor();

    await page.getByLabel('Weeks').fill('7');
    await go.click();
    await page.getByText('Weeks: type a whole number from 8 to 60.').waitFor();
    await page.getByLabel('Weeks').fill('12');
    await page.getByLabel('Years played').fill('200');
    await page.getByText('How far the figures may miss').click();
    const prices = page.getByRole('group', { name: 'Prices' });
    await prices.getByLabel('From year to year').fill('60');
    await go.click();
    await page.getByText('Prices: type a spread from 0 to 50 %.').waitFor();
    await prices.getByLabel('From year to year').fill('12');
    await prices.getByText('As typed; else 5 and 5 %.').waitFor();
    // With the keyboard alone from here on.
    await go.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: '200 times 12 weeks from 2026-03-02' }).waitFor();
    const income = page.getByRole('region', { name: 'Income from fish and crops' });
    await income.getByRole('img', { name: /eight in ten between \d+ and \d+\.$/ }).waitFor();
    await income.locator('summary').press('Enter');
    await income.getByRole('rowheader', { name: '2026-03-30' }).waitFor();
    expect(await income.locator('.movers li').first().innerText()).toMatch(/^Prices\s+\d\d %$/);
    await check(page, 'played');

    const write = page.getByRole('button', { name: 'Write into the sheet' });
    await write.focus();
    await page.keyboard.press('Enter');
    await page.getByText('Written on the sheet Chances, as numbers that follow nothing.').waitFor();
    expect(await workbench.sheetNames()).toContain('Chances');
    // It shows from its first cell on.
    const scrolled = page
      .locator('.o-scrollbar')
      .evaluateAll((bars) => bars.map(({ scrollLeft, scrollTop }) => scrollLeft + scrollTop));
    expect((await scrolled).every((way) => way === 0)).toBe(true);
    await check(page, 'written');

    // What was written is read back from the saved file as it stands in the grid.
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save .xlsx' }).click();
    const bytes = readFileSync(await (await download).path());
    const saved = openBook(bytes);
    expect(readChancesSheets(saved.sheets)).toEqual([
      expect.objectContaining({ planMark: markOfBook(saved), untouched: true }),
    ]);
    if (await page.locator('#note[open]').count())
      await page.locator('#note[open] button').last().click();

    await workbench.goToSheet('Sowing');
    const row = (await workbench.read('A1:A60')).findIndex(([first]) => first === 'lettuce') + 1;
    expect(row).toBeGreaterThan(0);
    await workbench.type(`C${row}`, '7');
    await tab(page, 'Check').click();
    await page.getByRole('button', { name: 'Check the workbook' }).click();
    await page.locator('.finding', { hasText: 'the plan has changed since' }).waitFor();

    // A sheet on which somebody typed stays.
    await tab(page, 'Chances').click();
    await workbench.goToSheet('Chances');
    await workbench.type('G9', 'mine');
    const out = page.getByRole('button', { name: 'Take the sheet Chances out again' });
    await out.click();
    await page.getByText(/Somebody typed on the sheet Chances/).waitFor();
    await workbench.select('G9');
    await page.keyboard.press('Delete');
    await out.click();
    await page.getByText('The sheet Chances is out again; nothing else has changed.').waitFor();
    expect(await workbench.sheetNames()).not.toContain('Chances');
    expect(workbench.watched.complaints).toEqual([]);
    await workbench.watched.close();
  });

  it('stand beside own figures, whose switch is written into the workbook’s cells and taken back', async () => {
    const workbench = await WorkbenchPage.open(browser, server.origin, { width: 1280 });
    const { page } = workbench;
    await tab(page, 'Own figures').click();
    await page.locator('.record').first().waitFor();
    await page.getByText(/^The farm: \d+ figures?$/).click();
    const record = page.getByRole('region', { name: 'Share of a lot that is sold', exact: true });
    await record.getByText(/^Own: 95\.3 % in 2 batches\./).waitFor();
    await check(page, 'own figures');
    const write = record.getByRole('button', { name: 'Write it into the workbook' });
    await record.getByLabel(/^Own: /).check();
    await write.click();
    await record.getByText(/^It rests on 2 of the 5 batches/).waitFor();
    // With the keyboard alone from here on.
    await record.getByLabel('Few batches are enough for me').press('Space');
    await write.press('Enter');
    await record.getByText('The plan counts with the own figure from now on.').waitFor();
    const switches = async (): Promise<(string | undefined)[]> => {
      await workbench.goToSheet('Own figures');
      const [heads = [], ...rows] = await workbench.read('A6:L60');
      const row = rows.find(([figure]) => figure === 'Share of a lot that is sold') ?? [];
      return ['Which counts', 'Few are enough'].map((head) => row[heads.indexOf(head)]);
    };
    expect(await switches()).toEqual(['own', 'yes']);
    await record.getByRole('button', { name: 'Take it back' }).press('Enter');
    await record.getByText('It is as it was.').waitFor();
    expect(await switches()).toEqual(['', '']);
    expect(workbench.watched.complaints).toEqual([]);
    await workbench.watched.close();
  });

  it.each(few(1, [{ dark: true }, { dark: false }]))(
    'fit Excel’s pane at 320 px, dark: $dark',
    async ({ dark }) => {
      const pane = await openPane(browser, server.origin, { width: 320, dark });
      const { page } = pane;
      const file = readFileSync(SCHOOL).toString('base64');
      await page.evaluate((text) => {
        window.excel.file.bytes = Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
      }, file);
      await tab(page, 'Chances').click();
      await page.getByLabel('Weeks').fill('8');
      await page.getByLabel('Years played').fill('100');
      await page.getByText('How far the figures may miss').click();
      await page.getByRole('button', { name: 'Play the weeks ahead' }).click();
      await page.getByRole('heading', { name: /^100 times/ }).waitFor();
      await check(page, 'played');
      await page.getByRole('button', { name: 'Write into the sheet' }).click();
      await page.getByText(/Written on the sheet Chances/).waitFor();
      await page.getByRole('button', { name: 'Take the sheet Chances out again' }).click();
      await page.getByText(/is out again/).waitFor();
      await tab(page, 'Own figures').click();
      await page.locator('.record').first().waitFor();
      await page.locator('.record summary').first().press('Enter');
      await check(page, 'own figures');
      expect(await misuseIn(page)).toEqual([]);
      expect(pane.complaints).toEqual([]);
      await pane.close();
    },
  );
});
