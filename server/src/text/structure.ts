import { HASH, SPACE, TAB } from './characters';
import { lineEndBefore, lineStartsOf } from './lines';

/**
 * The lines between two offsets as block structure sees them. The scanner moves `content` and `indent` of a line
 * past a list dash, so that what follows the dash reads like a line of its own.
 */
export interface StructureLines {
  readonly count: number;
  /** `start[count]` is the end of the stretch. */
  readonly start: number[];
  readonly end: number[];
  /** Offset of the first visible character; -1 on blank and comment lines. */
  readonly content: number[];
  /** Columns before the content; a tab counts as two, so that a file indented by tabs still has its shape. */
  readonly indent: number[];
  /** Lines that are indented with a tab. */
  readonly tabbed: ReadonlySet<number>;
  readonly comment: readonly boolean[];
}

const TAB_COLUMNS = 2;

export const structureLinesOf = (text: string, from: number, to: number): StructureLines => {
  const stretch = from === 0 && to === text.length ? text : text.slice(from, to);
  const start = lineStartsOf(stretch).map((offset) => offset + from);
  const count = start.length;
  start.push(to);
  const end: number[] = new Array(count);
  const content: number[] = new Array(count);
  const indent: number[] = new Array(count);
  const comment: boolean[] = new Array(count);
  const tabbed = new Set<number>();
  for (let line = 0; line < count; line++) {
    const lineEnd = lineEndBefore(text, start[line], start[line + 1]);
    let offset = start[line];
    let columns = 0;
    let hasTab = false;
    for (; offset < lineEnd; offset++) {
      const code = text.charCodeAt(offset);
      if (code === SPACE) columns++;
      else if (code === TAB) {
        columns += TAB_COLUMNS;
        hasTab = true;
      } else break;
    }
    const isComment = offset < lineEnd && text.charCodeAt(offset) === HASH;
    end[line] = lineEnd;
    comment[line] = isComment;
    content[line] = offset === lineEnd || isComment ? -1 : offset;
    indent[line] = columns;
    if (hasTab && content[line] >= 0) tabbed.add(line);
  }
  return { count, start, end, content, indent, tabbed, comment };
};
