/** What a visit to the workbench is measured with. */
import type { BrowserContext, Page } from 'playwright-core';

/** Puts an empty workbook where the page keeps the work of the last visit. */
const KEEP_EMPTY = `new Promise((done, fail) => {
  const opening = indexedDB.open('gillbed-workbench', 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore('work');
  opening.onerror = fail;
  opening.onsuccess = () => {
    const change = opening.result.transaction('work', 'readwrite');
    change.objectStore('work').put({ data: {} }, 'current');
    change.onerror = fail;
    change.oncomplete = () => { opening.result.close(); done(); };
  };
})`;

/** The next page of the context finds an empty workbook as the work of the last visit. */
export async function keepEmptyWorkbook(context: BrowserContext, origin: string): Promise<void> {
  const before = await context.newPage();
  await before.goto(`${origin}/service-worker.js`);
  await before.evaluate(KEEP_EMPTY);
  await before.close();
}

export interface LongTask {
  readonly start: number;
  readonly duration: number;
}

/** Has a page note the tasks of 50 ms and more that it does from its next load on. */
export async function noteLongTasks(page: Page): Promise<() => Promise<readonly LongTask[]>> {
  await page.addInitScript(`
    window.longTasks = [];
    new PerformanceObserver((list) => {
      for (const { startTime, duration } of list.getEntries())
        window.longTasks.push({ start: startTime, duration });
    }).observe({ entryTypes: ['longtask'] });
  `);
  return () =>
    page.evaluate(() => (globalThis as unknown as { longTasks: readonly LongTask[] }).longTasks);
}
