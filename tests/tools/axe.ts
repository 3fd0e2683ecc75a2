import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';

const source = readFileSync(
  new URL('../../node_modules/axe-core/axe.min.js', import.meta.url),
  'utf8',
);

interface AxeResults {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
  }[];
}

/** Colours that are on their way are looked at again, so often at most. */
const LOOKS = 4;
const LOOK_AGAIN_MS = 500;

/** What axe-core finds wrong with what parts of the page show now. */
export async function violations(page: Page, ...parts: readonly string[]): Promise<string[]> {
  let found = await violationsNow(page, parts);
  for (let looks = 1; found.length > 0 && looks < LOOKS; looks++) {
    await page.waitForTimeout(LOOK_AGAIN_MS);
    found = await violationsNow(page, parts);
  }
  return found;
}

async function violationsNow(page: Page, parts: readonly string[]): Promise<string[]> {
  // Past the page's own policy, once a page.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(source);
  return page.evaluate(
    async (include) => {
      const { axe } = globalThis as unknown as {
        axe: { run(parts: object, options: object): Promise<AxeResults> };
      };
      // What passes is not asked for, and costs most of the time.
      const found = await axe.run({ include }, { resultTypes: ['violations'] });
      return found.violations.flatMap(({ id, nodes }) =>
        nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary}`),
      );
    },
    (parts.length > 0 ? parts : ['#pane']).map((part) => [part]),
  );
}

/** Pixels by which a part's content is wider than the part. */
export const overflow = (page: Page, part = '#pane'): Promise<number> =>
  page.locator(part).evaluate((element) => element.scrollWidth - element.clientWidth);
