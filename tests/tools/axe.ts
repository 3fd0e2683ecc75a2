import { readFileSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright-core';

const source = readFileSync(
  new URL('../../node_modules/axe-core/axe.min.js', import.meta.url),
  'utf8',
);

/** Puts axe-core into every page of a context, past the page's own policy. */
export const withAxe = (context: BrowserContext): Promise<unknown> => context.addInitScript(source);

interface AxeResults {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
  }[];
}

/** What axe-core finds wrong with what a part of the page shows now. */
export const violations = (page: Page, part = '#pane'): Promise<string[]> =>
  page.evaluate(async (where) => {
    const { axe } = globalThis as unknown as {
      axe: { run(part: string, options: object): Promise<AxeResults> };
    };
    // What passes is not asked for, and costs most of the time.
    const found = await axe.run(where, { resultTypes: ['violations'] });
    return found.violations.flatMap(({ id, nodes }) =>
      nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary}`),
    );
  }, part);

/** Pixels by which a part's content is wider than the part. */
export const overflow = (page: Page, part = '#pane'): Promise<number> =>
  page.locator(part).evaluate((element) => element.scrollWidth - element.clientWidth);
