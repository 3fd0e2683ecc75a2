import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { computedValues } from '../../src/engine/engine';
import { Package } from '../../src/ooxml/package';
import { readWorkbookParts } from '../../src/ooxml/workbook-parts';
import { cellAddress } from '../../src/plan/addresses';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import type { WatchedPage } from '../tools/browser';
import { readValues, recalculated, type SheetValues } from '../tools/libreoffice';
import { leaveBrowser, sharedBrowser, sharedServer } from '../tools/shared-browser';
import type { StaticServer } from '../tools/static-server';
import { typeAnew, WorkbenchPage } from '../tools/workbench-page';

/** So many more came into Tank 1 of the demo farm when it was stocked: a row of the Fish log. */
const CAME = 930;
const MORE = 280;
const ROW = 5;
const FISH_CELL = { row: 5 + ROW, column: 3 };
const FISH = cellAddress(FISH_CELL.row, FISH_CELL.column);

let server: StaticServer;
let browser: Browser;
let workbench: WorkbenchPage;
let watched: WatchedPage;
let page: Page;
let folder: string;

async function ready(page: Page): Promise<void> {
  await page.waitForSelector('fluent-tab');
  await page.waitForSelector('.o-grid canvas');
  await page.getByText('Tanks', { exact: true }).first().waitFor();
}

async function typeInto(sheet: string, row: number, column: number, text: string): Promise<void> {
  await page.locator('.o-sheet', { hasText: new RegExp(`^${sheet}$`) }).click();
  await page.locator('.o-grid-overlay').click({ position: { x: 200, y: 120 } });
  await page.keyboard.press('Control+Home');
  for (let i = 0; i < row; i++) await page.keyboard.press('ArrowDown');
  for (let i = 0; i < column; i++) await page.keyboard.press('ArrowRight');
  await typeAnew(page, text);
  await page.keyboard.press('Enter');
}

async function saved(button: string): Promise<Uint8Array> {
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: button, exact: true }).click();
  const path = await (await download).path();
  const bytes = readFileSync(path);
  await closeNote();
  return bytes;
}

/** What is said after saving or opening is read and closed. */
async function closeNote(): Promise<string> {
  const note = page.locator('dialog[open]');
  if ((await note.count()) === 0) return '';
  const text = await note.innerText();
  await note.getByRole('button').last().click();
  return text;
}

async function openFile(name: string, bytes: Uint8Array): Promise<string> {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open…' }).click();
  await (await chooser).setFiles(path);
  const note = page.locator('dialog[open]');
  await note.waitFor();
  return closeNote();
}

/** The plan of the demo farm with the changed stocking, made without any page. */
const changed = planWorkbook(
  readFarm({
    ...demoFarm,
    tanks: demoFarm.tanks.map((tank, i) => (i === 0 ? { ...tank, fish: tank.fish + MORE } : tank)),
    fishLog: demoFarm.fishLog.map((row, i) => (i === ROW ? { ...row, fish: CAME } : row)),
  }),
  { formulas: 'live' },
);
const expected = computedValues(changed);

function differences(found: SheetValues): string[] {
  return changed.sheets.flatMap((sheet) =>
    sheet.rows.flatMap((row, r) =>
      row.flatMap((cell, c) => {
        if (cell?.formula === undefined) return [];
        const wanted = expected(sheet.name, r, c);
        const value = found(sheet.name, r, c);
        const same =
          wanted instanceof GillError
            ? value instanceof GillError
            : typeof wanted === 'number' && typeof value === 'number'
              ? Math.abs(value - wanted) <= 1e-9 * Math.max(1, Math.abs(wanted))
              : (value ?? '') === (wanted ?? '');
        return same ? [] : [`${sheet.name} ${r},${c}: ${String(value)}, not ${String(wanted)}`];
      }),
    ),
  );
}

beforeAll(async () => {
  server = await sharedServer();
  browser = await sharedBrowser();
  folder = mkdtempSync(join(tmpdir(), 'gillbed-'));
  workbench = await WorkbenchPage.open(browser, server.origin);
  watched = workbench.watched;
  page = watched.page;
  await ready(page);
});

