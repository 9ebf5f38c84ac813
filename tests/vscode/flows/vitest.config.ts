import { defineConfig } from 'vitest/config';

// The workbench is one and slow to start: files one after the other, each test with the patience of a person.
export default defineConfig({
  test: {
    root: import.meta.dirname,
    include: ['*.flow.ts'],
    fileParallelism: false,
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
