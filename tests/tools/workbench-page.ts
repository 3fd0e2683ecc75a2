import type { Browser, Page } from 'playwright-core';
import { builtFolder } from './built-folder';
import { openPage, type PageOptions, type WatchedPage } from './browser';
import { serveFolder, type StaticServer } from './static-server';

/** The built workbench on a server of its own. */
export const serveWorkbench = async (): Promise<StaticServer> => serveFolder(await builtFolder());

/** What stands in the editor of the cell in front. */
const edited = (page: Page): Promise<string> =>
  page.evaluate(() => document.activeElement?.textContent ?? '');

/**
 * Types into the cell in front in place of what it holds. Keys that come while the grid still draws the cell can
 * land beside what it held: no hand is as quick, so that the cell is left and typed into once more.
 */
export async function typeAnew(page: Page, text: string): Promise<void> {
  for (let tries = 0; ; tries++) {
    await page.waitForTimeout(150);
    await page.keyboard.type(text);
    if (text.startsWith('=') || (await edited(page)) === text) return;
    if (tries === 4) throw new Error(`the editor holds "${await edited(page)}", not "${text}"`);
    await page.keyboard.press('Escape');
  }
}

/** The workbench as a grower uses it: with mouse, keyboard and clipboard, from the outside. */
export class WorkbenchPage {
  private constructor(readonly watched: WatchedPage) {}

  static async open(
    browser: Browser,
    origin: string,
    { hash = '', ...options }: PageOptions & { readonly hash?: string } = {},
  ): Promise<WorkbenchPage> {
    const watched = await openPage(browser, `${origin}/${hash}`, options);
    await watched.context.grantPermissions(['clipboard-read', 'clipboard-write'], { origin });
    const page = new WorkbenchPage(watched);
    // On a telephone a page of the pane that the address names hides the grid.
    if (hash === '') await page.ready();
    else
      await watched.page.locator('#pane [role="tabpanel"]').first().waitFor({ state: 'attached' });
    return page;
  }

  get page(): WatchedPage['page'] {
    return this.watched.page;
  }

  async ready(): Promise<void> {
    await this.page.locator('.o-grid canvas').first().waitFor();
    await this.page.locator('#pane [role="tabpanel"]').first().waitFor({ state: 'attached' });
  }

  sheetNames(): Promise<string[]> {
    return this.page
      .locator('.o-sheet')
      .evaluateAll((tabs) => tabs.map((tab) => tab.getAttribute('title') ?? ''));
  }

  async goToSheet(name: string): Promise<void> {
    await this.page.locator(`.o-sheet[title="${name}"]`).click();
    await this.page.locator(`.o-sheet.active[title="${name}"]`).waitFor();
  }

  /** Goes to a cell or block of the sheet in front, through the name box. */
  async select(address: string): Promise<void> {
    const box = this.page.locator('.o-named-range-selector input');
    await box.click();
    await box.fill(address);
    // Not the Enter key: the grid may see it too, and open the cell for editing.
    await box.dispatchEvent('change');
    await this.page.waitForFunction((wanted) => {
      const input = document.querySelector<HTMLInputElement>('.o-named-range-selector input');
      return input?.value === wanted && document.activeElement !== input;
    }, address);
    await this.drawn();
  }

  /** The grid takes keys rightly once it has drawn the new selection; no hand is as quick as this one. */
  private async drawn(): Promise<void> {
    await this.page.evaluate(
      () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
    );
    await this.page.waitForTimeout(150);
  }

  async type(address: string, content: string): Promise<void> {
    await this.select(address);
    await typeAnew(this.page, content);
    await this.page.keyboard.press('Enter');
  }

  /** What a block shows, row by row, as the clipboard gets it. */
  async read(address: string): Promise<string[][]> {
    await this.select(address);
    await this.page.evaluate(() => navigator.clipboard.writeText(''));
    await this.page.keyboard.press('Control+c');
    const text = await this.clipboard();
    await this.page.keyboard.press('Escape');
    return text.split('\n').map((line) => line.split('\t'));
  }

  /** The clipboard's text, which the grid fills a moment after the keys were pressed. */
  private async clipboard(): Promise<string> {
    for (let tries = 0; tries < 200; tries++) {
      const text = await this.page.evaluate(() => navigator.clipboard.readText());
      if (text !== '') return text;
      await this.page.waitForTimeout(25);
    }
    throw new Error('Nothing came to the clipboard');
  }

  /** Address of the cell to the right of a label in the first columns of the sheet in front. */
  async cellBeside(label: string): Promise<string> {
    const rows = await this.read('A1:C60');
    const row = rows.findIndex(([first]) => first === label);
    if (row < 0) throw new Error(`No cell of column A says "${label}"`);
    return `B${row + 1}`;
  }

  /** Rests the mouse on a cell. */
  async hover(address: string): Promise<void> {
    await this.select(address);
    const corner = await this.page.locator('.o-autofill').boundingBox();
    if (!corner) throw new Error(`${address} is not in sight`);
    await this.page.mouse.move(corner.x - 20, corner.y - 3);
    await this.page.mouse.move(corner.x - 22, corner.y - 4);
  }

  async readNumber(address: string): Promise<number> {
    const text = (await this.read(address))[0]?.[0] ?? '';
    const value = Number(text.replaceAll(',', ''));
    if (text === '' || !Number.isFinite(value)) throw new Error(`${address} shows "${text}"`);
    return value;
  }
}
