import type { Finding } from '../../findings/rule/finding';
import { ruleNamed } from '../../findings/rule-list';
import { derived } from '../../memory/derived';
import { applyEdits, type TextEdit } from '../../text/edits';
import { offsetsOf, type TextTree } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import type { Analysis } from '../../workspace/workspace';
import type { Action } from './code-action';

/**
 * *Fix all that is safe*: where there is one fix and its rule vouches for it. What guesses at a number, a point or a part is left to
 * a person: a wrong guess would be a wrong figure.
 */
export const fixAllActions = derived(({ findings, text, tree }: Analysis): Action[] => {
  const edits = safeEdits(findings);
  if (edits.length === 0) return [];
  // two mistyped keys may mean the same one: then it is for a person to say which
  const duplicates = (problems: TextTree['problems']) =>
    problems.filter(({ rule }) => rule === 'text/duplicate-key').length;
  if (edits.length > 1 && duplicates(parseText(applyEdits(text, edits)).problems) > duplicates(tree.problems))
    return [];
  return [
    {
      title: 'Fix all that is safe',
      kind: 'source.fixAll.framewright',
      edits,
      preferred: false,
      mends: null,
    },
  ];
});

function safeEdits(findings: readonly Finding[]): TextEdit[] {
  const edits: TextEdit[] = [];
  const candidates = findings.filter(
    ({ rule, ignored, replacements }) =>
      ignored === null && replacements.length === 1 && ruleNamed(rule)?.safeFix === true,
  );
  for (const { replacements } of candidates) {
    const [{ place, text }] = replacements;
    const edit = { ...offsetsOf(place), text };
    if (!edits.some((other) => other.start < edit.end && edit.start < other.end)) edits.push(edit);
  }
  return edits;
}
