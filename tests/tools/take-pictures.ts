/** Takes the pictures of README and guides anew from today's build: npm run pictures. */
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { openBrowser } from './browser';
import { openPane } from './pane-page';
import { serveWorkbench, WorkbenchPage } from './workbench-page';

const FOLDER = 'src/reference/pictures';
/** Of the format's 100: letters stay sharp, and a picture takes some tens of kilobytes. */
const QUALITY = 80;

interface Clip {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

async function take(page: Page, name: string, clip: Clip): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const { data } = await session.send('Page.captureScreenshot', {
    format: 'webp',
    quality: QUALITY,
    clip: { ...clip, scale: 1 },
  });
  const bytes = Buffer.from(data, 'base64');
  await writeFile(join(FOLDER, name), bytes);
  console.log(`${join(FOLDER, name)}: ${Math.round(bytes.length / 1024)} kB`);
}

/** The wish page with eight answers, and the proposal as far as it is in sight. */
async function takeWish(page: Page): Promise<void> {
  await page.setViewportSize({ width: 390, height: 1400 });
  await page.getByRole('tab', { name: 'Plan' }).click();
  await page.getByRole('button', { name: 'Start from a wish' }).click();
  const typed = { Latitude: '44', 'Coldest month': '12', 'Warmest month': '27' };
  const sold = { 'Fish to sell': '100', 'So many a week': '200' };
  for (const [label, text] of Object.entries({ ...typed, ...sold }))
    await page.getByLabel(label).fill(text);
  const chosen = { 'Is the water heated?': 'yes', Fish: 'Nile tilapia', Crop: 'lettuce' };
  for (const [label, text] of Object.entries(chosen))
    await page.getByLabel(label, { exact: true }).selectOption(text);
  await page.getByText(/The fish give way/).waitFor();
  await page.waitForTimeout(500);
  const top = (await page.getByRole('heading', { name: 'Start from a wish' }).boundingBox())?.y;
  if (top === undefined) throw new Error('The wish is not in sight');
  await take(page, 'wish.webp', { x: 0, y: top - 8, width: 390, height: 1140 });
}

const size = { width: 1360, height: 840 };
await mkdir(FOLDER, { recursive: true });
const [browser, server] = [await openBrowser(), await serveWorkbench()];
try {
  const workbench = await WorkbenchPage.open(browser, server.origin, size);
  const { page } = workbench;
  await workbench.goToSheet('Start');
  await page.waitForTimeout(500);
  await take(page, 'workbench.webp', { x: 0, y: 0, ...size });

  await page.getByRole('tab', { name: 'Hand over' }).click();
  await page.waitForTimeout(500);
  const pane = await page.locator('#pane').boundingBox();
  if (!pane) throw new Error('The pane is not in sight');
  await take(page, 'hand-over.webp', { ...pane, height: Math.min(pane.height, 475) });

  const beside = await openPane(browser, server.origin, { width: 390 });
  await takeWish(beside.page);
} finally {
  await browser.close();
  await server.close();
}
