// What a clone gives: the same bytes wherever it is built, a program that npm installs from git, a hook for pre-commit. Packages to build
// with are links to those of this repository, as fetching them all takes minutes; everything else is done by git, npm and pre-commit themselves.
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { builtFiles, clone, installThatLinks, linkedModules, npmThatLinks, packedClone } from './clone';
import { npm, npx, root } from './npm';

const home = mkdtempSync(path.join(tmpdir(), 'framewright-git-'));
const at = (name: string) => path.join(home, name);
const made = (name: string) => {
  mkdirSync(at(name), { recursive: true });
  return at(name);
};
const modules = at('modules');
const first = at('clone');
/** The archive of the first clone, which builds itself for it. */
let archive = '';

beforeAll(() => {
  linkedModules(modules);
  archive = packedClone(clone(first, modules));
}, 300_000);
afterAll(() => rmSync(home, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 }), 120_000);

it('two builds from two clones are the same bytes, of the command line and of the extension', () => {
  const second = clone(at('another place/deeper down/a clone'), modules);
  const one = builtFiles(first, true);
  expect(Object.keys(one).filter((name) => name.startsWith('server')).length).toBeGreaterThan(15);
  expect(Object.keys(one).filter((name) => name.startsWith('client')).length).toBeGreaterThan(15);
  expect(builtFiles(second, false)).toEqual(one);
}, 300_000);

interface Hook {
  readonly id: string;
  readonly entry: string;
  readonly language: string;
  readonly files: string;
}

const [hook, ...others]: Hook[] = parse(readFileSync(path.join(root, '.pre-commit-hooks.yaml'), 'utf8'));
const { version } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
const caches = { XDG_CACHE_HOME: at('cache'), LOCALAPPDATA: at('cache') };
const git = (cwd: string, ...args: string[]) =>
  execFileSync('git', ['-c', 'user.name=rk', '-c', 'user.email=rk@pinefield.invalid', ...args], {
    cwd,
    stdio: 'pipe',
  });

/** A shop whose finished job is sound; `spoilt` stages a slip in it. */
function shop(name: string): { folder: string; spoilt(): void } {
  const folder = made(name);
  cpSync(path.join(root, 'samples/specs'), path.join(folder, 'specs'), { recursive: true });
  const job = path.join(folder, 'jobs/w-1174-finished.readings.yaml');
  cpSync(path.join(root, 'samples/jobs/w-1174-finished.readings.yaml'), job);
  git(folder, 'init', '--quiet');
  git(folder, 'add', '-A');
  return {
    folder,
    spoilt: () => {
      writeFileSync(job, readFileSync(job, 'utf8').replace('timeline:', 'timelime:'));
      git(folder, 'add', '-A');
    },
  };
}

describe('a clone', () => {
  it('packs itself, and prints the name of the archive alone: pre-commit takes what is printed for it', () => {
    expect(path.basename(archive)).toMatch(/^[\w-]+-\d+\.\d+\.\d+\.tgz$/);
    const prefix = made('prefix');
    npm(first, ['install', '--offline', '-g', archive], {
      npm_config_prefix: prefix,
      npm_config_cache: at('npm'),
    });
    const program = path.join(prefix, process.platform === 'win32' ? 'framewright.cmd' : 'bin/framewright');
    expect(spawnSync(program, ['--version'], { encoding: 'utf8' }).stdout).toBe(`${version}\n`);
  }, 300_000);

  it('is run by its address', () => {
    const address = `git+${pathToFileURL(first).href}`;
    const said = npx(made('nowhere'), ['--offline', '--yes', address, '--version'], {
      ...caches,
      npm_config_cache: at('npx'),
      NODE_OPTIONS: `--require ${JSON.stringify(installThatLinks(made('hook'), modules))}`,
    });
    expect(said).toBe(`${version}\n`);
  }, 300_000);

  it('is one hook, for the files of ours', () => {
    expect(others).toEqual([]);
    expect(hook).toMatchObject({ id: 'framewright', language: 'node' });
    const files = ['a.chassis.yaml', 'jobs/a.readings.yaml', '.framewright.yaml', 'a/.framewright.yaml'];
    const not = ['a.yaml', 'x.framewright.yaml', 'a.chassis.yaml.orig', 'README.md'];
    expect([...files, ...not].filter((name) => new RegExp(hook.files).test(name))).toEqual(files);
  });

  it('does as a hook what its entry says', () => {
    const { folder, spoilt } = shop('by-hand');
    const [, ...words] = hook.entry.split(' ');
    const program = path.join(
      at('prefix'),
      process.platform === 'win32' ? 'framewright.cmd' : 'bin/framewright',
    );
    const run = () =>
      spawnSync(
        program,
        [...words, 'specs/marten-hatch.chassis.yaml', 'jobs/w-1174-finished.readings.yaml'],
        {
          cwd: folder,
          encoding: 'utf8',
          env: { ...process.env, ...caches },
        },
      );
    expect(run()).toMatchObject({ status: 0, stderr: '' });
    spoilt();
    expect(run()).toMatchObject({ status: 1, stdout: expect.stringContaining('timelime') });
  });

  it('is installed and run by pre-commit, where there is one', () => {
    const { folder, spoilt } = shop('by-pre-commit');
    const revision = execFileSync('git', ['rev-parse', 'HEAD'], { cwd: first, encoding: 'utf8' }).trim();
    const config = { repos: [{ repo: `file://${first}`, rev: revision, hooks: [{ id: hook.id }] }] };
    writeFileSync(path.join(folder, '.pre-commit-config.yaml'), JSON.stringify(config));
    git(folder, 'add', '-A');
    const run = () =>
      spawnSync('pre-commit', ['run'], {
        cwd: folder,
        encoding: 'utf8',
        timeout: 590_000,
        env: {
          ...process.env,
          ...caches,
          PRE_COMMIT_HOME: at('pre-commit'),
          PATH: `${npmThatLinks(made('bin'), modules)}${path.delimiter}${process.env.PATH}`,
        },
      });
    const sound = run();
    const code = (sound.error as NodeJS.ErrnoException | undefined)?.code;
    if (code === 'ENOENT') {
      // then the two tests before this one are what pre-commit does
      expect(spawnSync('pre-commit', ['--version']).error).toBeDefined();
      return;
    }
    expect(sound.stdout + sound.stderr).toMatch(/^framewright\.+Passed$/m);
    spoilt();
    expect(run()).toMatchObject({
      status: 1,
      stdout: expect.stringMatching(/^framewright\.+Failed$[\s\S]*timelime/m),
    });
  }, 600_000);
});
