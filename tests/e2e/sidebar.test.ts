import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type CautionId, cautions } from '../../src/functions/cautions';
import { demoFarm } from '../../src/plan/demo-farm';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { overflow, violations } from '../tools/axe';
import type { WatchedPage } from '../tools/browser';
import { cautionPlaces } from '../tools/caution-places';
import {
  OFFICE,
  openExample,
  misuseIn,
  openPane,
  type PaneOptions,
  type Sheets,
  tab,
  dewPointByKeyboard,
} from '../tools/pane-page';
import { leaveBrowser, sharedBrowser, sharedServer } from '../tools/shared-browser';
import { computed, smallBook, smallSheet, typed, word } from '../tools/small-book';
import type { StaticServer } from '../tools/static-server';

/** A grower's own workbook; the second line of the records has a pH that nobody measured. */
const records: Sheets = {
  Records: [
    ['TAN', 'pH', 'Water temperature'],
    [1, 8, 24],
    [0.5, 72, 26],
    [2, 7, 28],
  ],
  Notes: [],
};

let server: StaticServer;
let browser: Browser;
const opened: WatchedPage[] = [];

async function pane(options: PaneOptions = {}): Promise<Page> {
  const watched = await openPane(browser, server.origin, { sheets: records, ...options });
  opened.push(watched);
  return watched.page;
}

const openSection = (page: Page, title: string) =>
  page.locator('details.section > summary', { hasText: title }).click();

beforeAll(async () => {
  server = await sharedServer();
  browser = await sharedBrowser();
});
afterAll(async () => {
  await leaveBrowser();
});
afterEach(async () => {
  const pages = opened.splice(0);
  for (const { page } of pages) expect(await misuseIn(page)).toEqual([]);
  for (const { close } of pages) await close();
  for (const { complaints, foreignRequests } of pages) {
    expect(complaints).toEqual([]);
    // Office's own script is the only thing that may come from elsewhere.
    expect(foreignRequests).toEqual([OFFICE]);
  }
});

describe("Office's theme", () => {
  it('is followed while the pane is open, by name and by colour', async () => {
    const page = await pane({ dark: false, systemDark: true });
    const theme = page.locator('#pane');
    expect(await theme.getAttribute('data-theme')).toBe('light');
    const change = (to: object) =>
      page.evaluate((next) => {
        (Office.context as { officeTheme: unknown }).officeTheme = next;
        window.dispatchEvent(new Event('focus'));
      }, to);
    await change({ isDarkTheme: true });
    expect(await theme.getAttribute('data-theme')).toBe('dark');
    await change({ bodyBackgroundColor: '#FFFFFF' });
    expect(await theme.getAttribute('data-theme')).toBe('light');
  });
});

describe('the pane outside Excel', () => {
  it('says where it belongs outside Excel', async () => {
    const { page, context, close } = await openPane(browser, server.origin);
    await context.route('**/office.js', (route) =>
      route.fulfill({
        contentType: 'text/javascript',
        body: 'window.Office={HostType:{Excel:"Excel"},onReady:async()=>({host:null})};window.CustomFunctions={associate(){}}',
      }),
    );
    await page.goto(`${server.origin}/pane.html`);
    await page.getByText('belongs beside a workbook').waitFor();
    await close();
  });
});

it('says which versions run', async () => {
  const page = await pane();
  const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
  const about = page.locator('footer.about');
  await about.getByText(`Gillbed ${version}`).waitFor();
  expect(await about.innerText()).toMatch(/Office’s script 16\.0\.\d+\.\d+/);
});

