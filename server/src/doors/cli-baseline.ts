import type { KnownInFile } from '../commands/baseline';
import type { Output, Reporting } from '../commands/check-selected';
import type { Target } from '../commands/collect';
import { baselinesFor, baselineWritten, heldAgainst } from '../node/baseline-file';
import type { BaselineUse } from '../node/baseline-place';
import { printable } from '../text/printable';
import type { Files } from '../workspace/files';

/** What `check` does with a baseline, as the command line loads it: where there is one, or one is to be written. */

interface Asked {
  readonly files: Files;
  /** The first file or folder that was named. */
  readonly asked: string;
  readonly targets: readonly Target[];
  readonly use: BaselineUse;
}

/** Checks with what baselines know left out, and writes the first one where that is asked for; the exit code. */
export async function againstBaseline(
  { files, asked, targets, use }: Asked,
  output: Output,
  reporting: Reporting,
  check: (held: Reporting) => Promise<number>,
): Promise<number> {
  const complain = (line: string): void => output.complain(printable(`framewright: ${line}`));
  const baselines = await baselinesFor(files, asked, targets);
  if (typeof baselines === 'string') {
    complain(baselines);
    return 2;
  }
  const met = new Map<string, KnownInFile>();
  const code = await check(heldAgainst(reporting, baselines, use, met));
  if (use === 'hold') return code;
  if (code === 2) {
    complain('the baseline was not written: not all files could be judged');
    return 2;
  }
  const { said, isWritten } = await baselineWritten(files, baselines.first, use, met);
  complain(said);
  return isWritten ? code : 2;
}
