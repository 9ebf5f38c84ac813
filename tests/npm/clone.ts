import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { npm, root, sumOfFile } from './npm';

/** Folders whose manifests name what this repository is built with. */
const manifests = ['.', 'schemas', 'server', 'client'];

/**
 * A node_modules folder that stands for what `npm ci` would fetch: each package that a manifest names is a link to the one of this repository, which
 * finds there what it needs itself, and the workspaces are those beside it, wherever it is copied to.
 */
export function linkedModules(folder: string): string {
  const own = path.join(root, 'node_modules');
  const named = manifests.flatMap((place) => {
    const manifest = JSON.parse(readFileSync(path.join(root, place, 'package.json'), 'utf8'));
    return Object.keys({ ...manifest.dependencies, ...manifest.devDependencies });
  });
  const link = (name: string) => {
    const at = path.join(own, name);
    const target = isOfTheRepository(at) ? readlinkSync(at) : at;
    symlinkSync(target, path.join(folder, name));
  };
  mkdirSync(path.join(folder, '@framewright'), { recursive: true });
  // of packages in one scope its folder
  for (const name of new Set(named.map((each) => each.split('/')[0])))
    if (name !== '@framewright') link(name);
  link('@framewright/schemas');
  return folder;
}

const isOfTheRepository = (place: string): boolean => {
  try {
    return readlinkSync(place).startsWith('..');
  } catch {
    return false;
  }
};

/** A clone of this repository as it was committed, with packages to build it. */
export function clone(into: string, modules: string): string {
  // without what was before: who clones this one need not copy it
  const commit = ['--depth', '1', pathToFileURL(root).href];
  execFileSync('git', ['clone', '--quiet', ...commit, into], { stdio: ['ignore', 'ignore', 'pipe'] });
  cpSync(modules, path.join(into, 'node_modules'), { recursive: true, verbatimSymlinks: true });
  return into;
}

/** Packs a clone, which builds itself for that; gives the archive's path. What npm prints is its name alone, which pre-commit relies on. */
export const packedClone = (folder: string): string =>
  path.join(folder, npm(folder, ['pack', '--ignore-scripts=false']).trim());

/** What both packages of a clone are packed from, beside what git holds, by name: each file's sum, and whether it is a program. */
export function builtFiles(folder: string, isServerBuilt: boolean): Record<string, string> {
  for (const place of isServerBuilt ? ['client'] : ['server', 'client'])
    execFileSync(process.execPath, [path.join(folder, place, 'build.mjs')], {
      stdio: ['ignore', 'ignore', 'pipe'],
    });
  const files = ['server/package', 'client/dist']
    .flatMap((place) =>
      readdirSync(path.join(folder, place), { recursive: true, encoding: 'utf8', withFileTypes: true }),
    )
    .filter((each) => each.isFile())
    .map(({ parentPath, name }) => path.join(parentPath, name));
  return Object.fromEntries(
    files.map((file) => [
      path.relative(folder, file),
      `${sumOfFile(file)} ${(statSync(file).mode & 0o111) === 0 ? 'file' : 'program'}`,
    ]),
  );
}

/** In a folder: an npm that takes links in place of fetching what a clone is built with, and is npm in all else. A clone is built when it is packed. */
export function npmThatLinks(folder: string, modules: string): string {
  const real = execFileSync('which', ['npm'], { encoding: 'utf8' }).trim();
  const script = `#!/bin/sh
case " $* " in
  *" -g "*) ;;
  " install "*) exec cp -RP '${modules}' node_modules ;;
esac
exec '${real}' "$@"
`;
  writeFileSync(path.join(folder, 'npm'), script);
  chmodSync(path.join(folder, 'npm'), 0o755);
  return folder;
}

/** The same for the install that npm itself makes in a clone of an address: a script that Node loads before it. */
export function installThatLinks(folder: string, modules: string): string {
  const file = path.join(folder, 'links.cjs');
  const script = `const { cpSync, existsSync } = require('node:fs');
if (/npm-cli\\.js$/.test(process.argv[1] ?? '') && process.argv[2] === 'install' && existsSync('server/build.mjs')) {
  cpSync(${JSON.stringify(modules)}, 'node_modules', { recursive: true, verbatimSymlinks: true });
  process.exit();
}
`;
  writeFileSync(file, script);
  return file;
}
