import { defineConfig } from 'vitest/config';

const common = { setupFiles: ['tests/seed.ts'], testTimeout: 30_000 };

// What runs without an editor, in two projects. The suites inside the editor are run by tests/run-all.mjs.
export default defineConfig({
  test: {
    // vitest would leave one core to itself, which on two is half of them
    maxWorkers: '100%',
    projects: [
      {
        test: {
          ...common,
          name: 'pure',
          // These tests change nothing outside themselves, so their files share a process, and the program is loaded once for all.
          isolate: false,
          include: ['schemas/src/**/*.test.ts', 'server/src/**/*.test.ts', 'client/src/**/*.test.ts'],
        },
      },
      {
        test: {
          ...common,
          name: 'whole',
          include: ['tests/**/*.test.ts'],
          exclude: ['**/node_modules/**', 'tests/vscode/**', 'tests/neovim/**', 'tests/output/**'],
        },
      },
    ],
  },
});
