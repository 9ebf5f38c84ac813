import { installedChromium } from '../chromium.mjs';
import { installHost, installWebHost } from '../install-host.mjs';

/** What is downloaded is downloaded before the clock of a test runs. */
export default (): void => {
  installHost();
  installWebHost();
  installedChromium();
};
