import { performance } from 'node:perf_hooks';

/**
 * Runs collected tests with their hooks, one after another. Returns for each its id, name, time and, where it
 * failed, why; after the first failure no more where `bail` says so.
 */
export async function runTests(tests, { bail, before = () => undefined }) {
  const results = [];
  const ready = new Set();
  for (const { id, name, suite, body } of tests) {
    const started = performance.now();
    before(id);
    let failure;
    try {
      for (let one = suite; one; one = one.parent) {
        if (!ready.has(one)) for (const hook of one.hooks) await hook();
        ready.add(one);
      }
      await body();
    } catch (error) {
      failure = String(error?.message ?? error);
    }
    before(undefined);
    results.push({ id, name, timeSpentMs: performance.now() - started, failure });
    if (failure !== undefined && bail) break;
  }
  return results;
}
