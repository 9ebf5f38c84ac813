import { applyEdits, type TextEdit } from '../../text/edits';

/**
 * A text after edits that an editor makes on its own, `$0` where its cursor ends: as VS Code does (`computeMoreMinimalEdits`, then
 * edits that force markers to move), edits that touch are joined, each is cut down to the characters that differ, and a cursor in
 * or at what is replaced ends behind what replaces it.
 */
export function withCursorAfter(text: string, edits: readonly TextEdit[], offset: number): string {
  const changes = joined(edits).flatMap((edit) => changesIn(text.slice(edit.start, edit.end), edit));
  let moved = offset;
  for (const { start, end, text: put } of changes)
    if (end < offset) moved += put.length - (end - start);
    else if (start <= offset) moved += put.length - (offset - start);
  const after = applyEdits(text, changes);
  return `${after.slice(0, moved)}$0${after.slice(moved)}`;
}

function joined(edits: readonly TextEdit[]): TextEdit[] {
  const all: TextEdit[] = [];
  for (const edit of [...edits].sort((a, b) => a.start - b.start)) {
    const last = all.at(-1);
    if (last?.end === edit.start)
      all[all.length - 1] = { ...last, end: edit.end, text: last.text + edit.text };
    else all.push(edit);
  }
  return all;
}

/** The edit without the longest sequence of characters that old and new text share. */
function changesIn(old: string, { start, text }: TextEdit): TextEdit[] {
  const shared = sharedLengths(old, text);
  const changes: TextEdit[] = [];
  let [i, j] = [0, 0];
  while (i < old.length || j < text.length) {
    const [fromOld, fromNew] = [i, j];
    while (i < old.length && (old[i] !== text[j] || shared[i][j] !== shared[i + 1][j + 1] + 1)) {
      if (j < text.length && shared[i][j + 1] === shared[i][j]) j++;
      else i++;
    }
    if (i === old.length) j = text.length;
    if (i > fromOld || j > fromNew)
      changes.push({ start: start + fromOld, end: start + i, text: text.slice(fromNew, j) });
    while (i < old.length && j < text.length && old[i] === text[j]) [i, j] = [i + 1, j + 1];
  }
  return changes;
}

/** `[i][j]`: how many characters `a` from i and `b` from j share in order. */
function sharedLengths(a: string, b: string): number[][] {
  const lengths = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0));
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      lengths[i][j] =
        a[i] === b[j] ? lengths[i + 1][j + 1] + 1 : Math.max(lengths[i + 1][j], lengths[i][j + 1]);
  return lengths;
}
