import { formattingEdits } from '../editor/format/formatting';
import { applyEdits } from '../text/edits';
import { linesOf } from '../text/lines';
import { printable } from '../text/printable';
import { offsetsOf, type TextTree } from '../text/tree';
import type { Files } from '../workspace/files';
import { type Unjudged, Workspace } from '../workspace/workspace';
import { leftOutLines, type Target } from './collect';
import { type Rewriting, rewritten } from './fix';
import { pathsSelected } from './select';

interface Formatting extends Rewriting {
  /** Files that would be another are named, and nothing is written. */
  readonly check: boolean;
}

/**
 * Formats files as the editor does. A file whose text is broken is left alone: where a table ends is not known there. Exit code 0; with
 * `check` 1 where a file is not formatted; 2 where one cannot be read or written, or is broken.
 */
export async function formatFiles(
  files: Files,
  paths: readonly Target[],
  formatting: Formatting,
): Promise<number> {
  const { targets, complaints, leftOut } = await pathsSelected(files, paths);
  complaints.forEach(formatting.complain);
  leftOutLines(leftOut).forEach(formatting.complain);
  const workspace = new Workspace(files);
  let changed = 0;
  let failed = complaints.length > 0;
  for (const target of targets) {
    const read = await workspace.unjudged(target.uri);
    const formatted = 'tree' in read ? formattedText(read) : { fault: read.message };
    const fault =
      formatted.fault !== null
        ? `${target.path}: ${formatted.fault}`
        : formatted.text === formatted.old || formatting.check
          ? null
          : await rewritten(files, target, formatted, formatting);
    if (fault !== null) {
      failed = true;
      formatting.complain(printable(`framewright: ${fault}`));
    } else if (formatted.text !== formatted.old) {
      changed++;
      formatting.print(printable(target.path));
    }
  }
  const would = formatting.check ? 'would be formatted' : 'formatted';
  formatting.print(`${changed} of ${targets.length} file${targets.length === 1 ? '' : 's'} ${would}`);
  return failed ? 2 : formatting.check && changed > 0 ? 1 : 0;
}

type Formatted =
  | { readonly fault: string; readonly old?: undefined; readonly text?: undefined }
  | { readonly fault: null; readonly old: string; readonly text: string };

function formattedText({ kind, text, tree }: Unjudged): Formatted {
  const broken = firstProblem(tree);
  if (broken !== null) return { fault: `left as it is: ${broken}` };
  return { fault: null, old: text, text: applyEdits(text, formattingEdits({ kind, tree })) };
}

/** Where the text cannot be told for certain, with the line; null where it can. */
function firstProblem({ text, problems }: TextTree): string | null {
  const [first] = [...problems].sort((a, b) => offsetsOf(a.place).start - offsetsOf(b.place).start);
  if (first === undefined) return null;
  const { line } = linesOf(text).positionAt(offsetsOf(first.place).start);
  return `line ${line + 1}: ${first.message}`;
}