describe('the Plan page', () => {
  it('builds the example farm with the mouse, and finds it again', async () => {
    const page = await pane();
    await openExample(page);
    await page.getByRole('button', { name: 'Build the plan' }).click();
    await page.getByText('Excel cannot undo this step').waitFor();
    await page.getByRole('button', { name: 'Build now' }).click();
    await page.getByText('The plan stands.').waitFor();
    const [names, active, syncs] = await page.evaluate(() => [
      window.excel.workbook.sheets.map((sheet) => sheet.name),
      window.excel.workbook.active,
      window.excel.requests,
    ]);
    expect(names).toEqual(expect.arrayContaining(['Records', 'Notes', 'Start', 'Tanks', 'Beds']));
    expect(active).toBe('Start');
    // Two looked for a farm and asked to be told of changes when the pane opened; a build takes one for each megabyte.
    expect(syncs).toBeLessThanOrEqual(16);
    await page.getByRole('button', { name: 'Beds', exact: true }).click();
    await expect.poll(() => page.evaluate(() => window.excel.workbook.active)).toBe('Beds');
    expect(await page.evaluate(() => window.excel.workbook.xmlParts.length)).toBe(1);
  });

  it('lays variants side by side, and asks to build the one that is chosen', async () => {
    const page = await pane();
    await openExample(page);
    await page.getByRole('button', { name: 'Variants side by side' }).click();
    await page.getByRole('button', { name: 'Lay them side by side' }).click();
    await page.getByRole('button', { name: 'Make “As planned” the plan' }).click();
    await page.getByText('Excel cannot undo this step').waitFor();
    expect(await page.getByRole('button', { name: 'Build now' }).isVisible()).toBe(true);
    await page.getByText('The variant “As planned”').waitFor();
  });

  it('leaves the workbook as it was where the build fails', async () => {
    const page = await pane();
    await openExample(page);
    await page.evaluate(() => {
      const { host } = window.excel;
      host.failAtAction = host.actions + 400;
    });
    await page.getByRole('button', { name: 'Build the plan' }).click();
    await page.getByRole('button', { name: 'Build now' }).click();
    await page.getByRole('alert').filter({ hasText: 'Excel refused this' }).waitFor();
    expect(
      await page.evaluate(() => window.excel.workbook.sheets.map((sheet) => sheet.name)),
    ).toEqual(['Records', 'Notes']);
  });

  it('stops when told to', async () => {
    const page = await pane();
    await openExample(page);
    await page.evaluate(() => {
      // Slow enough to be stopped.
      window.excel.answersAfterMs = 600;
    });
    await page.getByRole('button', { name: 'Build the plan' }).click();
    await page.getByRole('button', { name: 'Build now' }).click();
    await page.getByRole('button', { name: 'Cancel' }).click();
    await page.getByText('The build was stopped; nothing was left behind.').waitFor();
    expect(await page.evaluate(() => window.excel.workbook.sheets.length)).toBe(2);
  });

  it('is filled in with the keyboard alone', async () => {
    const page = await pane();
    await page.getByRole('button', { name: 'Look at an example farm' }).focus();
    await page.keyboard.press('Enter');
    await page.locator('.balance-chart').waitFor();
    await page.locator('details.section > summary', { hasText: 'Tanks' }).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Space');
    // Name, volume, species, fish.
    for (let i = 0; i < 4; i++) await page.keyboard.press('Tab');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('2000');
    await page.getByText('this tank may hold 60 kg/m³, 731 fish of this weight').waitFor();
    const field = page.locator('.row input').nth(2);
    const described = await field.getAttribute('aria-describedby');
    expect(described).toContain('advice');
    await page.locator('.balance').getByText('1,760 kg').waitFor();
  });

  it('says beside the field what is wrong, and waits with the build', async () => {
    const page = await pane();
    await openExample(page);
    await openSection(page, 'Site');
    const latitude = page.getByLabel('Latitude');
    await latitude.fill('95');
    await page.getByText('Must be a number from -90 to 90 degrees; got 95').waitFor();
    expect(await latitude.getAttribute('aria-invalid')).toBe('true');
    expect(
      await page.getByRole('button', { name: 'Build the plan' }).getAttribute('disabled'),
    ).toBe('');
    await page.getByText('One field is still to be filled in or put right').waitFor();
    await latitude.fill('44.2');
    await expect.poll(() => latitude.getAttribute('aria-invalid')).toBeNull();
  });

  it('leads to the first field that is open, and names faults of the file that it does not show', async () => {
    const page = await pane();
    const file = { ...demoFarm, waterTests: [{ date: '2026-03-01', ph: 72 }] };
    await page.locator('input[type=file]').setInputFiles({
      name: 'farm.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify({ ...file, site: { ...demoFarm.site, latitude: 95 } })),
    });
    await page.getByText('Must be a pH from 3 to 12; got 72').waitFor();
    await page.getByRole('button', { name: 'Show me the first' }).click();
    const focused = page.locator(':focus');
    expect(await focused.getAttribute('aria-invalid')).toBe('true');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('44.2');
    await page.getByRole('button', { name: 'Show me the first' }).waitFor({ state: 'hidden' });
  });

  it('turns every figure when the units change', async () => {
    const page = await pane();
    await openExample(page);
    await page.getByLabel('Units', { exact: true }).selectOption('US');
    await openSection(page, 'Water and filter');
    await expect
      .poll(() => page.getByLabel('Sump').inputValue())
      .toBe(String(Number((demoFarm.water.sump / 3.785411784).toPrecision(6))));
    await page.locator('.balance').getByText('lb/day').waitFor();
  });

  it('suggests from the tables as soon as the species is chosen', async () => {
    const page = await pane();
    await page.getByRole('button', { name: 'Start with my own farm' }).click();
    await openSection(page, 'Fish');
    const weight = page.getByLabel('Weight at harvest');
    expect(await weight.inputValue()).toBe('');
    await page.getByLabel('Main species').selectOption('Nile tilapia');
    await expect.poll(() => weight.inputValue()).not.toBe('');
  });

  it("takes tanks from the grower's own sheet", async () => {
    const page = await pane();
    await page.evaluate(() => {
      const { workbook } = window.excel;
      workbook.write(workbook.sheet('Notes'), { row: 0, column: 0, rows: 4, columns: 4 }, [
        ['Tank', 'Litres', 'Number of fish', 'Remark'],
        ['North', 5000, 200, 'new liner'],
        ['', '', '', ''],
        ['South', 6000, 250, ''],
      ]);
      return window.excel.select('Notes', 'A1:D4');
    });
    await openExample(page);
    await openSection(page, 'Tanks');
    await page.getByRole('button', { name: 'Take from the sheet: each tank' }).click();
    await page.getByText('2 rows from Notes!A1:D4; 1 without any entry.').waitFor();
    expect(
      await page
        .locator('.take')
        .getByLabel('Volume')
        .evaluate((one) => (one as HTMLSelectElement).selectedOptions[0]?.text),
    ).toBe('Litres');
    await page.getByRole('button', { name: 'Use these instead' }).click();
    await page.getByText('North, 200 fish').waitFor();
    // The species was not in the sheet: it is asked for, not made up.
    await page.locator('details.section', { hasText: 'Tanks' }).getByText('2 to fill in').waitFor();
  });

  it('saves the farm and opens it again', async () => {
    const page = await pane();
    await openExample(page);
    await openSection(page, 'Site');
    await page.getByLabel('Name of the farm').fill('Reed Pool');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save farm file' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('reed-pool.json');
    const path = await download.path();
    const other = await pane();
    await other.locator('input[type=file]').setInputFiles(path);
    await other.getByText('Opened from').waitFor();
    await openSection(other, 'Site');
    expect(await other.getByLabel('Name of the farm').inputValue()).toBe('Reed Pool');
    await other
      .locator('input[type=file]')
      .setInputFiles({ name: 'x.json', mimeType: 'application/json', buffer: Buffer.from('no') });
    await other.getByRole('alert').filter({ hasText: 'This is no farm file' }).waitFor();
  });
});

