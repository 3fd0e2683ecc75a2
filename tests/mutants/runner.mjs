/**
 * Test runner for Stryker: the tests of this project's vitest files, run in Stryker's own process. Vitest
 * itself starts a worker and loads every package for each mutant, seconds of work for milliseconds of test.
 */
import { declareFactoryPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import {
  DryRunStatus,
  determineHitLimitReached,
  TestStatus,
  toMutantRunResult,
} from '@stryker-mutator/api/test-runner';
import { bundled } from './bundle.mjs';
import { runTests } from './run-tests.mjs';

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
    const results = await runTests(tests, {
      bail,
      before: (id) => {
        this.space.currentTestId = id;
      },
    });
    return results.map(({ failure, ...shared }) =>
      failure === undefined
        ? { ...shared, status: TestStatus.Success }
        : { ...shared, status: TestStatus.Failed, failureMessage: failure },
    );
  }
}

export const strykerPlugins = [
  declareFactoryPlugin(PluginKind.TestRunner, 'in-process', () => new Runner()),
];
