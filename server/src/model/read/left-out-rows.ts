import { linesOf } from '../../text/lines';
import type { Place, TextTree } from '../../text/tree';
import type { LeftOutRow } from '../job';

/** `# latch: [3050, 0, 780]`, perhaps with a note behind. */
const filled =
  /^\s*(#\s*)(?:"([^"]+)"|'([^']+)'|([^\s#:'"[\]{},]+))\s*:\s*\[(?:\s*-?\d+(?:\.\d+)?\s*,){2}\s*-?\d+(?:\.\d+)?\s*\]\s*(?:#.*)?$/;
const heading = /^(\s*)(?:-\s+)*readings\s*:\s*(?:#.*)?$/;
const row = /^\s*(?:"([^"]+)"|'([^']+)'|([^\s#:'"[\]{},]+))\s*:/;

/** Rows among readings that stand as a comment with all their numbers, of points that have no other row there. */
export function leftOutRows({ root, text }: Pick<TextTree, 'root' | 'text'>): LeftOutRow[] {
  if (root === null || !mayHaveOne(text)) return [];
  const lines = linesOf(text);
  const found: LeftOutRow[] = [];
  let open: { indent: number; rows: Set<string>; leftOut: LeftOutRow[] } | null = null;
  const close = (): void => {
    if (open) found.push(...open.leftOut.filter(({ id }) => !open?.rows.has(id)));
    open = null;
  };
  for (let line = 0; line < lines.lineCount; line++) {
    const written = lines.lineText(line);
    const isRow = written.trim() !== '' && !/^\s*#/.test(written);
    if (open && isRow && written.search(/\S/) <= open.indent) close();
    const head = isRow ? heading.exec(written) : null;
    if (head) open = { indent: head[0].indexOf('readings'), rows: new Set(), leftOut: [] };
    else if (open && isRow) open.rows.add(nameIn(row.exec(written), 1));
    else if (open && written.indexOf('#') > open.indent) {
      const comment = filled.exec(written);
      if (comment === null) continue;
      const start = lines.startOf(line) + written.indexOf('#');
      const mark = placeAt(root.place, start, start + comment[1].length);
      const place = placeAt(root.place, start, lines.startOf(line) + written.trimEnd().length);
      open.leftOut.push({ id: nameIn(comment, 2), place, mark });
    }
  }
  close();
  return found;
}

/** Most files have no such row, and this is asked at each edit: a search for one character is the fastest there is. */
function mayHaveOne(text: string): boolean {
  for (let at = text.indexOf('#'); at >= 0; at = text.indexOf('#', at + 1)) {
    const end = /[\r\n]|$/g;
    end.lastIndex = at;
    const rest = text.slice(at, end.exec(text)?.index);
    const isAlone = text.slice(text.lastIndexOf('\n', at) + 1, at).trim() === '';
    if (isAlone && filled.test(rest)) return true;
    at += Math.max(0, rest.length - 1);
  }
  return false;
}

const nameIn = (match: RegExpExecArray | null, from: number): string =>
  match?.slice(from, from + 3).find((each) => each !== undefined) ?? '';

const placeAt = ({ block }: Place, start: number, end: number): Place => ({
  block,
  start: start - block.start,
  end: end - block.start,
});
