/** Takes the pictures of README and guides anew from today's build: npm run pictures. */
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { openBrowser } from './browser';
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
} finally {
  await browser.close();
  await server.close();
}
