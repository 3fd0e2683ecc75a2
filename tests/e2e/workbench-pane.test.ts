import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '../../src/ooxml/open-book';
import { readBook } from '../../src/plan/read-book';
import { overflow, violations } from '../tools/axe';
import { keyTo, seeFocus } from '../tools/by-keyboard';
import { few } from '../tools/how-many';
import { dewPointByKeyboard, tab } from '../tools/pane-page';
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
/** A size's page is opened once: its tests go on where the one before ended. */
function opened(width: number, colorScheme: 'light' | 'dark'): () => Page {
  beforeAll(async () => {
    workbench = await WorkbenchPage.open(browser, server.origin, { width, colorScheme });
  });
  afterEach(() => {
    expect(workbench?.watched.complaints).toEqual([]);
    expect(workbench?.watched.foreignRequests).toEqual([]);
  });
  afterAll(async () => {
    await workbench?.watched.close();
    workbench = undefined;
  });
  return () => {
    if (!workbench) throw new Error('the workbench did not open');
    return workbench.page;
  };
}

const check = async (page: Page, where: string): Promise<void> => {
  // The bar and the pane are ours; the grid between them has the marks of its library.
  const paneShows = await page.locator('#pane').isVisible();
  const ours = paneShows ? ['.bar', '#pane'] : ['.bar'];
  expect(await violations(page, ...ours), where).toEqual([]);
  if (paneShows) expect(await overflow(page), where).toBe(0);
  expect(await overflow(page, 'body'), where).toBe(0);
};

/** A telephone held upright in light colours, and the same page wider and in dark ones. */
const sizes: readonly { readonly width: number; readonly colorScheme: 'light' | 'dark' }[] = [
  { width: 320, colorScheme: 'light' },
  { width: 480, colorScheme: 'dark' },
];

async function checkAt(page: Page, where: string, some: typeof sizes = sizes): Promise<void> {
  for (const { width, colorScheme } of some) {
    await page.setViewportSize({ width, height: 800 });
    await page.emulateMedia({ colorScheme });
    await check(page, `${where}, ${width} px, ${colorScheme}`);
  }
}
/** Beside the grid the pane is light whatever the system is, and the narrower is where things break. */
const narrow = few(1, sizes);

describe('the pane in the workbench, on a narrow page that changes its width', () => {
  const opening = opened(480, 'dark');

  it('shows its pages by mouse', async () => {
    const page = opening();
    await checkAt(page, 'the sheets', narrow);
    await page.getByRole('button', { name: 'Plan and functions' }).click();
    await page.locator('.balance-chart').waitFor();
    // Beside a grid that draws on white the pane is light, whatever the system is.
    expect(await page.locator('#pane').getAttribute('data-theme')).toBe('light');
    await page.locator('details.section > summary', { hasText: 'Tanks' }).click();
    await checkAt(page, 'Plan');
    await tab(page, 'Ahead').click();
    await page.getByText(/This week, 2026-04-13 to 2026-04-19: \d+ tasks/).waitFor();
    await page.getByRole('button', { name: 'Name the three best crops' }).click();
    await page
      .getByText(/the market is short of/)
      .first()
      .waitFor();
    await checkAt(page, 'Ahead', narrow);
    await tab(page, 'Functions').click();
    await page.locator('[data-id="STOCK.LIMIT"]').click();
    const entries = page.locator('.function-form input');
    for (const [i, text] of ['Tanks!B6', '500', '20'].entries()) await entries.nth(i).fill(text);
    // 7800 L of the first tank at 20 kg/m3 are 156 kg: 312 fish of 500 g.
    await page.locator('.answer', { hasText: '312' }).waitFor();
    await page.getByText('What if it were otherwise?').click();
    await page.locator('.curve-chart').waitFor();
    await checkAt(page, 'Functions', narrow);
    await tab(page, 'Check').click();
    await page.getByRole('button', { name: 'Check the workbook' }).click();
    await page.locator('.finding').first().waitFor();
    await checkAt(page, 'Check', narrow);
    await tab(page, 'Hand over').click();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Make the copy' }).click();
    expect((await download).suggestedFilename()).toBe('without-gillbed.xlsx');
    await page.getByText(/\d+ GILL formulas\./).waitFor();
    await checkAt(page, 'Hand over', narrow);
  });
});