afterAll(async () => {
  await workbench?.watched.close();
  await leaveBrowser();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

describe('the workbench in a browser', () => {
  let live: Uint8Array;
  let plain: Uint8Array;

  it('shows the demo plan with its sheets and the pane beside it', async () => {
    for (const sheet of ['Start', 'Tanks', 'Beds']) {
      await expect(
        page.locator('.o-sheet', { hasText: new RegExp(`^${sheet}$`) }).count(),
      ).resolves.toBe(1);
    }
    await expect(page.getByRole('tab').allInnerTexts()).resolves.toEqual([
      'Note',
      'Trace',
      'Own figures',
      'Plan',
      'Ahead',
      'Chances',
      'Functions',
      'Check',
      'Hand over',
    ]);
  });

  it('lets density, feed, balance and week follow a changed stocking', async () => {
    await typeInto('Fish log', FISH_CELL.row, FISH_CELL.column, String(CAME));
    live = await saved('Save .xlsx');
    const found = await readValues(live);
    expect(found('Fish log', FISH_CELL.row, FISH_CELL.column)).toBe(CAME);
    expect(differences(found)).toEqual([]);
  });

  it('takes a typed number back, and all that followed from it', async () => {
    await typeInto('Fish log', FISH_CELL.row, FISH_CELL.column, String(2 * CAME));
    await page.keyboard.press('Control+z');
    expect(differences(await readValues(await saved('Save .xlsx')))).toEqual([]);
  });

  it('saves a plain workbook in which LibreOffice computes the same', async () => {
    plain = await saved('Save plain .xlsx');
    const found = (await recalculated(new Map([['plain.xlsx', plain]]))).get('plain.xlsx');
    expect(differences(found as SheetValues)).toEqual([]);
  });

  it('keeps the work until the next visit', async () => {
    await page.getByText('Kept in this browser').waitFor();
    await page.reload();
    await ready(page);
    await workbench.goToSheet('Fish log');
    expect(await workbench.readNumber(FISH)).toBe(CAME);
  });

  it('says what is wrong with a damaged workbook and leaves the open work alone', async () => {
    const said = await openFile('damaged.xlsx', live.slice(0, live.length / 2));
    expect(said).toMatch(/could not be opened[\s\S]*damaged[\s\S]*still here/);
    await workbench.goToSheet('Fish log');
    // The name box given the cell that is selected already opens it for editing.
    await workbench.select('A1');
    expect(await workbench.readNumber(FISH)).toBe(CAME);
  });

  it('opens a workbook that was saved before, and computes the same', async () => {
    await openFile('plain.xlsx', plain);
    await ready(page);
    // The grid has measured its own place, not that of the workbook before, and knows that the page is wide.
    expect(await page.locator('.o-spreadsheet').count()).toBe(1);
    expect(await page.locator('.o-spreadsheet-mobile').count()).toBe(0);
    const found = await readValues(await saved('Save .xlsx'));
    expect(differences(found)).toEqual([]);
  });

  it('saves a sheet that was added into the file that was opened, and into its plain copy', async () => {
    await openFile('live.xlsx', readFileSync('sample-workbooks/larkfield-school-live.xlsx'));
    await ready(page);
    await page.locator('.o-add-sheet').click();
    await page.locator('.o-sheet', { hasText: /^Sheet/ }).waitFor();
    for (const button of ['Save .xlsx', 'Save plain .xlsx']) {
      const bytes = await saved(button);
      const file = Package.open(bytes);
      const { sheets } = readWorkbookParts(file);
      expect(sheets.some(({ name }) => name.startsWith('Sheet'))).toBe(true);
      const calls = sheets.filter(({ part }) => file.text(part).includes('GILL_'));
      expect(calls.length > 0).toBe(button === 'Save .xlsx');
    }
  });

  it('offers a new file without GILL where the plain copy of an opened one cannot take a change', async () => {
    // The head of a register, over its first record.
    await typeInto('Fish log', FISH_CELL.row - ROW - 1, FISH_CELL.column, '=1');
    await page.getByRole('button', { name: 'Save plain .xlsx', exact: true }).click();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save as a new file' }).click();
    expect((await download).suggestedFilename()).toBe('gillbed-plain.xlsx');
    const bytes = readFileSync(await (await download).path());
    await closeNote();
    const file = Package.open(new Uint8Array(bytes));
    const book = readWorkbookParts(file);
    for (const { part } of book.sheets) expect(file.text(part)).not.toContain('GILL_');
  });

  it('logs no error and requests nothing from elsewhere', () => {
    expect(watched.complaints).toEqual([]);
    expect(watched.foreignRequests).toEqual([]);
  });
});
