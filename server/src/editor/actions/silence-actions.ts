import type { Finding, TextRange } from '../../findings/rule/finding';
import { isUnread, raiserOf, ruleNamed } from '../../findings/rule-list';
import type { TextEdit } from '../../text/edits';
import { linesOf } from '../../text/lines';
import type { TextTree } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';
import { scalarAt } from '../places';
import { type Action, reasonMark } from './code-action';

/** A comment does not make that readable which cannot be read, nor can it speak of itself, nor lift what guards work and sign-off. */
export const isBeyondSilence = ({ rule, severity }: Pick<Finding, 'rule' | 'severity'>): boolean =>
  (isUnread(rule) && severity === 'error') ||
  raiserOf(rule) === 'ignores' ||
  ruleNamed(rule)?.unchangeable === true;

/** *Silence … with a reason*: one for each rule that speaks at a range and may be silenced. The reason is asked for. */
export function silenceActions({ findings, tree }: Analysis, range: TextRange): Action[] {
  const offered = new Map<string, Action>();
  for (const finding of findings) {
    const { rule, ignored } = finding;
    if (finding.range.start > range.end || finding.range.end < range.start || offered.has(rule)) continue;
    if (ignored !== null || isBeyondSilence(finding)) continue;
    const edit = ignoreEdit(tree, finding);
    if (edit === null) continue;
    offered.set(rule, {
      title: `Silence ${rule} on this line, with a reason`,
      kind: 'quickfix',
      edits: [edit],
      preferred: false,
      // an editor puts what mends a finding above all else: this mends none, and stands last
      mends: null,
      ask: {
        question: `Why may ${rule} be silenced here? The reason stays in the file and is listed in every check.`,
        of: 'reason',
      },
    });
  }
  return [...offered.values()];
}

/** Behind the line, or where something stands there already, alone on the line above; null where neither has room. */
function ignoreEdit({ text, root }: TextTree, { rule, range }: Finding): TextEdit | null {
  const lines = linesOf(text);
  const { line } = lines.positionAt(range.start);
  const [start, end] = [lines.startOf(line), lines.endOf(line)];
  const comment = `# framewright-ignore ${rule}: ${reasonMark}`;
  const content = text.slice(start, end);
  const inScalar = scalarAt(root, end);
  if (!content.includes('#') && !inScalar) return { start: end, end, text: `   ${comment}` };
  // two comments alone above one another: the upper would speak of the lower
  if (/^\s*#\s*framewright-ignore/.test(lines.lineText(line - 1)) || scalarAt(root, start)) return null;
  const indent = /^[\s\uFEFF]*/.exec(content)?.[0].replace('\uFEFF', '') ?? '';
  const at = start + (content.startsWith('\uFEFF') ? 1 : 0);
  const lineBreak = /\r\n|\n|\r/.exec(text)?.[0] ?? '\n';
  return { start: at, end: at, text: `${indent}${comment}${lineBreak}` };
}