describe('the cautions', () => {
  const places = Object.entries(cautionPlaces) as [CautionId, (typeof cautionPlaces)['law']][];

  it('stand in the parts of the plan form where the danger is met', async () => {
    const page = await pane({ width: 400 });
    await openExample(page);
    for (const [id, { sections }] of places) {
      for (const title of sections) {
        const part = page.locator('details.section').filter({
          has: page.locator('.section-title').getByText(title, { exact: true }),
        });
        if (!(await part.evaluate((one) => (one as HTMLDetailsElement).open))) {
          await part.locator('> summary').click();
        }
        await part.locator('> .caution').getByText(cautions[id]).waitFor();
      }
    }
    expect(await overflow(page)).toBe(0);
  });

  it.each(['DOSE.BASE', 'FLOW.WATTS', 'STOCK.ROTATION', 'HEAT.WATER'])(
    'stand over the form of GILL.%s',
    async (name) => {
      const page = await pane({ width: 400 });
      await tab(page, 'Functions').click();
      await page.locator(`[data-id="${name}"]`).first().click();
      for (const [id, { cards }] of places) {
        if (cards.includes(name)) await page.locator('.caution').getByText(cautions[id]).waitFor();
      }
      expect(await overflow(page)).toBe(0);
    },
  );
});

describe('the Functions page', () => {
  it('finds, fills, takes cells from the grid and fills beside a column', async () => {
    const page = await pane();
    await tab(page, 'Functions').click();
    await page.getByLabel('What do you want to know?').fill('free ammonia');
    await page.locator('[data-id="AMMONIA.UNIONISED"]').first().click();
    for (const [i, name] of ['tan', 'ph', 'water'].entries()) {
      const column = 'ABC'[i];
      await page.evaluate(
        (address) => window.excel.select('Records', address),
        `${column}2:${column}4`,
      );
      await page.getByRole('button', { name: `Take cells for ${name}` }).click();
    }
    // Rows of the workbook: 1, 8, 24 is UF/IFAS FA16's example; the second has a pH of 72.
    const result = page.locator('.result');
    await result.getByText('0.05017').waitFor();
    await result.getByText('#VALUE!: ph must be between 0 and 14; got 72').waitFor();
    await page.getByRole('button', { name: 'Fill beside this column' }).click();
    await page.getByText('The formula stands in Records!D2.').waitFor();
    expect(await page.evaluate(() => window.excel.workbook.cell('Records', 'D2')?.formula)).toBe(
      '=GILL.AMMONIA.UNIONISED(A2:A4,B2:B4,C2:C4)',
    );
  });

  it('reads a typed address from the workbook, and says where there is none', async () => {
    const page = await pane();
    await tab(page, 'Functions').click();
    await page.locator('[data-id="AMMONIA.UNIONISED"]').first().click();
    await page.getByLabel('total ammonia nitrogen').fill('Records!A2:A4');
    await page.getByLabel('pH of the water').fill('B2:B4');
    await page.getByLabel('water temperature').fill('$C$2:$C$4');
    const result = page.locator('.result');
    await result.getByText('0.05017').waitFor();
    await result.getByText('#VALUE!: ph must be between 0 and 14; got 72').waitFor();
    await page.getByRole('button', { name: 'Fill beside this column' }).waitFor();
    await page.getByLabel('water temperature').fill('Ponds!C2:C4');
    await page.getByText('There is no sheet called "Ponds".').waitFor();
  });

  it('reads text with units, and asks before it replaces what stands in a cell', async () => {
    const page = await pane();
    await page.evaluate(() => window.excel.select('Records', 'B3'));
    await tab(page, 'Functions').click();
    await page.locator('[data-id="AMMONIA.UNIONISED"]').first().click();
    await page.getByLabel('total ammonia nitrogen').fill('1');
    await page.getByLabel('pH of the water').fill('8');
    await page.getByLabel('water temperature').fill('77 degF');
    // 77 degF is 25 degC.
    await page.locator('.answer').getByText('0.05366').waitFor();
    await page.getByRole('button', { name: 'Put into the cell' }).click();
    await page.getByText('Records!B3 holds "72".').waitFor();
    expect(await page.evaluate(() => window.excel.workbook.cell('Records', 'B3')?.value)).toBe(72);
    await page.getByRole('button', { name: 'Replace it' }).click();
    await page.getByText('The formula stands in Records!B3.').waitFor();
    expect(await page.evaluate(() => window.excel.workbook.cell('Records', 'B3')?.formula)).toBe(
      '=GILL.AMMONIA.UNIONISED(1,8,"77 degF")',
    );
  });

  it('draws the result over one argument, and puts a table of it into free cells', async () => {
    const page = await pane();
    await page.evaluate(() => window.excel.select('Records', 'B3'));
    await tab(page, 'Functions').click();
    await page.locator('[data-id="AMMONIA.UNIONISED"]').first().click();
    await page.getByLabel('total ammonia nitrogen').fill('1');
    await page.getByLabel('pH of the water').fill('8');
    await page.getByLabel('water temperature').fill('25');
    await page.getByText('What if it were otherwise?').click();
    await page.getByLabel('Result over').selectOption('ph');
    await page.locator('.curve-chart[aria-label^="With ph from 4"]').waitFor();
    await page.locator('.curve-chart .present').waitFor();
    await page.getByRole('button', { name: 'Put a table of it below the selected cell' }).click();
    // B3 and B4 hold readings: the table begins below them.
    await page.getByText('The table stands from Records!B5 on.').waitFor();
    const cell = (address: string) =>
      page.evaluate((at) => {
        const found = window.excel.workbook.cell('Records', at);
        return found?.formula ?? found?.value;
      }, address);
    expect(await cell('B3')).toBe(72);
    expect([await cell('B5'), await cell('C5')]).toEqual(['ph', 'AMMONIA.UNIONISED']);
    expect([await cell('B6'), await cell('C6')]).toEqual([4, '=GILL.AMMONIA.UNIONISED(1,B6,25)']);
    expect([await cell('B16'), await cell('B17')]).toEqual([12, undefined]);
    await page.getByRole('button', { name: 'Take the table out again' }).click();
    await page.getByText('The table is out again.').waitFor();
    expect([await cell('B3'), (await cell('B5')) || '', (await cell('C16')) || '']).toEqual([
      72,
      '',
      '',
    ]);
  });

  it('answers a wrong argument with its sentence', async () => {
    const page = await pane();
    await tab(page, 'Functions').click();
    await page.locator('[data-id="SOW.DATE"]').first().click();
    await page.locator('.function-form input').nth(0).fill('2026-06-01');
    await page.locator('.function-form input').nth(1).fill('letuce');
    await page.locator('.result').getByText('the nearest name is "lettuce"').waitFor();
  });

  it('works with the keyboard alone, and leads back to where one was', async () => {
    const page = await pane();
    await dewPointByKeyboard(page);
    const focused = await page.evaluate(
      () => (document.activeElement as HTMLElement).dataset['id'],
    );
    expect(focused).toBe('AIR.DEWPOINT');
  });
});

