import type { InspectOutput } from '@framewright/schemas';
import type { Files } from '../workspace/files';
import { Workspace } from '../workspace/workspace';
import type { Output } from './check';
import { collected, type Target } from './collect';
import { failsCheck } from './exit';
import { chassisJson, jobJson } from './formats/inspect-json';

/** Prints `inspect/1` for the files; exit code as for `check`, 2 where one cannot be read. */
export async function inspect(files: Files, paths: readonly Target[], output: Output): Promise<number> {
  const workspace = new Workspace(files);
  const result: InspectOutput = { framewright: 'inspect/1', files: [] };
  let unreadable = false;
  let fails = false;
  for (const { uri, path } of paths) {
    const found = await collected(files, uri, path);
    for (const line of found.unread) output.complain(`framewright: ${line}`);
    unreadable ||= found.unread.length > 0;
    for (const target of found.targets) {
      const analysis = await workspace.analysis(target.uri);
      if (!('findings' in analysis)) {
        output.complain(`framewright: ${target.path}: ${analysis.message}`);
        unreadable = true;
        continue;
      }
      fails ||= failsCheck(analysis, false);
      if (analysis.kind === 'readings') result.files.push(jobJson(analysis, target.path));
      else if (analysis.kind === 'chassis') result.files.push(chassisJson(analysis, target.path));
    }
  }
  output.print(JSON.stringify(result, null, 2));
  return unreadable ? 2 : fails ? 1 : 0;
}
