/**
 * What a page computes, by the clock of its own thread, which stands still while the machine does something else.
 */
import type { Browser, Page } from 'playwright-core';

interface TraceEvent {
  readonly name: string;
  /** A stretch of work is an X, a mark an I. */
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** Microseconds since the machine started, and of the thread's own computing. */
  readonly ts: number;
  readonly tts?: number;
  readonly tdur?: number;
}

export interface PageWork {
  /** Milliseconds of computing until grid and pane were drawn. */
  readonly before: number;
  /** The longest stretch of computing from then on, in which no key is answered. */
  readonly longest: number;
  /** All computing from then on. */
  readonly after: number;
}

const TASK = 'ThreadControllerImpl::RunTask';
const MARK = 'usable';
/** Both are there, and what shows of them has been drawn. */
const MARK_USABLE = `
  new MutationObserver((_, observer) => {
    if (!document.querySelector('fluent-tab') || !document.querySelector('.o-grid canvas')) return;
    observer.disconnect();
    requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => {
      performance.mark('${MARK}');
      document.documentElement.dataset.usable = 'yes';
    })));
  }).observe(document, { childList: true, subtree: true });`;

/** No more to do for so long, as far as the page was given its turn. */
const QUIET_MS = 1_000;

async function untilQuiet(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  const worked = async (): Promise<number> => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'ScriptDuration')?.value ?? 0;
  };
  for (let last = -1, now = await worked(); now - last > 0.01; now = await worked()) {
    last = now;
    await page.waitForTimeout(QUIET_MS);
  }
  await session.detach();
}

/** Opens the workbench in a new page and lets it come to rest. */
export async function workOfOpening(browser: Browser, page: Page, url: string): Promise<PageWork> {
  await page.addInitScript(MARK_USABLE);
  await browser.startTracing(page, { categories: ['toplevel', 'blink.user_timing'] });
  await page.goto(url, { waitUntil: 'commit' });
  await page.locator('html[data-usable]').waitFor({ state: 'attached' });
  await untilQuiet(page);
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString('utf8')) as {
    readonly traceEvents: readonly TraceEvent[];
  };
  const usable = traceEvents.find(({ name }) => name === MARK);
  if (usable?.tts === undefined) throw new Error('the page was not seen to be usable');
  const tasks = traceEvents.filter(
    ({ name, ph, pid, tid }) =>
      name === TASK && ph === 'X' && pid === usable.pid && tid === usable.tid,
  );
  const began = Math.min(...tasks.map(({ tts = Infinity }) => tts));
  const later = tasks.filter(({ ts }) => ts > usable.ts).map(({ tdur = 0 }) => tdur / 1000);
  return {
    before: (usable.tts - began) / 1000,
    longest: Math.max(0, ...later),
    after: later.reduce((sum, one) => sum + one, 0),
  };
}
