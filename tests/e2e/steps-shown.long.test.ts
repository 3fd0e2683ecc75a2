import { expect, it } from 'vitest';
import { openBrowser } from '../tools/browser';
import { workOnLarge } from '../tools/large-on-page';
import { serveWorkbench } from '../tools/workbench-page';

/** The goal is a tenth of a second with nothing else at work, which no machine of tests is free of. */
const STEP_MS = 250;

it.each(['numbers', 'records'] as const)(
  'says what goes on before each long step on a file of 5 MB of %s',
  async (kind) => {
    const server = await serveWorkbench();
    const browser = await openBrowser();
    try {
      const unsaid: string[] = [];
      await workOnLarge(browser, server.origin, [kind, 5], ({ what, steps }) => {
        for (const { duration, said } of steps) {
          if (said === '' && duration > STEP_MS) unsaid.push(`${what}: ${Math.round(duration)} ms`);
        }
      });
      expect(unsaid).toEqual([]);
    } finally {
      await browser.close();
      await server.close();
    }
  },
);
