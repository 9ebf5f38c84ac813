import type { TextEdit } from '../../text/edits';

/** The lines in which two texts differ, as one edit: what is done by one edit is undone by one key. Null where they are the same. */
export function changedPart(before: string, after: string): TextEdit | null {
  if (before === after) return null;
  const [had, has] = [before.split(/(?<=\n)/), after.split(/(?<=\n)/)];
  const most = Math.min(had.length, has.length);
  let above = 0;
  while (above < most && had[above] === has[above]) above += 1;
  let below = 0;
  while (below < most - above && had[had.length - 1 - below] === has[has.length - 1 - below]) below += 1;
  const length = (lines: readonly string[]): number => lines.reduce((sum, line) => sum + line.length, 0);
  return {
    start: length(had.slice(0, above)),
    end: length(had.slice(0, had.length - below)),
    text: has.slice(above, has.length - below).join(''),
  };
}
