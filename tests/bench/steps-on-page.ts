import { openBrowser } from '../tools/browser';
import { type Doing, workOnLarge } from '../tools/large-on-page';
import type { LargeKind } from '../tools/large-workbook';
import type { LongStep } from '../tools/steps-shown';
import { serveWorkbench } from '../tools/workbench-page';

/**
 * npm run bench:page -- [megabytes] [numbers|records]
 * The longest steps of the page in Chromium while a large file is opened, changed, kept, saved and found again, and
 * which of them began while nothing on the page said that something goes on.
 */

const [size = '5', only] = process.argv.slice(2);
const STEP_MS = 100;

const whole = (one: number): string => Math.round(one).toString();
const longest = (some: readonly LongStep[]): string =>
  whole(Math.max(0, ...some.map(({ duration }) => duration)));

function row(kind: LargeKind, { what, seconds, steps }: Doing): string {
  const list = steps
    .filter(({ duration }) => duration >= STEP_MS)
    .map(({ duration, said }) => `${whole(duration)}${said === '' ? ' (!)' : ''}`);
  const unsaid = steps.filter(({ said }) => said === '');
  return `| ${kind} | ${what} | ${seconds.toFixed(1)} s | ${longest(steps)} ms | ${longest(unsaid)} ms | ${list.join(', ')} |`;
}

const server = await serveWorkbench();
const browser = await openBrowser();
console.log(
  '| file | what | time | longest step | longest with nothing said | steps of 100 ms and more, (!) with nothing said |',
);
console.log('| --- | --- | --- | --- | --- | --- |');
try {
  for (const kind of ['numbers', 'records'] as const) {
    if (only !== undefined && only !== kind) continue;
    const file = [kind, Number(size)] as const;
    await workOnLarge(browser, server.origin, file, (doing) => console.log(row(kind, doing)));
  }
} finally {
  await browser.close();
  await server.close();
}
