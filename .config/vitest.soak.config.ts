import { defineConfig } from 'vitest/config';

/** The tests that work on for long, in their long form: `npm run soak`. */
export default defineConfig({
  test: {
    include: [
      'tests/soak/**/*.test.ts',
      // With the largest farm.
      'tests/hosts/excel/request-sizes.test.ts',
      'tests/plan/farm-file.test.ts',
    ],
    setupFiles: ['tests/tools/fixed-seed.ts'],
    maxWorkers: 2,
  },
});
