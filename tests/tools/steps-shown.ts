/** Which long steps of a page began while nothing on it said that something goes on. */
import type { Page } from 'playwright-core';

/** A step in which the page answered nothing. */
export interface LongStep {
  /** In ms since the page began. */
  readonly start: number;
  readonly duration: number;
  /** What the last frame before it said goes on; '' where it said nothing. */
  readonly said: string;
}

interface Frame {
  readonly at: number;
  readonly said: string;
}

interface Notes {
  readonly tasks: readonly { readonly start: number; readonly duration: number }[];
  readonly frames: readonly Frame[];
}

/** The line above the grid is marked while it says what goes on. */
const NOTE = `
  window.stepNotes = { tasks: [], frames: [] };
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries())
      window.stepNotes.tasks.push({ start: startTime, duration });
  }).observe({ entryTypes: ['longtask'] });
  const frame = () => {
    const line = document.querySelector('[data-doing], .room-wait');
    const said = line ? line.textContent : '';
    const { frames } = window.stepNotes;
    if (frames.at(-1)?.said !== said) frames.push({ at: performance.now(), said });
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
`;

/** Has a page note its steps of 50 ms and more from its next load on; what is asked gives those since it was asked last. */
export async function noteLongSteps(page: Page): Promise<() => Promise<readonly LongStep[]>> {
  await page.addInitScript(NOTE);
  return async () => {
    const { tasks, frames } = await page.evaluate(() => {
      const { stepNotes } = globalThis as unknown as { stepNotes: Notes };
      return {
        tasks: (stepNotes.tasks as object[]).splice(0) as Notes['tasks'],
        frames: stepNotes.frames,
      };
    });
    return tasks.map(({ start, duration }) => ({
      start,
      duration,
      said: frames.filter(({ at }) => at <= start).at(-1)?.said ?? '',
    }));
  };
}
