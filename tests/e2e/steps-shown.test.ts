import { afterAll, expect, it } from 'vitest';
import { type Doing, workOnLarge } from '../tools/large-on-page';
import { leaveBrowser, sharedBrowser, sharedServer } from '../tools/shared-browser';

afterAll(leaveBrowser);

const WANTED = ['open', 'first edit', 'keep', 'a row comes in', 'undo the row', 'save'];

/** Half a megabyte: a row that comes in takes the grid some tenths of a second in one step. */
const FILE = ['records', 0.5] as const;

it('says that something goes on before it begins what takes long', async () => {
  const { origin } = await sharedServer();
  const doings: Doing[] = [];
  const note = (doing: Doing): void => void doings.push(doing);
  await workOnLarge(await sharedBrowser(), origin, FILE, note, (what) => WANTED.includes(what));
  const longest = (what: string): number =>
    Math.max(...(doings.find((one) => one.what === what)?.steps ?? []).map((s) => s.duration), 0);
  // By how long the grid takes for it, so that a machine with other work is no fault.
  const long = longest('a row comes in');
  expect(long).toBeGreaterThan(100);
  const unsaid = doings.flatMap(({ what, steps }) =>
    steps
      .filter(({ duration, said }) => said === '' && duration > Math.max(100, long / 2))
      .map(({ duration }) => `${what}: ${Math.round(duration)} ms`),
  );
  expect(unsaid).toEqual([]);
});
