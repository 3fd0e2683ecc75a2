import { defineConfig } from 'vitest/config';

/**
 * Lines and branches of the arithmetic and the cards, by the fast tests: no browser, LibreOffice or build.
 * Lines that stay untaken: constants that other rooms alone read (version, remarks of the planners), errors that a
 * card's own check comes before, and throws that only a fault of the project could reach. Of the branches also the
 * values that the compiler asks for behind an index. The bounds lie just below what is reached.
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
      thresholds: { lines: 99.6, branches: 98 },
    },
  },
});
