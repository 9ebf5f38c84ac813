import { bodyLines } from '../editor/body-lines';
import { printable } from '../text/printable';
import type { Files } from '../workspace/files';
import { sharedReads } from '../workspace/shared-reads';
import { Workspace } from '../workspace/workspace';
import type { Output } from './check-selected';
import { pathBeside, type Target } from './collect';

/** Prints what a chassis file holds and lacks; the exit code: 0, or 2 where there is no such file. */
export async function chassisPage(files: Files, { uri, path }: Target, output: Output): Promise<number> {
  const found = await new Workspace(files).analysis(uri);
  if (found.kind !== 'chassis') {
    const why = 'message' in found ? found.message : 'it is no chassis file';
    output.complain(printable(`framewright: ${path}: ${why}`));
    return 2;
  }
  output.print(printable(`${path}: ${found.chassis.vehicle}`));
  const named = (other: string): string => pathBeside({ uri, path }, other);
  for (const line of await bodyLines(found, sharedReads(files, files.read), { named, most: null }))
    output.print(`  ${line}`);
  return 0;
}
