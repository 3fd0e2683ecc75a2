/**
 * Sizes 1,000 random wishes, half of them with every answer, looks each proposal through, and builds the plan of
 * every tenth, and of the smallest wish with one answer left out: npm run soak:wishes [-- HOW_MANY [SEED]]. A part of them has a process of its own, since the engine
 * keeps what it compiled as long as its process lives.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { propose } from '../../src/size/proposal';
import { readWish } from '../../src/size/wish';
import { DAY, planFaults, planOf, proposalFaults } from '../size/wish-faults';
import { anyWish, wholeWish } from '../tools/any-wish';
import { smallestWish } from '../tools/smallest-wish';

const [many = 1000, seed = 1, from, to] = process.argv.slice(2).map(Number);
const PART = 100;

if (from === undefined) {
  let faulty = false;
  for (let start = 0; start < many; start += PART) {
    const part = [many, seed, start, Math.min(many, start + PART)].map(String);
    const child = [...process.execArgv, fileURLToPath(import.meta.url), ...part];
    faulty = spawnSync(process.execPath, child, { stdio: 'inherit' }).status !== 0 || faulty;
  }
  process.exit(faulty ? 1 : 0);
}

const half = Math.ceil(many / 2);
/** The smallest wish with one answer left out, each in turn. */
const shorter = [
  ...Object.keys(smallestWish).map((answer) =>
    Object.fromEntries(Object.entries(smallestWish).filter(([key]) => key !== answer)),
  ),
  { ...smallestWish, fish: { kgPerMonth: 100 } },
  { ...smallestWish, fish: { species: 'Nile tilapia' } },
];
const wishes: unknown[] = [
  ...fc.sample(wholeWish, { numRuns: half, seed }),
  ...fc.sample(anyWish, { numRuns: many - half, seed }),
];
const MAX_BEDS = 60;
const bedsOf = (wish: unknown): number =>
  propose(readWish(wish, DAY)).beds.reduce((sum, { count }) => sum + count, 0);
let faulty = 0;
let built = 0;
/** Beds stay without a crop where nobody said what to grow, or the months allow none of it: a remark says so. */
const expected = /have no crop|has no crop/;

function lookAt(name: string, wish: unknown, isBuilt: boolean): void {
  const faults: string[] = [];
  try {
    faults.push(...proposalFaults(wish));
    // The engine takes gigabytes for the plans of villages.
    if (isBuilt && bedsOf(wish) <= MAX_BEDS) {
      built++;
      faults.push(...planFaults(planOf(wish)).filter((one) => !expected.test(one)));
    }
  } catch (thrown) {
    faults.push(String((thrown as Error).stack));
  }
  if (faults.length === 0) return;
  faulty++;
  console.log(`${name}: ${JSON.stringify(wish)}\n  ${faults.slice(0, 4).join('\n  ')}`);
}

if (from === 0) shorter.forEach((wish, i) => lookAt(`short wish ${i}`, wish, true));
wishes.forEach((wish, i) => {
  if (i >= from && i < (to ?? many)) lookAt(`wish ${i}`, wish, i % 10 === 0);
});
console.log(`wishes ${from} to ${(to ?? many) - 1}, ${built} of them built: ${faulty} with faults`);
process.exitCode = faulty > 0 ? 1 : 0;
