import { expect, it } from 'vitest';
import { keptAs, keptJson } from './kept-file';

it.runIf(process.platform === 'linux')(
  'a folder that the system will not make keeps nothing, and nobody waits for it',
  () => {
    // as a user's cache folder may be set: `XDG_CACHE_HOME=/proc`
    const path = '/proc/framewright/results-1/aa/bb';
    expect(keptAs(path, 'text')).toBe(false);
    expect(keptJson(path)).toBeNull();
  },
);
