// Programs that tests drive and npm does not bring: Debian's, installed where that is allowed.
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';

/**
 * Path of a program; where missing, installs Debian's package of it if allowed to, else throws an error that says what to run.
 * @param {string} title
 * @param {string} packageName
 * @param {() => string | undefined} find
 */
export const installedProgram = (title, packageName, find) => {
  const found = find();
  if (found) return found;
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    const options = {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    };
    execFileSync('apt-get', ['update'], options);
    execFileSync('apt-get', ['install', '-y', '--no-install-recommends', packageName], options);
  }
  const installed = find();
  if (installed) return installed;
  const command = `sudo apt-get update && sudo apt-get install -y --no-install-recommends ${packageName}`;
  throw new Error(`${title} is missing; run: ${command}`);
};
