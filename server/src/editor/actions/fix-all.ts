import type { TextEdit } from '../../text/edits';
import type { Analysis } from '../../workspace/workspace';
import type { Action } from './code-action';
import { fixesTaken, type Judged, mayBeFixed } from './fixes-taken';

export const fixAllKind = 'source.fixAll.framewright';

/**
 * *Fix all that is safe*, where there may be something: which fixes these are is found out by judging the file with them, when the
 * action is chosen.
 */
export const fixAllActions = (analysis: Analysis): Action[] =>
  mayBeFixed(analysis)
    ? [{ title: 'Fix all that is safe', kind: fixAllKind, edits: [], preferred: false, mends: null }]
    : [];

/**
 * The same fixes as the command `fix` takes; none where all of them would change what the file means.
 * @param judged the file with a text in its place, apart from what is edited meanwhile
 */
export async function fixAllEdits(
  text: string,
  judged: (text: string) => ReturnType<Judged>,
): Promise<readonly TextEdit[]> {
  const fixed = await fixesTaken((other) => judged(other ?? text), false);
  return typeof fixed === 'string' ? [] : changeTo(text, fixed.text);
}

/** One edit from where two texts begin to differ to where they end to. */
function changeTo(old: string, text: string): TextEdit[] {
  if (old === text) return [];
  const most = Math.min(old.length, text.length);
  let start = 0;
  while (start < most && old[start] === text[start]) start++;
  let same = 0;
  while (same < most - start && old.at(-1 - same) === text.at(-1 - same)) same++;
  return [{ start, end: old.length - same, text: text.slice(start, text.length - same) }];
}
