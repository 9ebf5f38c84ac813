import { defineConfig } from 'vitest/config';

const workbenches = ['server', 'web'] as const;

// A window is slow to open: one file after the other, each test with the patience of a person, who would try a second time.
export default defineConfig({
  test: {
    root: import.meta.dirname,
    globalSetup: 'install.ts',
    maxWorkers: 1,
    fileParallelism: false,
    projects: workbenches.map((workbench, order) => ({
      test: {
        name: workbench,
        env: { WORKBENCH: workbench },
        root: import.meta.dirname,
        include: ['*.flow.ts'],
        // pages by themselves, in neither workbench
        exclude: workbench === 'web' ? [] : ['drawing-page.flow.ts', 'worker.flow.ts'],
        fileParallelism: false,
        sequence: { groupOrder: order },
        testTimeout: 90_000,
        hookTimeout: 120_000,
        retry: 2,
      },
    })),
  },
});