/** Which keys lead where does not hang on the width. */
describe('the pane in the workbench on a phone', () => {
  const opening = opened(320, 'light');

  it('shows its pages by keyboard', async () => {
    const page = opening();
    await page.getByRole('button', { name: 'Plan and functions' }).focus();
    await page.keyboard.press('Enter');
    await page.locator('.balance-chart').waitFor();
    await dewPointByKeyboard(page);
    await tab(page, 'Functions').focus();
    await page.keyboard.press('ArrowRight');
    await keyTo(page, 'Explain the selected cell');
    await page.keyboard.press('Enter');
    // The cell in front holds the title of the first sheet.
    await page.getByText(/No formula stands there: words/).waitFor();
    await keyTo(page, 'Check the workbook');
    await page.keyboard.press('Enter');
    await page.locator('.finding').first().waitFor();
    await tab(page, 'Check').focus();
    await page.keyboard.press('ArrowRight');
    await page.getByRole('heading', { name: 'Repair' }).waitFor();
    await keyTo(page, 'Repair the formulas');
    await page.keyboard.press('Enter');
    await page.getByText('No formula has lost its function.').waitFor();
  });
});

describe('the pane beside the grid', () => {
  const opening = opened(1280, 'light');

  it('says why a number stands in the selected cell, and what moves it', async () => {
    const page = opening();
    await workbench?.goToSheet('Tanks');
    await workbench?.select('I6');
    await tab(page, 'Check').click();
    await page.getByRole('button', { name: 'Explain the selected cell' }).click();
    // 620 fish of 640 g in 7800 L are 50.87 kg/m3; the weight was typed into the log.
    await page.getByRole('heading', { name: 'Tanks!I6, Tank 1: Density: 50.9 kg/m³' }).waitFor();
    await page.getByText(/^GILL\.STOCK\.DENSITY: /).waitFor();
    await page.getByRole('button', { name: 'What would change it by 10 %?' }).click();
    await page
      .getByText(/now 640 g: a tenth more \(704 g\) gives 56\.0 kg\/m³ \(\+10 %\)/)
      .waitFor();
    await check(page, 'Why');

    // Asked again, it stops where it is told to, and the workbook stays as it was.
    await page.getByRole('button', { name: 'What would change it by 10 %?' }).click();
    const stop = page.getByRole('button', { name: 'Stop', exact: true });
    await stop.click();
    await page.getByText(/^Stopped when \d+ of \d+ numbers were done\.$/).waitFor();
    await stop.waitFor({ state: 'hidden' });
    expect(await page.getByText('What would change it by 10 %', { exact: true }).count()).toBe(0);
    expect(await workbench?.readNumber('I6')).toBeCloseTo(50.9, 1);
  });

  it('keeps what the checks find within its width', async () => {
    const page = opening();
    await tab(page, 'Check').click();
    await page.getByRole('button', { name: 'Check the workbook' }).click();
    await page.locator('.finding').first().waitFor();
    await check(page, 'Check');
  });

  it('shows in its form what is typed on a sheet, and types into the cell what is typed in it', async () => {
    const page = opening();
    await tab(page, 'Plan').click();
    await page.locator('details.section > summary', { hasText: 'Tanks' }).click();
    await page.locator('summary', { hasText: 'Tank 1, 620 fish' }).click();
    const row = page
      .locator('details.section', { hasText: 'Each tank as' })
      .locator('.row')
      .first();
    const volume = row.getByLabel('Volume');
    expect(await volume.inputValue()).toBe('7800');
    // What stands in the tank follows from its register, and is said to.
    expect(await row.getByLabel('Fish optional', { exact: true }).getAttribute('readonly')).toBe(
      '',
    );
    await row
      .getByText(/Follows from the Fish log/)
      .first()
      .waitFor();

    await workbench?.goToSheet('Tanks');
    await workbench?.type('B6', '9000');
    await expect.poll(() => volume.inputValue()).toBe('9000');

    await volume.fill('-2');
    await volume.press('Enter');
    await row.getByText(/^Not written: Must be a number above 0 .*; got -2/).waitFor();
    expect(await workbench?.readNumber('B6')).toBe(9000);
    await volume.fill('8500');
    await volume.press('Enter');
    await row.getByText(/^Not written/).waitFor({ state: 'hidden' });
    expect(await workbench?.readNumber('B6')).toBe(8500);

    // A cell that cannot be read says so beside its field, and the figure of before is gone.
    const name = row.getByLabel('Name');
    await workbench?.select('A6');
    await page.keyboard.press('Delete');
    await row.getByText('Tanks!A6: Is blank: type it, or clear its whole row.').waitFor();
    await page.getByText(/The balance shows again/).waitFor();
    expect(await name.inputValue()).toBe('');
    await check(page, 'a wrong cell');
    await workbench?.select('A6');
    await page.keyboard.press('Control+z');
    await expect.poll(() => name.inputValue()).toBe('Tank 1');
    for (const figure of ['9000', '7800']) {
      await page.keyboard.press('Control+z');
      await expect.poll(() => volume.inputValue()).toBe(figure);
    }
    await page.locator('.balance-chart').waitFor();

    // What follows from a register does so in the form, too.
    await workbench?.goToSheet('Fish log');
    const days = (await workbench?.read('A6:A120')) ?? [];
    const line = 6 + days.findIndex(([day = '']) => day === '');
    const died = { A: '2026-04-13', B: 'Tank 1', C: 'died', D: '20' };
    for (const [column, content] of Object.entries(died))
      await workbench?.type(`${column}${line}`, content);
    await page.locator('summary', { hasText: 'Tank 1, 600 fish' }).waitFor();

    // Another tank is more than a cell: it leads to the renewal, which says what becomes of the workbook.
    await page.getByRole('button', { name: 'Add a tank' }).click();
    await page.getByText(/A tank has lines on several sheets/).waitFor();
    expect(await page.getByLabel('Tanks in all').inputValue()).toBe('6');
    await check(page, 'a tank more');
    await page.locator('summary', { hasText: 'Renew the plan of this workbook' }).click();
  });

  it('renews the plan with more tanks: first what becomes of it, then a workbook of its own', async () => {
    const page = opening();
    // A small farm is renewed as a large one is, in a third of the time.
    await page.locator('#file').setInputFiles('sample-workbooks/larkfield-school.json');
    await page.getByText('Larkfield').first().waitFor();
    await tab(page, 'Plan').click();
    await page.locator('.balance-chart').waitFor();
    await page.locator('summary', { hasText: 'Renew the plan of this workbook' }).click();
    await page.getByLabel('Tanks in all').fill('1');
    const look = page.getByRole('button', { name: 'Look what becomes of it' });
    await look.click();
    await page
      .getByRole('alert')
      .filter({ hasText: /has 2 tanks, more than 1: which/ })
      .waitFor();
    // From here on by keyboard alone: the keys stay where somebody sees them.
    const LOOK = 'Look what becomes of it';
    await page.getByLabel('Tanks in all').fill('4');
    await keyTo(page, LOOK);
    await page.keyboard.press('Enter');
    expect((await seeFocus(page, 'while it is made')).name).toBe('Cancel');
    await page.keyboard.press('Escape');
    await page
      .getByRole('status')
      .filter({ hasText: 'Stopped; the workbook is as it was.' })
      .waitFor();
    expect((await seeFocus(page, 'stopped')).name).toBe(LOOK);
    await page.keyboard.press('Enter');
    await page.getByText('Nothing is lost.').waitFor();
    expect((await seeFocus(page, 'the report')).name).toBe('What becomes of the workbook');
    await check(page, 'Renew');
    const download = page.waitForEvent('download');
    await keyTo(page, 'Open the renewed workbook');
    await page.keyboard.press('Enter');
    const saved = await download;
    expect(saved.suggestedFilename()).toBe('renewed.xlsx');
    const { farm, faults } = readBook(openBook(readFileSync(await saved.path())));
    expect([faults, farm?.tanks.map(({ name }) => name)]).toEqual([
      [],
      ['Tank A', 'Tank B', 'Tank C', 'Tank D'],
    ]);
    await page
      .getByRole('status')
      .filter({ hasText: /saved as renewed\.xlsx among your downloads; this one is as it was/ })
      .waitFor();
    await seeFocus(page, 'renewed');
  });
});
