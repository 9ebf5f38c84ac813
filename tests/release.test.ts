// The workflow that releases both packages. It runs on the host alone: here it is read, and what it calls is looked for.
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';

const root = path.join(import.meta.dirname, '..');
const text = (name: string): string => readFileSync(path.join(root, name), 'utf8');

interface Step {
  readonly uses?: string;
  readonly run?: string;
  readonly if?: string;
}
interface Workflow {
  readonly on: { readonly push: { readonly tags: readonly string[] } };
  readonly jobs: Record<string, { readonly needs?: string; readonly steps: readonly Step[] }>;
}

const workflow: Workflow = parse(text('.github/workflows/release.yml'));
const runs = (job: string): Step[] => workflow.jobs[job].steps.filter(({ run }) => run !== undefined);
const commands = Object.values(workflow.jobs).flatMap(({ steps }) =>
  steps.flatMap(({ run }) => run?.split(/\n|&&/).map((each) => each.trim()) ?? []),
);

describe('the release workflow', () => {
  it('starts at a tag, builds, tests and packs, and publishes last', () => {
    expect(workflow.on.push.tags).toEqual(['v*']);
    expect(runs('build').map(({ run }) => run?.match(/^(npm (run )?[\w:]+|mkdir|cp)/)?.[0])).toEqual([
      'npm ci',
      'npm run check:version',
      'npm test',
      'npm run package',
      'mkdir',
      'cp',
    ]);
    expect(workflow.jobs.publish.needs).toBe('build');
    expect(commands.filter((command) => command.includes('publish'))).toHaveLength(2);
    for (const { run, if: condition } of runs('publish')) expect(condition, run).toMatch(/^env\.\w+ != ''$/);
  });

  it('calls only what exists', () => {
    const { scripts } = JSON.parse(text('package.json'));
    const npm = /^npm (?:run ([\w:]+)|(test|ci|pack|publish))\b/;
    expect(commands.filter((command) => !npm.test(command) && !/^(cp|mkdir) /.test(command))).toEqual([]);
    const called = commands.map((command) => command.match(npm)?.[1] ?? command.match(npm)?.[2] ?? 'file');
    const own = called.filter((name) => !['ci', 'pack', 'publish', 'file'].includes(name));
    expect(own).toEqual(['check:version', 'test', 'package', 'publish:extension']);
    for (const name of own) expect(scripts[name], name).toBeTypeOf('string');
    expect(JSON.parse(text('client/package.json')).scripts.publish).toMatch(/^vsce publish/);
    for (const [, script] of Object.entries<string>(scripts).flatMap(([, line]) => [
      ...line.matchAll(/\bnode (tests\/[\w./-]+\.mjs)/g),
    ]))
      expect(existsSync(path.join(root, script)) || script.startsWith('tests/output/'), script).toBe(true);
  });
});

describe('the version of a release', () => {
  it('is one everywhere, with its section in both changelogs', () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'framewright-release-'));
    try {
      const files = [
        'package.json',
        ...['server', 'client', 'schemas'].map((name) => `${name}/package.json`),
        'server/CHANGELOG.md',
        'client/CHANGELOG.md',
      ];
      for (const name of [...files, 'tests/check-version.mjs']) {
        mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
        cpSync(path.join(root, name), path.join(folder, name));
      }
      const check = (tag: string) =>
        spawnSync(process.execPath, [path.join(folder, 'tests/check-version.mjs'), tag], {
          encoding: 'utf8',
        });
      expect(check('v9.9.9')).toMatchObject({
        status: 1,
        stderr: expect.stringContaining('server/package.json says'),
      });
      for (const name of files) {
        const file = path.join(folder, name);
        const now = readFileSync(file, 'utf8');
        expect(check('v9.9.9').stderr).toContain(name);
        writeFileSync(
          file,
          name.endsWith('.json')
            ? now.replace(/"version": "[^"]+"/, '"version": "9.9.9"')
            : now.replace('## [Unreleased]', '## [Unreleased]\n\n## [9.9.9] - 2026-12-01'),
        );
      }
      expect(check('v9.9.9')).toMatchObject({ status: 0, stderr: '' });
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it.each(['server', 'client'])('the changelog of the %s is in the usual form', (name) => {
    const page = text(`${name}/CHANGELOG.md`);
    expect(page).toMatch(/^# Changelog\n/);
    const heads = [...page.matchAll(/^## (.+)$/gm)].map(([, head]) => head);
    expect(heads[0]).toBe('[Unreleased]');
    expect(heads.slice(1).filter((head) => !/^\[\d+\.\d+\.\d+\] - \d{4}-\d\d-\d\d$/.test(head))).toEqual([]);
    const kinds = [...page.matchAll(/^### (.+)$/gm)].map(([, kind]) => kind);
    expect(kinds.length).toBeGreaterThan(0);
    for (const kind of kinds)
      expect(['Added', 'Changed', 'Deprecated', 'Removed', 'Fixed', 'Security']).toContain(kind);
  });
});
