import type { KnownInFile } from '../commands/baseline';
import type { Output, Reporting } from '../commands/check-selected';
import { baselineFor, baselineWritten, heldAgainst } from '../node/baseline-file';
import type { BaselineUse, FoundBaseline } from '../node/baseline-place';
import { printable } from '../text/printable';
import type { Files } from '../workspace/files';

/** What `check` does with a baseline, as the command line loads it: where there is one, or one is to be written. */

interface Asked {
  readonly files: Files;
  /** The file or folder that it counts for. */
  readonly uri: string;
  readonly found: FoundBaseline | null;
  readonly use: BaselineUse;
}

/** Checks with what the baseline knows left out, and writes it where that is asked for; the exit code. */
export async function againstBaseline(
  { files, uri, found, use }: Asked,
  output: Output,
  reporting: Reporting,
  check: (held: Reporting) => Promise<number>,
): Promise<number> {
  const complain = (line: string): void => output.complain(printable(`framewright: ${line}`));
  const baseline = await baselineFor(files, uri, found);
  if (typeof baseline === 'string') {
    complain(baseline);
    return 2;
  }
  const met = new Map<string, KnownInFile>();
  const code = await check(heldAgainst(reporting, baseline, use, met));
  if (use === 'hold') return code;
  if (code === 2) {
    complain('the baseline was not written: not all files could be judged');
    return 2;
  }
  const { said, isWritten } = await baselineWritten(files, baseline, use, met);
  complain(said);
  return isWritten ? code : 2;
}
