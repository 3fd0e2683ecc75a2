import { afterEach, expect, it, vi } from 'vitest';
import { drawn } from '../../src/sidebar/drawn';

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** Whether it is drawn after so many milliseconds, where the page draws its frame only after others. */
async function isDrawn(visibilityState: string, frameAfter: number, ms: number): Promise<boolean> {
  vi.useFakeTimers();
  vi.stubGlobal('document', { visibilityState });
  vi.stubGlobal('requestAnimationFrame', (draw: () => void) => setTimeout(draw, frameAfter));
  let isDone = false;
  void drawn().then(() => (isDone = true));
  await vi.advanceTimersByTimeAsync(ms);
  return isDone;
}

it('waits for the frame of a page in sight, however busy the machine is', async () => {
  expect(await isDrawn('visible', 2_000, 1_900)).toBe(false);
  expect(await isDrawn('visible', 2_000, 2_010)).toBe(true);
});

it('does not wait long for a page in the background, which draws nothing', async () => {
  expect(await isDrawn('hidden', 60_000, 290)).toBe(false);
  expect(await isDrawn('hidden', 60_000, 310)).toBe(true);
});
