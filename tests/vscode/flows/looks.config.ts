import { defineConfig } from 'vitest/config';

/** Pictures for people's eyes, in no run of all tests: they take a minute, and nothing but an eye judges them. */
export default defineConfig({
  test: {
    root: import.meta.dirname,
    globalSetup: 'setup.ts',
    env: { WORKBENCH: 'web' },
    include: ['looks.ts'],
    maxWorkers: 1,
    testTimeout: 600_000,
    hookTimeout: 300_000,
    expect: { poll: { timeout: 60_000 } },
  },
});
