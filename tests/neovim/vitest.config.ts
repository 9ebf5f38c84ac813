import { defineConfig } from 'vitest/config';

// One editor for all tests, each on what the one before left: after a failure the rest would tell nothing.
export default defineConfig({
  test: {
    root: import.meta.dirname,
    include: ['*.test.ts'],
    bail: 1,
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
