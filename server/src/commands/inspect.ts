import type { InspectOutput } from '@framewright/schemas';
import { faultIn } from '../findings/internal/fault';
import { printable } from '../text/printable';
import type { Files } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
import { faultOf, Workspace } from '../workspace/workspace';
import type { Output } from './check-selected';
import { collected, type Target } from './collect';
import { failsCheck } from './exit';
import { chassisJson, jobJson } from './formats/inspect-json';

/** Prints `inspect/1` for the files; exit code as for `check`, 2 where one cannot be read or judged. */
export async function inspect(
  files: Files,
  paths: readonly Target[],
  output: Output,
  judges: Judges = ownJudges,
): Promise<number> {
  const workspace = new Workspace(files, judges);
  const result: InspectOutput = { framewright: 'inspect/1', files: [] };
  let unreadable = false;
  let fails = false;
  const complain = (path: string, message: string): void => {
    output.complain(printable(`framewright: ${path}: ${message}`));
    unreadable = true;
  };
  for (const { uri, path } of paths) {
    const found = await collected(files, uri, path);
    for (const line of found.unread) output.complain(`framewright: ${line}`);
    unreadable ||= found.unread.length > 0;
    for (const target of found.targets) {
      const analysis = await workspace.analysis(target.uri);
      if (!('findings' in analysis)) {
        complain(target.path, analysis.message);
        continue;
      }
      const fault = faultIn(analysis.findings);
      if (fault !== null) complain(target.path, fault.message);
      try {
        fails ||= failsCheck(analysis, false);
        if (analysis.kind === 'readings') result.files.push(jobJson(analysis, target.path));
        else if (analysis.kind === 'chassis') result.files.push(chassisJson(analysis, target.path));
      } catch (error) {
        complain(target.path, faultOf(target.uri, analysis.text, 'writing its figures', error).message);
      }
    }
  }
  output.print(JSON.stringify(result, null, 2));
  return unreadable ? 2 : fails ? 1 : 0;
}