describe('Check and Hand over', () => {
  it('reads the sheets and says what it found', async () => {
    const page = await pane();
    await tab(page, 'Check').click();
    await page.getByRole('button', { name: 'Check the workbook' }).click();
    const found = page.locator('.finding', { hasText: '72' }).first();
    await found.waitFor();
    await found.getByRole('button', { name: 'Go to Records, B3' }).click();
    await expect
      .poll(() => page.evaluate(() => window.excel.workbook.selection))
      .toEqual({ sheet: 'Records', address: 'B3' });
  });

  it('says why a number stands in the selected cell', async () => {
    const page = await pane();
    const rows = [
      [word('Length'), typed(8)],
      [word('Double'), computed('B1*2')],
    ];
    const bytes = [...writeXlsx(smallBook([smallSheet('Records', rows)]), () => 16)];
    await page.evaluate((file) => {
      window.excel.file.bytes = new Uint8Array(file);
      window.excel.workbook.selection = { sheet: 'Records', address: 'B2' };
    }, bytes);
    await tab(page, 'Check').click();
    await page.getByRole('button', { name: 'Explain the selected cell' }).click();
    await page.getByRole('heading', { name: 'Records!B2, Double: 16' }).waitFor();
    await page.getByText('It is [Length] × 2.').waitFor();
    await page.getByText(/^What would change it by 10 % is computed where/).waitFor();
  });

  it('opens a copy without GILL as a new workbook, and downloads it where Excel refuses', async () => {
    const page = await pane();
    const bytes = [...readFileSync('sample-workbooks/larkfield-school-live.xlsx')];
    await page.evaluate((file) => {
      window.excel.file.bytes = new Uint8Array(file);
    }, bytes);
    await tab(page, 'Hand over').click();
    const make = page.getByRole('button', { name: 'Make the copy' });
    await make.click();
    await page.getByText('The copy is open as a new workbook').waitFor();
    expect(await page.evaluate(() => window.excel.workbook.newWorkbooks.length)).toBe(1);
    await page.evaluate(() => {
      window.excel.host.beforeRequest = () => {
        throw new Error('Excel opens nothing now');
      };
    });
    const [download] = await Promise.all([page.waitForEvent('download'), make.click()]);
    expect(download.suggestedFilename()).toBe('without-gillbed.xlsx');
    for (const step of [0, 1]) {
      await page.evaluate((at) => {
        window.excel.file.failAtStep = at;
      }, step);
      await make.click();
      await page.getByText(`No copy was made: no file at step ${step}`).waitFor();
    }
    expect(
      await page.evaluate(() => [window.excel.file.open, window.excel.workbook.sheets.length]),
    ).toEqual([0, 2]);
  });

  it('lists what came back otherwise, and takes it over into a copy', async () => {
    const page = await pane();
    const book = (metres: number): number[] => [
      ...writeXlsx(smallBook([smallSheet('Records', [[word('Length'), typed(metres)]])]), () => 0),
    ];
    await page.evaluate((file) => {
      window.excel.file.bytes = new Uint8Array(file);
    }, book(8));
    await tab(page, 'Hand over').click();
    await page
      .getByLabel('Copy that came back')
      .setInputFiles({ name: 'back.xlsx', mimeType: '', buffer: Buffer.from(book(9)) });
    await page.getByText(/^1 of \d+ typed cells differs from yours\.$/).waitFor();
    await page.getByText(/8 → 9/).waitFor();
    await page.getByRole('button', { name: 'Take them over into a copy of mine' }).click();
    await page.getByText('Your workbook with these figures is open as a new one').waitFor();
    expect(await page.evaluate(() => window.excel.workbook.newWorkbooks.length)).toBe(1);
  });

  it('names a protected sheet that it cannot repair, and repairs the others', async () => {
    const page = await pane();
    await page.evaluate(() => {
      const { workbook } = window.excel;
      workbook.compute = () => '#NAME?';
      const broken = [['=_xldudf_GILL_FEED_AREA(1000,45)']];
      workbook.write(workbook.sheet('Notes'), { row: 0, column: 0, rows: 1, columns: 1 }, broken);
      workbook.write(workbook.sheet('Records'), { row: 0, column: 5, rows: 1, columns: 1 }, broken);
      workbook.sheet('Records').protected = true;
    });
    await tab(page, 'Hand over').click();
    await page.getByRole('button', { name: 'Repair the formulas' }).click();
    await page.getByText('1 of 2 formulas were entered again.').waitFor();
    await page.getByText('The sheet "Records" was skipped').waitFor();
  });

  it('enters broken formulas again', async () => {
    const page = await pane();
    await page.evaluate(() => {
      const { workbook } = window.excel;
      workbook.compute = () => '#NAME?';
      workbook.write(workbook.sheet('Notes'), { row: 0, column: 0, rows: 1, columns: 1 }, [
        ['=_xldudf_GILL_FEED_AREA(1000,45)'],
      ]);
    });
    await tab(page, 'Hand over').click();
    await page.getByRole('button', { name: 'Repair the formulas' }).click();
    await page.getByText('1 of 1 formulas were entered again.').waitFor();
    expect(await page.evaluate(() => window.excel.workbook.cell('Notes', 'A1')?.formula)).toBe(
      '=GILL.FEED.AREA(1000,45)',
    );
  });
});

