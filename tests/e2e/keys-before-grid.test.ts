import { expect, it } from 'vitest';
import { openBrowser } from '../tools/browser';
import { serveWorkbench } from '../tools/workbench-page';

it('has no cell to type into before the grid has drawn, and leaves the focus where somebody put it', async () => {
  const server = await serveWorkbench();
  const browser = await openBrowser();
  try {
    const page = await (await browser.newContext({ serviceWorkers: 'block' })).newPage();
    const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.id ?? '');
    let goOn = (): void => undefined;
    const held = new Promise<void>((resolve) => (goOn = resolve));
    await page.route('**/demo-workbook.json*', async (route) => {
      await held;
      await route.continue();
    });
    await page.goto(`${server.origin}/index.html`);
    const waiting = page.getByText('Laying out the sheets');
    await waiting.waitFor();
    await page.keyboard.type('77');
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement === document.body)).toBe(true);
    await page.keyboard.press('Tab');
    expect(await focused()).toBe('open');
    goOn();
    await page.locator('.o-grid canvas').first().waitFor();
    await waiting.waitFor({ state: 'detached' });
    await page.locator('#pane [role="tabpanel"]').first().waitFor({ state: 'attached' });
    expect(await focused()).toBe('open');
    // Nothing came into the cell that is selected first.
    expect(await page.locator('.o-topbar-composer').first().textContent()).toMatch(/Quillwater/);
  } finally {
    await browser.close();
    await server.close();
  }
});
