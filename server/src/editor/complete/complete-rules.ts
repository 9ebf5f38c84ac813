import { ruleNamed, rules } from '../../findings/rule-list';
import { linesOf } from '../../text/lines';
import type { Analysis } from '../../workspace/workspace';
import { isBeyondSilence } from '../actions/silence-actions';
import { type Completion, inPlace } from './completion-item';
import type { CursorContext } from './cursor-context';

/** Rule names in the settings and in a comment that silences one, those found there first. Null where no rule is to be named. */
export function ruleCompletions(
  analysis: Analysis,
  context: CursorContext,
  offset: number,
): Completion[] | null {
  const { role, path, typed } = context;
  if (role === 'comment') {
    const opening = /^#\s*framewright-ignore\s+(\S*)$/.exec(typed);
    if (opening)
      return ignorable(analysis, {
        ...context,
        word: { ...context.word, start: offset - opening[1].length },
      });
    return keyword(context, offset);
  }
  if (analysis.kind !== 'settings' || role !== 'key' || path.join('/') !== 'rules') return null;
  const had = new Set(context.siblings);
  const changeable = rules
    .filter(({ name, unchangeable }) => !unchangeable && !had.has(name))
    .map(({ name }) => name);
  return changeable.map((name) => completion(context, name, context.hasColon ? name : `${name}: `));
}

/** `framewright-ignore` itself, at the beginning of a comment. */
function keyword(context: CursorContext, offset: number): Completion[] | null {
  const begun = /^#\s*([a-z-]*)$/.exec(context.typed);
  if (begun === null || !'framewright-ignore'.startsWith(begun[1])) return null;
  const word = { start: offset - begun[1].length, end: offset };
  const detail = 'silences a rule on this line, with a reason';
  return [
    inPlace(
      { ...context, word },
      { label: 'framewright-ignore', kind: 'word', text: 'framewright-ignore ', detail },
    ),
  ];
}

function ignorable(analysis: Analysis, context: CursorContext): Completion[] {
  const lines = linesOf(analysis.text);
  const { line } = lines.positionAt(context.word.start);
  const isAlone = lines.lineText(line).trimStart().startsWith('#');
  const about = isAlone ? line + 1 : line;
  const here = analysis.findings
    .filter(({ range }) => lines.positionAt(range.start).line === about)
    .map(({ rule }) => rule);
  const silent = rules
    .filter(({ name, severity }) => !isBeyondSilence({ rule: name, severity }))
    .map(({ name }) => name);
  const names = [...new Set([...here.filter((name) => silent.includes(name)), ...silent])];
  return names.map((name) => completion(context, name, `${name}: `));
}

const completion = (context: CursorContext, name: string, text: string): Completion =>
  inPlace(context, {
    label: name,
    kind: 'rule',
    text,
    detail: ruleNamed(name)?.severity ?? null,
    subject: { kind: 'rule', name },
  });
