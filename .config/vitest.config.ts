import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/tools/fixed-seed.ts'],
    // The browser and LibreOffice are shared by several files, and two cores serve all.
    maxWorkers: 2,
    testTimeout: 120_000,
    hookTimeout: 600_000,
  },
});
