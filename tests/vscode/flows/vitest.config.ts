import { defineConfig } from 'vitest/config';

const workbenches = ['server', 'web'] as const;

// Each file after the other, in one process for each workbench, which keeps its windows: to open one is slow, and keeps both
// cores of a small machine busy. Each test with the patience of a person, who would try a second time.
export default defineConfig({
  test: {
    root: import.meta.dirname,
    globalSetup: 'setup.ts',
    maxWorkers: 1,
    fileParallelism: false,
    projects: workbenches.map((workbench, order) => ({
      test: {
        name: workbench,
        env: { WORKBENCH: workbench },
        root: import.meta.dirname,
        include: ['*.flow.ts'],
        // pages by themselves, in neither workbench; keys that are counted, which are as many in both; the web's workbench has no git
        exclude:
          workbench === 'web'
            ? ['git-diff.flow.ts']
            : ['drawing-page.flow.ts', 'worker.flow.ts', 'keystrokes.flow.ts'],
        isolate: false,
        maxWorkers: 1,
        fileParallelism: false,
        sequence: { groupOrder: order },
        // ends a flow that hangs: each of its waits has a limit of its own
        testTimeout: 300_000,
        hookTimeout: 300_000,
        expect: { poll: { timeout: 60_000 } },
        retry: 2,
      },
    })),
  },
});
