// The npm package of the command line: what it holds, and that it runs where nothing else is, on each Node that it says it runs on.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ServerProcess } from '../server-process';
import { installedNode } from './nodes';
import { npm, packageFolder, packed, root } from './npm';

const home = mkdtempSync(path.join(tmpdir(), 'framewright-npm-'));
const shop = path.join(home, 'shop');
const program = path.join(shop, 'node_modules/framewright/bin/framewright.js');
let archive = '';

beforeAll(() => {
  mkdirSync(shop);
  archive = packed(packageFolder, home);
  // no network, and a cache in which nothing lies: whatever it needs it brings
  npm(shop, ['install', '--offline', archive], { npm_config_cache: path.join(home, 'npm') });
  cpSync(path.join(root, 'samples'), path.join(shop, 'samples'), { recursive: true });
}, 120_000);
afterAll(() => rmSync(home, { recursive: true, force: true }), 60_000);

const text = (file: string): string => readFileSync(file, 'utf8');
const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8', withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)).replaceAll(path.sep, '/'))
    .sort();

describe('the package', () => {
  it('brings all that it needs, and is small', () => {
    expect(readdirSync(path.join(shop, 'node_modules')).filter((name) => !name.startsWith('.'))).toEqual([
      'framewright',
    ]);
    expect(statSync(archive).size).toBeLessThan(3e6);
    const manifest = JSON.parse(text(path.join(shop, 'node_modules/framewright/package.json')));
    expect(manifest).toEqual({
      name: 'framewright',
      version: JSON.parse(text(path.join(root, 'server/package.json'))).version,
      description: expect.stringContaining('hit car body'),
      keywords: expect.any(Array),
      license: 'MIT',
      bin: { framewright: 'bin/framewright.js' },
      engines: { node: '>=20' },
    });
  });

  it('holds what runs, its schemas, its page and its licences; nothing that a machine made for itself', () => {
    const schemas = readdirSync(path.join(root, 'schemas/json')).map((name) => `schemas/${name}`);
    expect(filesIn(path.join(shop, 'node_modules/framewright'))).toEqual(
      [
        'CHANGELOG.md',
        'LICENSE',
        'README.md',
        'bin/framewright.js',
        'dist/check-thread.cjs',
        'dist/cli-baseline.cjs',
        'dist/cli-check.cjs',
        'dist/cli-commands.cjs',
        'dist/cli-diff.cjs',
        'dist/cli-files.cjs',
        'dist/cli-judge.cjs',
        'dist/cli-tables.cjs',
        'dist/cli.cjs',
        'dist/main.cjs',
        'dist/spreadsheet.cjs',
        'dist/third-party-licences.txt',
        'package.json',
        ...schemas,
      ].sort(),
    );
    for (const name of filesIn(packageFolder)) {
      expect(text(path.join(packageFolder, name)).length).toBeGreaterThan(50);
      expect(text(path.join(packageFolder, name))).not.toContain(root);
    }
  });

  it('has a page whose commands exist', () => {
    const page = text(path.join(packageFolder, 'README.md'));
    const named = new Set([...page.matchAll(/npx framewright ([a-z-]+)/g)].map(([, command]) => command));
    expect(named.size).toBeGreaterThan(7);
    for (const command of named) {
      const { status } = spawnSync(process.execPath, [program, 'help', command]);
      expect(status, command).toBe(0);
    }
  });
});

// the oldest of each line: what they run, later ones run
describe.each(['20.0.0', '22.0.0', '24.0.0'])('on Node %s', (version) => {
  let node = '';
  beforeAll(() => {
    node = installedNode(version);
  }, 300_000);

  const run = (...args: string[]) => {
    const cache = path.join(home, `cache-${version}`);
    const { status, stdout, stderr } = spawnSync(node, [program, ...args], {
      cwd: shop,
      encoding: 'utf8',
      env: { ...process.env, XDG_CACHE_HOME: cache, LOCALAPPDATA: cache, NO_COLOR: '1' },
    });
    expect(stderr).not.toMatch(/\n\s+at .+:\d+:\d+|a fault of the program|Warning/);
    return { status, stdout };
  };
  const job = 'samples/jobs/w-1192-twisted-rail.readings.yaml';

  it('is that Node', () => expect(spawnSync(node, ['--version']).stdout.toString()).toBe(`v${version}\n`));

  it('checks the samples, the same with what was kept', () => {
    const first = run('check', 'samples');
    expect(first.stdout).toMatch(/reading\/outside\][\s\S]*^18 files: /m);
    expect(first.status).toBe(1);
    expect(run('check', 'samples')).toEqual(first);
    expect(run('check', '--no-cache', 'samples')).toEqual(first);
  }, 120_000);

  it('plans', () => {
    const { status, stdout } = run('plan', job);
    expect(stdout).toMatch(/^Pull plan of W-1192/);
    expect(status).toBe(0);
  });

  it('writes the record', () => {
    const page = `record-${version}.html`;
    expect(run('report', job, '-o', page).status).toBe(0);
    expect(text(path.join(shop, page))).toMatch(/^<!doctype html>[\s\S]+W-1192[\s\S]+<\/html>\s*$/i);
  });

  it('serves an editor', async () => {
    const server = new ServerProcess([program, 'lsp', '--stdio'], shop, node);
    try {
      const { connection } = server;
      const found = new Promise<{ uri: string; diagnostics: { code?: string }[] }>((resolve) =>
        connection.onNotification('textDocument/publishDiagnostics', resolve),
      );
      connection.listen();
      const { capabilities } = await connection.sendRequest<{ capabilities: Record<string, unknown> }>(
        'initialize',
        { processId: null, rootUri: pathToFileURL(shop).href, capabilities: {} },
      );
      expect(capabilities).toMatchObject({ hoverProvider: expect.anything() });
      await connection.sendNotification('initialized', {});
      const uri = pathToFileURL(path.join(shop, job)).href;
      await connection.sendNotification('textDocument/didOpen', {
        textDocument: { uri, languageId: 'yaml', version: 1, text: text(path.join(shop, job)) },
      });
      expect((await found).diagnostics.map(({ code }) => code)).toContain('reading/outside');
      await connection.sendRequest('shutdown');
      await connection.sendNotification('exit');
      expect(await server.ended).toBe(0);
    } finally {
      await server.kill();
    }
  });
});
