/**
 * Test runner for Stryker: the tests of this project's vitest files, run in Stryker's own process. Vitest
 * itself starts a worker and loads every package for each mutant, seconds of work for milliseconds of test.
 */
import { performance } from 'node:perf_hooks';
import { declareFactoryPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import {
  DryRunStatus,
  determineHitLimitReached,
  TestStatus,
  toMutantRunResult,
} from '@stryker-mutator/api/test-runner';
import { bundled } from './bundle.mjs';

/** Stryker gives up at a hundred times the work of the sound program; five times is enough to tell a loop. */
const SOONER = 20;

class Runner {
  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    this.space = globalThis.__stryker__ ??= {};
    this.load = await bundled();
  }

  async dryRun() {
    this.space.activeMutant = undefined;
    const tests = await this.run(this.load(), { bail: false });
    return { status: DryRunStatus.Complete, tests, mutantCoverage: this.space.mutantCoverage };
  }

  async mutantRun({ testFilter, activeMutant, mutantActivation, hitLimit, disableBail }) {
    const { space } = this;
    const most = hitLimit === undefined ? undefined : hitLimit / SOONER;
    Object.assign(space, { hitCount: 0, hitLimit: most, activeMutant: undefined });
    try {
      if (mutantActivation === 'static') space.activeMutant = activeMutant.id;
      // Loaded anew each time: nothing that one mutant left in a cache reaches the next.
      const tests = this.load();
      space.activeMutant = activeMutant.id;
      const wanted = testFilter && new Set(testFilter);
      const chosen = wanted ? tests.filter(({ id }) => wanted.has(id)) : tests;
      const results = await this.run(chosen, { bail: !disableBail });
      const timeout = determineHitLimitReached(space.hitCount, most);
      return toMutantRunResult(timeout ?? { status: DryRunStatus.Complete, tests: results });
    } catch (error) {
      // The files no longer load: every test would have failed.
      return {
        status: 'killed',
        killedBy: testFilter?.slice(0, 1) ?? [],
        failureMessage: String(error),
        nrOfTests: 0,
      };
    } finally {
      space.activeMutant = undefined;
    }
  }

  async run(tests, { bail }) {
    const results = [];
    const ready = new Set();
    for (const { id, name, suite, body } of tests) {
      const started = performance.now();
      this.space.currentTestId = id;
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
      this.space.currentTestId = undefined;
      const shared = { id, name, timeSpentMs: performance.now() - started };
      results.push(
        failure === undefined
          ? { ...shared, status: TestStatus.Success }
          : { ...shared, status: TestStatus.Failed, failureMessage: failure },
      );
      if (failure !== undefined && bail) break;
    }
    return results;
  }
}

export const strykerPlugins = [
  declareFactoryPlugin(PluginKind.TestRunner, 'in-process', () => new Runner()),
];
