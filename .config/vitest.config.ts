import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/**
 * These change what all files of a process share (Excel's globals, the insides of the spreadsheet library, the
 * environment), or need it untouched: each has a process of its own.
 */
const apart = [
  'tests/hosts/excel/!(cell-text|manifest).test.ts',
  'tests/engine/patches/{patches,upstream}.test.ts',
  'tests/setup/**/*.test.ts',
  'tests/soak/builds.test.ts',
];
const browser = ['tests/e2e/**/*.test.ts'];
/** These are for `npm run test:long` alone. */
const onlyLong = process.env['TESTS'] === 'long' ? [] : ['tests/**/*.long.test.ts'];

/**
 * Files that take long although they are small. Where vitest has measured nothing yet it begins with the largest,
 * and one of these at the end would leave a core with nothing to do.
 */
const FIRST = [
  'e2e/workbench-work',
  'e2e/workbench-pane',
  'e2e/sidebar',
  'hosts/excel/planned-rows-everywhere',
  'renew/renew',
  'guides/guides',
  'why/demo-plan-explained',
  'renew/quarter-in-registers',
  'plan/sample-workbooks',
  'handover/demo-plan-handed-over',
  'plain-equals-live',
  'size/farm-of-proposal',
  'plan/read-book',
  'terminal/ahead',
  'ahead/planned-rows',
  'terminal/commands',
  'terminal/renewed-files',
].map((name) => `/tests/${name}.test.ts`);

const rankOf = ({ moduleId }: TestSpecification): number => {
  const at = FIRST.findIndex((name) => moduleId.endsWith(name));
  return at < 0 ? FIRST.length : at;
};

const TURNS = ['apart', 'browser', 'together'];
const turnOf = ({ project }: TestSpecification): number => TURNS.indexOf(project.name);

/**
 * One project after the other, so that each process keeps what it has loaded, and none waits for the last file of the
 * one before: the build that the browser looks at is made beside those apart. In each, vitest's own order, with the
 * files of `FIRST` in front.
 */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    return sorted.sort((a, b) => turnOf(a) - turnOf(b) || rankOf(a) - rankOf(b));
  }
}

export default defineConfig({
  test: {
    setupFiles: ['tests/tools/fixed-seed.ts'],
    sequence: { sequencer: LongestFirst },
    // Two cores serve all; pages and LibreOffice are waited for a third of the time.
    maxWorkers: 3,
    // Workbooks are much that is soon let go: with room for it memory is cleared away a third as often.
    execArgv: ['--max-semi-space-size=64'],
    // Only what hangs takes so long, whatever else the machine does.
    testTimeout: 400_000,
    hookTimeout: 600_000,
    expect: { poll: { timeout: 60_000, interval: 100 } },
    projects: [
      { extends: true, test: { name: 'apart', include: apart, exclude: onlyLong } },
      {
        extends: true,
        test: {
          name: 'browser',
          include: browser,
          exclude: onlyLong,
          globalSetup: 'tests/tools/start-build.ts',
          isolate: false,
        },
      },
      {
        // Loading the project anew for each of a hundred files would cost more than most of them.
        extends: true,
        test: {
          name: 'together',
          include: ['tests/**/*.test.ts'],
          exclude: [...apart, ...browser, ...onlyLong, 'node_modules/**'],
          isolate: false,
        },
      },
    ],
  },
});
