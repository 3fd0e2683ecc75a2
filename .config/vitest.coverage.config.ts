import { defineConfig } from 'vitest/config';

/**
 * Lines and branches of the arithmetic and the cards, by the fast tests: no browser, LibreOffice or build.
 * Every line and every branch is taken. One that no cell leads to is taken out, or named here with its reason.
 */
export default defineConfig({
  test: {
    include: [
      'tests/{core,functions,reference}/**/*.test.ts',
      'tests/project/catalogue.test.ts',
      'tests/handover/calls.test.ts',
    ],
    setupFiles: ['tests/tools/fixed-seed.ts'],
    maxWorkers: 2,
    testTimeout: 60_000,
    coverage: {
      provider: 'v8',
      include: ['src/core/**/*.ts', 'src/functions/**/*.ts'],
      reporter: ['text', 'json-summary'],
      reportsDirectory: '.cache/coverage',
      thresholds: { lines: 100, branches: 100 },
    },
  },
});