// Colours do not hang on the width, nor the layout on the colours: each stands in one of the two.
describe.each([
  { width: 320, systemDark: true },
  { width: 480, systemDark: false },
])('at $width px, the system dark: $systemDark', (options) => {
  it('breaks no rule of accessibility with everything open, and never scrolls sideways', async () => {
    const page = await pane(options);
    expect(await page.locator('#pane').getAttribute('data-theme')).toBe(
      options.systemDark ? 'dark' : 'light',
    );
    expect(await violations(page), 'start').toEqual([]);
    await openExample(page);
    await page.getByRole('button', { name: 'Build the plan' }).click();
    for (const title of await page.locator('details.section > summary').all()) await title.click();
    // Each kind of row, in a place of its own on the page.
    for (const rows of await page.locator('.rows').all())
      await rows.locator('details.row > summary').first().click();
    await page.evaluate(() => window.excel.select('Records', 'A1:C4'));
    await page.getByRole('button', { name: 'Take from the sheet: each tank' }).click();
    await page.getByText('0 rows from Records!A1:C4').waitFor();
    await page.getByLabel('Latitude').fill('95');
    await page.getByText('got 95').waitFor();
    expect(await violations(page), 'plan').toEqual([]);
    expect(await overflow(page), 'plan').toBe(0);
    await tab(page, 'Functions').click();
    for (const id of ['STOCK.FORECAST', 'SOW.SERIES']) {
      await page.locator(`[data-id="${id}"]`).first().click();
      await page.locator('.function-form input').first().fill('x');
      await page.locator('.answer.bad').waitFor();
      expect(await violations(page), id).toEqual([]);
      expect(await overflow(page), id).toBe(0);
      await page.keyboard.press('Escape');
    }
    await tab(page, 'Check').click();
    await page.getByRole('button', { name: 'Check the workbook' }).click();
    await page
      .locator('[data-page=check] [role=status]')
      .getByText(/found|finding/)
      .waitFor();
    expect(await violations(page), 'check').toEqual([]);
  });
});
