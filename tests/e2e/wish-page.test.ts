import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { overflow, violations } from '../tools/axe';
import { openBrowser } from '../tools/browser';
import { builtFolder } from '../tools/built-folder';
import { openPane } from '../tools/pane-page';
import { serveFolder, type StaticServer } from '../tools/static-server';

let server: StaticServer;
let browser: Browser;

beforeAll(async () => {
  server = await serveFolder(await builtFolder());
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
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

describe('a plan of one’s own from a wish', () => {
  it.each([320, 390])('takes at most twelve entries, %i px wide', async (width) => {
    const { page, context, complaints } = await openPane(browser, server.origin, { width });
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
    await page.getByText('The plan stands.').waitFor({ timeout: 60_000 });
    expect(entries.count).toBeLessThanOrEqual(12);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
