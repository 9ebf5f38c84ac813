import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { framewright, repository, root } from './framewright';

const sample = (name: string) => readFileSync(path.join(root, 'samples', name), 'utf8');

describe('a check of many files', () => {
  it('by all cores says the same, in the same order, as file by file', () => {
    const jobs = ['w-1187-as-received', 'w-1174-finished', 'w-1210-typing-mistakes'].map((name) =>
      sample(`jobs/${name}.readings.yaml`),
    );
    const names = Array.from({ length: 70 }, (_, i) => `jobs/w-${String(i).padStart(3, '0')}.readings.yaml`);
    const { folder, gone } = repository({
      'specs/marten-hatch.chassis.yaml': sample('specs/marten-hatch.chassis.yaml'),
      'specs/teal-estate.chassis.yaml': sample('specs/teal-estate.chassis.yaml'),
      ...Object.fromEntries(names.map((name, i) => [name, jobs[i % jobs.length]])),
    });
    try {
      const together = framewright(['check', 'jobs', 'specs'], folder);
      const lines = together.out.split('\n');
      const half = (from: number, to: number) =>
        framewright(['check', ...names.slice(from, to)], folder).out.split('\n');
      const findings = (all: string[]) =>
        all.filter((line) => /^jobs\/.*: (error|warning|information)/.test(line));
      const apart = [...findings(half(0, 35)), ...findings(half(35, 70))];
      expect(apart.length).toBeGreaterThan(500);
      expect(findings(lines)).toEqual(apart);
      expect(together.code).toBe(1);
      expect(lines.at(-2)).toMatch(/^72 files: /);
    } finally {
      gone();
    }
  }, 60_000);
});
