import { defineConfig } from 'vitest/config';

// The report in a browser and on paper. One file after the other: each has a browser of its own.
export default defineConfig({
  test: {
    root: import.meta.dirname,
    include: ['*.page.ts'],
    fileParallelism: false,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
