import type { TextRange } from '../../findings/rule/finding';
import type { TextEdit } from '../../text/edits';
import { linesOf } from '../../text/lines';
import { type Node, offsetsOf, type TextTree } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';
import type { Column, Row } from './table-row';
import { type Table, tablesOf } from './tables';

type Formatted = Pick<Analysis, 'kind' | 'tree'>;

/**
 * Edits that align the columns of a file's tables, put a triple that was broken over lines on one, and take blanks off the ends of
 * lines. Only blanks are ever changed (and the braces round several readings on one line), so no value, comment or order can be; a row
 * that is broken is left as it is typed.
 * @param range only the lines that it touches; columns are as wide as the whole table needs
 */
export function formattingEdits(analysis: Formatted, range?: TextRange): TextEdit[] {
  const { tree } = analysis;
  const within = range && wholeLines(tree.text, range);
  const aligned = tablesOf(analysis, within).flatMap((table) => tableEdits(tree, table));
  const all = [...aligned, ...lineEndEdits(tree, within)].sort((a, b) => a.start - b.start);
  return within ? all.filter(({ start, end }) => start <= within.end && end >= within.start) : all;
}

/** Edits of the tables that hold an offset: what is aligned while rows are typed. */
export const tableEditsAt = (analysis: Formatted, offset: number): TextEdit[] =>
  tablesOf(analysis, { start: offset, end: offset })
    .filter((table) => table.some(({ start, end }) => start <= offset && end >= offset))
    .flatMap((table) => tableEdits(analysis.tree, table));

function tableEdits(tree: TextTree, table: Table): TextEdit[] {
  const rows = table.filter((row) => !isBroken(tree, row));
  const widths = new Map<Column, number>();
  for (const { needs } of rows)
    for (const { column, width } of needs) widths.set(column, Math.max(width, widths.get(column) ?? 0));
  const widest = (column: Column) => widths.get(column) ?? 0;
  return rows.flatMap(({ gaps }) =>
    gaps.flatMap(({ start, end, blanks }) => {
      const text = blanks(widest);
      return tree.text.slice(start, end) === text ? [] : [{ start, end, text }];
    }),
  );
}

const isBroken = ({ problems }: TextTree, { start, end }: Row): boolean =>
  problems.some(({ place }) => {
    const problem = offsetsOf(place);
    return problem.start <= end && problem.end >= start;
  });

/**
 * Blanks at the ends of lines, where they are no part of a text over several lines. A broken text is not sure to be told from that.
 * Those between a lone CR and an LF stay: without them the two would be one line break.
 */
function lineEndEdits({ text, root, problems }: TextTree, range?: TextRange): TextEdit[] {
  if (problems.length > 0) return [];
  const found: TextEdit[] = [];
  const pattern = new RegExp(blanksAtLineEnd);
  pattern.lastIndex = range?.start ?? 0;
  for (let match = pattern.exec(text); match !== null; match = pattern.exec(text)) {
    const { 0: blanks, index: start } = match;
    if (range && start > range.end) break;
    found.push({ start, end: start + blanks.length, text: '' });
  }
  if (found.length === 0) return [];
  const texts = longTexts(root, text);
  return found.filter(({ start, end }) => !texts.some((each) => each.start <= end && each.end >= start));
}

const blanksAtLineEnd = /(?<![ \t]|\r(?=[ \t]+\n))[ \t]+(?=\r|\n|$)/g;

/** Scalars over several lines, each with the blank lines below it, which may be its own. */
function longTexts(root: Node | null, text: string): TextRange[] {
  const found: TextRange[] = [];
  const visit = (node: Node | null): void => {
    if (node === null) return;
    const { start, end } = offsetsOf(node.place);
    if (node.kind === 'scalar') {
      if (!/[\r\n]/.test(text.slice(start, end)) && !/^[|>]/.test(text.slice(start, end))) return;
      found.push({ start, end: end + (/^\s*/.exec(text.slice(end, end + 10_000))?.[0].length ?? 0) });
    } else if (node.kind === 'sequence') node.items.forEach(visit);
    else {
      for (const { key, value } of node.entries) {
        visit(key);
        visit(value);
      }
    }
  };
  visit(root);
  return found;
}

function wholeLines(text: string, { start, end }: TextRange): TextRange {
  const lines = linesOf(text);
  const last = lines.positionAt(end);
  // a selection that ends at the start of a line does not touch it
  const isBefore = last.character === 0 && end > start;
  return {
    start: lines.startOf(lines.positionAt(start).line),
    end: lines.endOf(isBefore ? last.line - 1 : last.line),
  };
}
