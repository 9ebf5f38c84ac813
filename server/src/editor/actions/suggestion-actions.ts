import type { TextRange } from '../../findings/rule/finding';
import { isUnread } from '../../findings/rule-list';
import { derived } from '../../memory/derived';
import { applyEdits, type TextEdit } from '../../text/edits';
import { parseText } from '../../text/yaml/parse';
import type { Analysis } from '../../workspace/workspace';
import type { Action } from './code-action';
import { fixActions } from './quick-fixes';

/**
 * *Take all 7 suggestions for mistyped words*, where one of them stands: each is the only one of its finding. They change what the file means, as a
 * name of a point brings its reading in: a person chooses it, and no editor takes it by itself when a file is saved.
 */
export function suggestionActions(analysis: Analysis, range: TextRange): Action[] {
  const all = suggestions(analysis);
  const isHere = all.some(
    ({ mends }) => mends && mends.range.start <= range.end && mends.range.end >= range.start,
  );
  if (all.length < 2 || !isHere) return [];
  return [
    {
      title: `Take all ${all.length} suggestions for mistyped words`,
      kind: 'quickfix',
      edits: all.flatMap(({ edits }) => edits),
      preferred: false,
      mends: null,
    },
  ];
}

/** The fixes of the text and of names that are no choice, as far as they leave each other room. */
const suggestions = derived((analysis: Analysis): Action[] => {
  const { text, tree } = analysis;
  const taken: TextEdit[] = [];
  const single = fixActions(analysis, { start: 0, end: text.length }).filter(
    ({ mends, preferred }) => mends !== null && preferred && isUnread(mends.rule),
  );
  const apart = single.filter(({ edits }) => {
    const meets = edits.some(({ start, end }) =>
      taken.some((other) => start <= other.end && other.start <= end),
    );
    if (!meets) taken.push(...edits);
    return !meets;
  });
  // two slips may mean one word: then it is for a person to say which
  const duplicates = (of: string): number =>
    parseText(of).problems.filter(({ rule }) => rule === 'text/duplicate-key').length;
  const known = tree.problems.filter(({ rule }) => rule === 'text/duplicate-key').length;
  return duplicates(applyEdits(text, taken)) > known ? [] : apart;
});
