import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { overflow, violations } from '../tools/axe';
import { few } from '../tools/how-many';
import { openPane } from '../tools/pane-page';
import { leaveBrowser, sharedBrowser, sharedServer } from '../tools/shared-browser';
import type { StaticServer } from '../tools/static-server';

let server: StaticServer;
let browser: Browser;

beforeAll(async () => {
  server = await sharedServer();
  browser = await sharedBrowser();
});
afterAll(async () => {
  await leaveBrowser();
});

/** Does something with the page and counts it. */
class Entries {
  count = 0;
  constructor(private readonly page: Page) {}
  async press(name: string): Promise<void> {
    this.count++;
    await this.page.getByRole('button', { name }).click();
  }
  async type(label: string, text: string): Promise<void> {
    this.count++;
    await this.page.getByLabel(label).fill(text);
  }
  async choose(label: string, text: string): Promise<void> {
    this.count++;
    await this.page.getByLabel(label, { exact: true }).selectOption(text);
  }
}

/** Does the same with keys alone: Tab goes on, and what is typed goes to whatever has the focus. */
class Keys {
  count = 0;
  constructor(private readonly page: Page) {}
  /** Goes on with Tab, as far as a person would, to what bears that name. */
  private async reach(role: 'button' | 'textbox' | 'combobox', name: string): Promise<void> {
    const wanted = this.page.getByRole(role, { name, exact: role !== 'textbox' }).first();
    await wanted.waitFor();
    for (let i = 0; i < 150; i++) {
      if (await wanted.evaluate((element) => element === document.activeElement)) return;
      await this.page.keyboard.press('Tab');
    }
    throw new Error(`no Tab comes to ${role} "${name}"`);
  }
  async press(name: string): Promise<void> {
    this.count++;
    await this.reach('button', name);
    await this.page.keyboard.press('Enter');
  }
  async type(label: string, text: string): Promise<void> {
    this.count++;
    await this.reach('textbox', label);
    await this.page.keyboard.type(text);
  }
  /** Letters go to the first choice that begins with them. */
  async choose(label: string, text: string): Promise<void> {
    this.count++;
    await this.reach('combobox', label);
    await this.page.keyboard.type(text);
    const chosen = this.page.getByRole('combobox', { name: label, exact: true }).first();
    expect(await chosen.inputValue()).toBe(text);
  }
}

describe('a plan of one’s own from a wish', () => {
  it.each(few(1, [320, 390]))('needs at most twelve entries, %i px wide', async (width) => {
    const { page, complaints, close } = await openPane(browser, server.origin, { width });
    await page.getByRole('tab', { name: 'Plan' }).click();
    const entries = new Entries(page);
    await entries.press('Start from a wish');
    await entries.type('Latitude', '44');
    await entries.type('Coldest month', '12');
    await entries.type('Warmest month', '27');
    await entries.choose('Is the water heated?', 'yes');
    await entries.choose('Fish', 'Nile tilapia');
    await entries.type('Fish to sell', '100');
    await entries.choose('Crop', 'lettuce');
    await entries.type('So many a week', '200');
    await page.getByText(/The fish give way: \d+/).waitFor();
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    expect(await violations(page)).toEqual([]);
    await entries.press('Take this farm');
    await entries.press('Build the plan');
    await entries.press('Build now');
    await page.getByText('The plan stands.').waitFor();
    expect(entries.count).toBeLessThanOrEqual(12);
    expect(complaints).toEqual([]);
    await close();
  });

  it('needs no more by keyboard alone', async () => {
    const { page, complaints, close } = await openPane(browser, server.origin, { width: 320 });
    const keys = new Keys(page);
    await keys.press('Start from a wish');
    await keys.type('Latitude', '44');
    await keys.type('Coldest month', '12');
    await keys.type('Warmest month', '27');
    await keys.choose('Is the water heated?', 'yes');
    await keys.choose('Fish', 'Nile tilapia');
    await keys.type('Fish to sell', '100');
    await keys.choose('Crop', 'lettuce');
    await keys.type('So many a week', '200');
    await page.getByText(/The fish give way: \d+/).waitFor();
    await keys.press('Take this farm');
    await keys.press('Build the plan');
    await keys.press('Build now');
    await page.getByText('The plan stands.').waitFor();
    expect(keys.count).toBeLessThanOrEqual(12);
    expect(complaints).toEqual([]);
    await close();
  });
});
