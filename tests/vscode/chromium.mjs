// The browser that is the workbench's window.
import { existsSync } from 'node:fs';
import { installedProgram } from '../debian.mjs';

// The one without windows does the same in half the time.
const places = [
  process.env.CHROMIUM,
  '/usr/bin/chromium-headless-shell',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
];

/** Path of Chromium, or undefined. */
export const chromiumPath = () => places.find((place) => place && existsSync(place));

/** Path of Chromium; where missing, installs Debian's if allowed to, else throws an error that says what to run. */
export const installedChromium = () => installedProgram('Chromium', 'chromium-headless-shell', chromiumPath);
