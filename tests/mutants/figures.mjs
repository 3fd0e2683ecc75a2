/* global clearTimeout, setTimeout */
/**
 * Changes each figure written in the core by a hundredth (a 0 to 1), one at a time, and lists those that no fast
 * test notices: Stryker changes operators and texts, but no numbers. The tables of data are left out.
 * `npm run mutate:figures -- [part of a file's name]`
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import ts from 'typescript';
import { bundled } from './bundle.mjs';
import { runTests } from './run-tests.mjs';

const CORE = 'src/core';
/** A loop that no longer ends is noticed too; the run with nothing changed has to end within the same time. */
const MAX_SECONDS = 300;

/** Every numeric literal of a file, with its place. */
function figuresOf(file, only) {
  const source = ts.createSourceFile(
    file,
    readFileSync(file, 'utf8'),
    ts.ScriptTarget.Latest,
    true,
  );
  const found = [];
  const look = (node) => {
    if (ts.isNumericLiteral(node) && !ts.isLiteralTypeNode(node.parent)) {
      const { line } = source.getLineAndCharacterOfPosition(node.getStart());
      const whole = source.text.split('\n')[line].trim();
      found.push({ file, from: node.getStart(), to: node.getEnd(), line: line + 1, whole });
    }
    ts.forEachChild(node, look);
  };
  look(source);
  return file.includes(only) ? found : [];
}

const figures = (only) =>
  readdirSync(CORE)
    .filter((name) => name.endsWith('.ts'))
    .flatMap((name) => figuresOf(join(CORE, name), only));

/** Each figure becomes a question whether it is the one to be changed. */
const changeable = (all) => ({
  name: 'changeable figures',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]src[\\/]core[\\/][^\\/]+\.ts$/ }, ({ path }) => {
      let contents = readFileSync(path, 'utf8');
      const here = relative(process.cwd(), path);
      // From the end, so that the places before stay where they are.
      for (let at = all.length - 1; at >= 0; at--) {
        const { file, from, to } = all[at];
        if (file !== here) continue;
        const text = contents.slice(from, to);
        contents = `${contents.slice(0, from)}(isChanged(${at}) ? ${text} * 1.01 || 1 : ${text})${contents.slice(to)}`;
      }
      return { contents, loader: 'ts' };
    });
  },
});

const fileOf = ({ name }) => name.split(' > ')[0];

/**
 * Runs everything once with nothing changed, and tells which tests reach a figure, the quickest first, and behind
 * them the rest of their files, which may read what a hook has made. A figure that is read while the files load is
 * every test's. Throws where a test fails, since it would take every figure for noticed.
 */
async function testsOfFigures(load) {
  const reached = new Map();
  let running;
  globalThis.isChanged = (at) => {
    if (!reached.has(at)) reached.set(at, new Set());
    reached.get(at).add(running);
    return false;
  };
  const results = await runTests(load(), {
    bail: true,
    before: (id) => {
      running = id;
    },
  });
  const failed = results.find(({ failure }) => failure !== undefined);
  if (failed) throw new Error(`${failed.name} fails with nothing changed: ${failed.failure}`);
  const quickestFirst = results.sort((a, b) => a.timeSpentMs - b.timeSpentMs);
  return (at) => {
    const by = reached.get(at) ?? new Set();
    if (by.has(undefined)) return quickestFirst.map(({ id }) => id);
    const first = quickestFirst.filter(({ id }) => by.has(id));
    const files = new Set(first.map(fileOf));
    const then = quickestFirst.filter((test) => !by.has(test.id) && files.has(fileOf(test)));
    return [...first, ...then].map(({ id }) => id);
  };
}

/** Whether one of these tests fails with the figure changed. */
async function isNoticed(load, figure, ids) {
  globalThis.isChanged = (at) => at === figure;
  try {
    const tests = new Map(load().map((test) => [test.id, test]));
    const results = await runTests(
      ids.map((id) => tests.get(id)),
      { bail: true },
    );
    return results.some(({ failure }) => failure !== undefined);
  } catch {
    // The files no longer load.
    return true;
  }
}

if (isMainThread) {
  const only = process.argv[2] ?? '';
  const all = figures(only);
  let next = 0;
  let unnoticed = 0;
  const work = () =>
    new Promise((done) => {
      const worker = new Worker(new URL(import.meta.url), { workerData: { only, from: next } });
      let watch;
      const wait = () => {
        clearTimeout(watch);
        watch = setTimeout(() => worker.terminate(), MAX_SECONDS * 1000);
      };
      wait();
      worker.on('message', ({ id, noticed }) => {
        wait();
        next = id + 1;
        if (noticed) return;
        unnoticed += 1;
        const { file, line, from, to, whole } = all[id];
        console.log(`${file}:${line} ${readFileSync(file, 'utf8').slice(from, to)} in: ${whole}`);
      });
      worker.on('error', (error) => {
        console.error(error);
        process.exitCode = 1;
        next = all.length;
      });
      worker.on('exit', () => {
        clearTimeout(watch);
        done();
      });
    });
  while (next < all.length) {
    const before = next;
    await work();
    // Stopped by the watch: the figure it was at made a loop without end.
    if (next < all.length) next += 1;
    if (next === before) break;
  }
  console.log(`${all.length} figures changed, ${unnoticed} of them unnoticed`);
} else {
  const all = figures(workerData.only);
  const load = await bundled([changeable(all)]);
  const testsOf = await testsOfFigures(load);
  for (let id = workerData.from; id < all.length; id++)
    parentPort.postMessage({ id, noticed: await isNoticed(load, id, testsOf(id)) });
}
