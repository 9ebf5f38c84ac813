import { setFlagsFromString } from 'node:v8';

/** The newest V8 that was tried with this: another may call its switch differently, and says so aloud. */
const newestKnown = 13;

/**
 * Runs work that makes objects by the million for one file and drops them with it. V8 learns from the first files, whose chassis stay, that what is
 * made at those places lives long, and lays it down with what is old from then on: there everything of a job stays, with all that it holds, until
 * the whole memory is swept. Until the work is done V8 learns nothing of the kind.
 * @returns puts it back as it was: what V8 made of a program is kept under its switches
 */
export function keptYoung(): () => void {
  const [major] = process.versions.v8.split('.');
  if (Number(major) > newestKnown) return () => {};
  setFlagsFromString('--no-allocation-site-pretenuring');
  return () => setFlagsFromString('--allocation-site-pretenuring');
}
