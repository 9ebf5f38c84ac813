import { linesOf } from '../../text/lines';
import { type Node, offsetsOf } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';

/** Lines that can be folded into the first of them. */
interface Fold {
  readonly firstLine: number;
  readonly lastLine: number;
  readonly isComment: boolean;
}

/** Past this an outline helps nobody. */
const mostFolds = 5000;

/** Every block of more than one line, and every stretch of comments alone on their lines; one fold for each first line, the longest. */
export function foldsIn({ text, tree }: Analysis, most = mostFolds): Fold[] {
  const lines = linesOf(text);
  const byLine = new Map<number, Fold>();
  const add = (firstLine: number, lastLine: number, isComment = false): void => {
    if (lastLine > firstLine && lastLine > (byLine.get(firstLine)?.lastLine ?? -1))
      byLine.set(firstLine, { firstLine, lastLine, isComment });
  };
  const walk = (node: Node | null, depth: number): void => {
    if (!node || node.kind === 'scalar' || depth > 12) return;
    const inner =
      node.kind === 'map'
        ? node.entries.map(({ place, value }) => ({ place, value }))
        : node.items.map((value) => ({ place: value.place, value }));
    for (const { place, value } of inner) {
      const { start, end } = offsetsOf(place);
      const [first, last] = [lines.positionAt(start).line, lines.positionAt(end).line];
      // what stands on one line has nothing in it to fold
      if (last <= first) continue;
      add(first, last);
      walk(value, depth + 1);
    }
  };
  walk(tree.root, 0);
  for (let line = 0; line < lines.lineCount; line++) {
    const first = line;
    while (line < lines.lineCount && /^\s*#/.test(lines.lineText(line))) line++;
    if (line - first > 1) add(first, line - 1, true);
  }
  return [...byLine.values()].sort((a, b) => a.firstLine - b.firstLine).slice(0, Math.max(0, most));
}
