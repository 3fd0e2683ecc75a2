/**
 * What a thousand years of Quillwater take on the page Chances of the built workbench, in the browser's own worker:
 * from the click until the bands show, the plan read and the worker fetched among it. The goal is 5 s on two cores.
 *
 *     npm run bench:chances             of today's build
 *     npm run bench:chances -- dist     of one that is there
 */
import { openBrowser } from '../tools/browser';
import { tab } from '../tools/pane-page';
import { serveFolder } from '../tools/static-server';
import { serveWorkbench, WorkbenchPage } from '../tools/workbench-page';

const RUNS = 5;
const GOAL = 5;
const asked = { Weeks: '52', 'Years played': '1000' } as const;

const folder = process.argv[2];
const server = folder === undefined ? await serveWorkbench() : await serveFolder(folder);
const browser = await openBrowser();
try {
  const workbench = await WorkbenchPage.open(browser, server.origin, { width: 1280 });
  const { page } = workbench;
  await tab(page, 'Chances').click();
  const go = page.getByRole('button', { name: 'Play the weeks ahead' });
  await go.waitFor();
  for (const [label, text] of Object.entries(asked)) await page.getByLabel(label).fill(text);
  const times: number[] = [];
  for (let run = 0; run < RUNS; run++) {
    // Each run with another seed, so that what came before cannot be taken for it.
    await page.getByLabel('Seed').fill(String(run + 1));
    const from = performance.now();
    await go.click();
    await page.getByRole('button', { name: 'Cancel' }).waitFor();
    await page.getByRole('heading', { name: /^1000 times 52 weeks/ }).waitFor();
    times.push((performance.now() - from) / 1000);
    console.log(`run ${run + 1}: ${(times.at(-1) ?? NaN).toFixed(2)} s`);
  }
  const median = [...times].sort((a, b) => a - b)[RUNS >> 1] ?? NaN;
  console.log(
    `1,000 years of 52 weeks: ${median.toFixed(2)} s in the median of ${RUNS}; goal ${GOAL} s`,
  );
  process.exitCode = median <= GOAL ? 0 : 1;
  await workbench.watched.close();
} finally {
  await browser.close();
  await server.close();
}
