import { defineConfig } from 'vitest/config';

/** The arithmetic and the cards alone: no browser, no LibreOffice, no build. */
export default defineConfig({
  test: {
    include: ['tests/core/**/*.test.ts', 'tests/functions/**/*.test.ts'],
    // It looks at the moment before the unit converter is there, which needs a process of its own.
    exclude: ['tests/functions/units.test.ts'],
    setupFiles: ['tests/tools/fixed-seed.ts'],
    // Every file imports all cards: once for all of them is ten times faster.
    isolate: false,
  },
});
