import type { DiffStage } from '@framewright/schemas';
import { fileDiff, notAsked } from '../../diff/file-diff';
import { faultIn } from '../../findings/internal/fault';
import type { Finding } from '../../findings/rule/finding';
import { isUnread, ruleNamed } from '../../findings/rule-list';
import { applyEdits, type TextEdit } from '../../text/edits';
import type { TextTree } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import type { Analysis } from '../../workspace/workspace';
import type { Action } from './code-action';
import { fixActions } from './quick-fixes';

/** A file after its fixes. */
export interface Fixed {
  readonly text: string;
  /** Findings that were mended. */
  readonly mended: number;
  /** Findings whose one fix changes what the file means, or might. */
  readonly unsafe: number;
}

/** A file may be judged so often; what is left then is left. */
const mostTries = 400;

/** Judges the file with a text in the place of its own; null: with its own. */
export type Judged = (text: string | null) => Promise<Analysis | { readonly message: string }>;

/**
 * Takes the fixes of a file until nothing changes any more: all at once, and where that is refused one by one. The result is fixed by its own
 * text: the same again changes nothing. The command and the editor ask this alone what is safe.
 * @param unsafe takes those as well that change what the file means; never in a job that is signed
 * @returns why there is no answer, where the file cannot be read or judged
 */
export async function fixesTaken(judged: Judged, unsafe: boolean): Promise<Fixed | string> {
  const first = await judged(null);
  if (!('findings' in first)) return first.message;
  const fault = faultIn(first.findings);
  if (fault !== null) return fault.message;
  const takesAll = unsafe && !isSigned(first);
  const seen = new Set([first.text]);
  let now: Analysis = first;
  let mended = 0;
  let refused = new Set<Action>();
  let offered = offeredIn(now, takesAll);
  let isWhole = true;
  for (let tries = 0; tries < mostTries && refused.size < offered.length; tries++) {
    const chosen = isWhole ? apart(offered) : offered.filter((each) => !refused.has(each)).slice(0, 1);
    const text = applyEdits(now.text, chosen.flatMap(editsOf));
    const after = seen.has(text) ? null : await judged(text);
    if (after !== null && 'findings' in after && isMended(now, after, chosen, takesAll)) {
      seen.add(text);
      now = after;
      mended += chosen.length;
      offered = offeredIn(now, takesAll);
      refused = new Set();
      isWhole = true;
    } else {
      if (!isWhole || chosen.length === 1) refused.add(chosen[0]);
      isWhole = false;
    }
  }
  return { text: now.text, mended, unsafe: offeredIn(now, true).length };
}

/** Whether a file has something that may turn out to be a safe fix: that is known without judging it again. */
export const mayBeFixed = (analysis: Analysis): boolean => offeredIn(analysis, false).length > 0;

const isSigned = (analysis: Analysis): boolean =>
  analysis.kind === 'readings' && analysis.job.signOff !== null;

/** Fixes that are no choice, of findings that nobody silenced; while the text is broken those of the text and of names. */
function offeredIn(analysis: Analysis, takesAll: boolean): Action[] {
  const { text, tree } = analysis;
  const isBroken = tree.problems.length > 0;
  const offered = fixActions(analysis, { start: 0, end: text.length }).filter(({ mends, preferred }) => {
    if (mends === null || !preferred || (isBroken && !isUnread(mends.rule))) return false;
    return takesAll || ruleNamed(mends.rule)?.safeFix === true;
  });
  return withoutRivals(offered, tree);
}

/** Two mistyped keys may mean the same one: then it is for a person to say which. */
function withoutRivals(actions: readonly Action[], { text, problems }: TextTree): Action[] {
  const byWord = new Map<string, Action[]>();
  for (const action of actions) {
    const word = action.edits.map((edit) => edit.text).join('\n');
    byWord.set(word, [...(byWord.get(word) ?? []), action]);
  }
  const duplicates = (all: TextTree['problems']): number =>
    all.filter(({ rule }) => rule === 'text/duplicate-key').length;
  const known = duplicates(problems);
  const rivals = [...byWord.values()].filter((same) => {
    if (same.length === 1) return false;
    const { problems: then } = parseText(applyEdits(text, apart(same).flatMap(editsOf)));
    return duplicates(then) > known;
  });
  const isRival = new Set(rivals.flat());
  return actions.filter((action) => !isRival.has(action));
}

const editsOf = ({ edits }: Action): readonly TextEdit[] => edits;

/** As many as do not meet, the first first. */
function apart(actions: readonly Action[]): Action[] {
  const taken: TextEdit[] = [];
  return actions.filter(({ edits }) => {
    // two at one place would stand in an order that nobody chose
    const meets = edits.some(({ start, end }) =>
      taken.some((other) => start <= other.end && other.start <= end),
    );
    if (!meets) taken.push(...edits);
    return !meets;
  });
}

/** What the fixes are for is gone, nothing that can be read before cannot be read now, and the meaning is what was asked for. */
function isMended(before: Analysis, after: Analysis, chosen: readonly Action[], mayChange: boolean): boolean {
  if (faultIn(after.findings) !== null) return false;
  const unread = ({ findings }: Analysis): number => findings.filter(({ rule }) => isUnread(rule)).length;
  if (unread(after) > unread(before)) return false;
  const isLike = (one: Finding) => (other: Finding) =>
    one.rule === other.rule && one.message === other.message && other.ignored === null;
  const isFewer = chosen.every(
    ({ mends }) =>
      mends !== null &&
      after.findings.filter(isLike(mends)).length < before.findings.filter(isLike(mends)).length,
  );
  return isFewer && (mayChange || isSameMeaning(before, after));
}

/** What names a job and its people judges nothing. */
const namesOnly = new Set(['order', 'technician', 'by', 'note']);
/** A base is settled once the text is whole: no figure is another for that. */
const settling = 'alignment';

/** Nothing that counts for a figure, a verdict, the procedure or a signature is another. */
function isSameMeaning(before: Analysis, after: Analysis): boolean {
  const sides = { path: '', was: null, status: 'modified', before, after, notes: [] } as const;
  const { job, chassis, settings } = fileDiff(sides, notAsked).file;
  if (job !== null)
    return (
      job.stages.every(isSameStage) &&
      job.entries.length === 0 &&
      !job.signedAnew &&
      job.head.every(({ what }) => namesOnly.has(what)) &&
      JSON.stringify(job.before?.changed ?? null) === JSON.stringify(job.after?.changed ?? null)
    );
  if (chassis !== null) return Object.values(chassis).every((list) => list.length === 0);
  return settings !== null && settings.length === 0;
}

const isSameStage = ({ status, was, readings, points, distances, facts }: DiffStage): boolean =>
  status === 'kept' &&
  was === null &&
  [readings, points, distances].every((list) => list.length === 0) &&
  facts.every(({ what }) => namesOnly.has(what) || what === settling);
