// The browser that is the workbench's window.
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const places = [
  process.env.CHROMIUM,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
];

/** What to run where it cannot be installed from here. */
export const chromiumCommand =
  'sudo apt-get update && sudo apt-get install -y --no-install-recommends chromium';

/** Path of Chromium, or undefined. */
export const chromiumPath = () => places.find((place) => place && existsSync(place));

/** Path of Chromium; where missing, installs Debian's if allowed to, else throws an error that says what to run. */
export const installedChromium = () => {
  const found = chromiumPath();
  if (found) return found;
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    const options = {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    };
    execFileSync('apt-get', ['update'], options);
    execFileSync('apt-get', ['install', '-y', '--no-install-recommends', 'chromium'], options);
  }
  const installed = chromiumPath();
  if (!installed) throw new Error(`Chromium is missing; run: ${chromiumCommand}`);
  return installed;
};
