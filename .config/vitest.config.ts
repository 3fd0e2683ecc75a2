import { defineConfig } from 'vitest/config';
import { LongestFirst } from './longest-first';

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

export default defineConfig({
  test: {
    setupFiles: ['tests/tools/fixed-seed.ts'],
    sequence: { sequencer: LongestFirst },
    // The browser and LibreOffice are shared by several files, and two cores serve all.
    maxWorkers: 2,
    // Workbooks are much that is soon let go: with room for it memory is cleared away a third as often.
    execArgv: ['--max-semi-space-size=64'],
    testTimeout: 120_000,
    hookTimeout: 600_000,
    // One after the other: the build that the browser looks at is made beside the first.
    projects: [
      { extends: true, test: { name: 'apart', include: apart, sequence: { groupOrder: 0 } } },
      {
        extends: true,
        test: {
          name: 'browser',
          include: browser,
          globalSetup: 'tests/tools/start-build.ts',
          isolate: false,
          sequence: { groupOrder: 1 },
          // Pages wait for what they show a third of the time, and take little room here.
          maxWorkers: 3,
        },
      },
      {
        // Loading the project anew for each of a hundred files would cost more than most of them.
        extends: true,
        test: {
          name: 'together',
          include: ['tests/**/*.test.ts'],
          exclude: [...apart, ...browser, 'node_modules/**'],
          isolate: false,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
