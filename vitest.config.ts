import { defineConfig } from 'vitest/config';

// What runs without an editor. The suites inside the editor are run by tests/run-all.mjs.
export default defineConfig({
  test: {
    include: [
      'schemas/src/**/*.test.ts',
      'server/src/**/*.test.ts',
      'client/src/**/*.test.ts',
      'tests/**/*.test.ts',
    ],
    exclude: ['**/node_modules/**', 'tests/vscode/**', 'tests/neovim/**', 'tests/output/**'],
    setupFiles: ['tests/seed.ts'],
    testTimeout: 30_000,
  },
});
