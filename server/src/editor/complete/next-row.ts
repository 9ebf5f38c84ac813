import { plainOrQuoted, type TextEdit } from '../../text/edits';
import { linesOf } from '../../text/lines';
import type { Analysis, JobAnalysis } from '../../workspace/workspace';
import { tableEditsAt } from '../format/formatting';
import { cursorContext } from './cursor-context';
import { lineHead } from './line-head';
import { nextPoint } from './points-to-read';

/**
 * After Enter at an offset: the table above is aligned, and behind a finished row of `readings:` the next one is begun, with the
 * point that comes next. Behind a row that is not finished, and where something follows on the line, nothing is begun.
 */
export function editsAfterEnter(analysis: Analysis, offset: number): TextEdit[] {
  const lines = linesOf(analysis.text);
  const { line } = lines.positionAt(offset);
  if (line === 0) return [];
  const above = lines.lineText(line - 1);
  const aligned = tableEditsAt(analysis, lines.startOf(line - 1) + lineHead(above).column);
  const begun = analysis.kind === 'readings' ? nextRow(analysis, line) : null;
  return begun === null
    ? aligned
    : [
        ...aligned.filter(({ end }) => end < begun.start),
        begun,
        ...aligned.filter(({ start }) => start > begun.end),
      ];
}

function nextRow(analysis: JobAnalysis, line: number): TextEdit | null {
  const { text } = analysis;
  const lines = linesOf(text);
  const above = lines.lineText(line - 1);
  const { key, column, valueColumn } = lineHead(above);
  if (lines.lineText(line).trim() !== '' || key === null) return null;
  const value = above
    .slice(valueColumn)
    .replace(/(^|\s)#[\s\S]*$/, '')
    .trim();
  const isHead = key === 'readings' && value === '';
  if (!isHead && !/^(?:unreachable|as-before)$|\]$/.test(value)) return null;
  const indent = ' '.repeat(isHead ? column + 2 : column);
  const start = lines.startOf(line);
  const end = lines.endOf(line);
  const context = cursorContext(text.slice(0, start) + indent + text.slice(end), start + indent.length);
  if (context.path.join('/') !== 'timeline/-/readings' || context.item === null) return null;
  const id = nextPoint(analysis, context.item.start, isHead ? null : key, context.siblings);
  return id === null ? null : { start, end, text: `${indent}${plainOrQuoted(id)}: ` };
}
