// Other versions of Node, as npm packages, kept in tests/output/nodes between runs.
import { existsSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import { npm } from './npm';

const nodes = path.join(import.meta.dirname, '../output/nodes');

/** Path of a Node of this version; fetched at the first run. */
export function installedNode(version: string): string {
  const { platform, arch } = process;
  const name = `node-${platform === 'win32' ? 'win' : platform}-${arch}`;
  const program = path.join('node_modules', name, 'bin', platform === 'win32' ? 'node.exe' : 'node');
  const folder = path.join(nodes, version);
  if (!existsSync(path.join(folder, program))) {
    // a run that was broken off leaves no half of one
    const fresh = `${folder}-${process.pid}`;
    mkdirSync(fresh, { recursive: true });
    npm(fresh, [
      'install',
      '--prefix',
      '.',
      '--no-save',
      '--no-package-lock',
      '--ignore-scripts',
      `${name}@${version}`,
    ]);
    rmSync(folder, { recursive: true, force: true });
    renameSync(fresh, folder);
  }
  return path.join(folder, program);
}
