import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, readdirSync, readlinkSync, symlinkSync } from 'node:fs';
import path from 'node:path';
import { npm, root } from './npm';

/**
 * A node_modules folder that stands for what `npm ci` would fetch: each package is a link to the one of this repository, and the
 * workspaces are those beside it, wherever it is copied to.
 */
export function linkedModules(folder: string): string {
  const own = path.join(root, 'node_modules');
  const link = (name: string) => {
    const at = path.join(own, name);
    const target = isOfTheRepository(at) ? readlinkSync(at) : at;
    symlinkSync(target, path.join(folder, name));
  };
  mkdirSync(path.join(folder, '@framewright'), { recursive: true });
  for (const name of readdirSync(own)) if (name !== '@framewright') link(name);
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
  execFileSync('git', ['clone', '--quiet', root, into], { stdio: ['ignore', 'ignore', 'pipe'] });
  cpSync(modules, path.join(into, 'node_modules'), { recursive: true, verbatimSymlinks: true });
  return into;
}

/** What `npm install` does in a clone once all packages are there. */
export const prepared = (folder: string): string => {
  npm(folder, ['run', 'prepare']);
  return folder;
};
