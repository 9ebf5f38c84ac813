import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { benchFolder, peerModule } from './folders';

const json = (file: string) => JSON.parse(readFileSync(file, 'utf8'));

/** Exactly which packages are compared with. */
export const peerVersions = (): Record<string, string> =>
  json(path.join(benchFolder, 'package.json')).devDependencies;

/** Installs the packages of this folder where one is missing or of another version; runs none of their scripts. */
export function installPeers(): void {
  const isThere = ([name, version]: [string, string]): boolean => {
    const file = path.join(peerModule(name), 'package.json');
    return existsSync(file) && json(file).version === version;
  };
  if (Object.entries(peerVersions()).every(isThere)) return;
  console.error('installing what is compared with …');
  execFileSync('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund'], {
    cwd: benchFolder,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
}
