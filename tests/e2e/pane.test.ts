import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { demoFarm } from '../../src/plan/demo-farm';
import { countedFarm } from '../../src/experience/taken-over';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { cards } from '../../src/functions/card-list';
import { overflow, violations } from '../tools/axe';
import type { WatchedPage } from '../tools/browser';
import { few } from '../tools/how-many';
import { misuseIn, OFFICE, openPane as openPaneBeside } from '../tools/pane-page';
import { leaveBrowser, sharedBrowser, sharedServer } from '../tools/shared-browser';
import type { StaticServer } from '../tools/static-server';

let server: StaticServer;
let browser: Browser;
let pane: WatchedPage | undefined;

async function openPane(width = 320, dark = false): Promise<WatchedPage> {
  pane = await openPaneBeside(browser, server.origin, { width, dark });
  return pane;
}

beforeAll(async () => {
  server = await sharedServer();
  browser = await sharedBrowser();
});
afterEach(async () => {
  const opened = pane;
  pane = undefined;
  if (!opened) return;
  expect(await misuseIn(opened.page)).toEqual([]);
  await opened.close();
});
afterAll(async () => {
  await leaveBrowser();
});

describe('the pane in Excel', () => {
  it('associates every function, requesting nothing but from Office', async () => {
    const { page, complaints, foreignRequests } = await openPane();
    // Without arguments each answers with a matrix, and nothing answers for one that is not there.
    const calls = cards.map(({ id, parameters }) => ({ id, args: parameters.map(() => null) }));
    const [known, unknown] = await page.evaluate(
      async (asked) => [
        await window.excel.callFunctions(asked),
        await window.excel.callFunctions([{ id: 'NOT.THERE', args: [] }]),
      ],
      calls,
    );
    expect(known?.filter(({ succeeded }) => succeeded)).toHaveLength(cards.length);
    expect(unknown).toMatchObject([{ succeeded: false }]);
    expect(foreignRequests).toEqual([OFFICE]);
    expect(complaints).toEqual([]);
  });

  it('computes un-ionised ammonia and refuses a pH of 72 with a sentence', async () => {
    const { page } = await openPane();
    const answers = await page.evaluate(() =>
      window.excel.callFunctions(
        [8, 72].map((ph) => ({ id: 'AMMONIA.UNIONISED', args: [[[1]], [[ph]], [[24]], null] })),
      ),
    );
    const [good, bad] = answers.map(({ value }) => (value as unknown[][])[0]?.[0]);
    // Francis-Floyd, Watson, Petty and Pouder, Ammonia in Aquatic Systems, UF/IFAS FA16: worked example.
    expect(Math.abs(Number(good) - 0.0502)).toBeLessThan(0.0002);
    expect((bad as { message: string }).message).toMatch(/72/);
  });

  it.each(
    few(1, [
      [480, true],
      [320, false],
    ] as const),
  )('builds the example farm at %i px (dark: %s)', async (width, dark) => {
    const { page, complaints } = await openPane(width, dark);
    await page.getByRole('button', { name: 'Look at an example farm' }).click();
    await page.getByRole('button', { name: 'Build the plan' }).click();
    await page.getByText('Excel cannot undo this step').waitFor();
    await page.getByRole('button', { name: 'Build now' }).click();
    await page.getByText('The plan stands.').waitFor();
    const made = await page.evaluate(() => {
      const { workbook } = window.excel;
      return {
        active: workbook.active,
        farms: workbook.xmlParts.length,
        sheets: workbook.sheets.map(({ name, cells }) => ({
          name,
          formulas: [...cells.values()].filter(
            ({ formula }) => typeof formula === 'string' && formula.startsWith('='),
          ).length,
        })),
      };
    });
    const plan = planWorkbook(countedFarm(readFarm(demoFarm)), { formulas: 'live' });
    expect(made.sheets.map(({ name }) => name)).toEqual([
      'Sheet1',
      ...plan.sheets.map(({ name }) => name),
    ]);
    for (const { name, rows } of plan.sheets) {
      const formulas = rows.flat().filter((cell) => cell?.formula !== undefined).length;
      expect(made.sheets.find((sheet) => sheet.name === name)?.formulas, name).toBe(formulas);
    }
    expect(made.active).toBe('Start');
    expect(made.farms).toBe(1);
    expect(await overflow(page)).toBe(0);
    expect(await violations(page)).toEqual([]);
    expect(await page.locator('#pane').getAttribute('data-theme')).toBe(dark ? 'dark' : 'light');
    expect(complaints).toEqual([]);
  });

  // The other way round in `sidebar.test.ts`, with everything open.
  it.each(
    few(1, [
      [320, false],
      [480, true],
    ] as const),
  )('shows its pages for every reader at %i px (dark: %s)', async (width, dark) => {
    const { page, complaints } = await openPane(width, dark);
    for (const title of ['Plan', 'Ahead', 'Functions', 'Check', 'Hand over']) {
      await page.getByRole('tab', { name: title }).click();
      await page.getByRole('tabpanel', { name: title }).waitFor();
      expect(await violations(page), title).toEqual([]);
      expect(await overflow(page), title).toBe(0);
    }
    await page.getByRole('tab', { name: 'Functions' }).click();
    await page.locator('[data-id="STOCK.LIMIT"]').click();
    await page.locator('.function-form').waitFor();
    expect(await violations(page)).toEqual([]);
    expect(complaints).toEqual([]);
  });

  it('allows no code from text, and scripts from itself and Office alone', async () => {
    const { page } = await openPane();
    const policy =
      (await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content')) ??
      '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toMatch(/'unsafe-/);
    expect(/script-src ([^;]*)/.exec(policy)?.[1]).toBe(
      // The solver of the weeks ahead is WebAssembly.
      `'self' 'wasm-unsafe-eval' ${new URL(OFFICE).origin}`,
    );
  });
});
