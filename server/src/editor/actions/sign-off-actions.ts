import { faultIn } from '../../findings/internal/fault';
import type { TextRange } from '../../findings/rule/finding';
import { undecided } from '../../findings/sign-off/undecided';
import { standingOf } from '../../findings/standing';
import { chassisHash } from '../../inspection/gate/chassis-hash';
import type { SignOffState } from '../../inspection/gate/sign-off';
import { newestJudging } from '../../model/resolve/judging';
import { entryInsertion, itemInsertion, plainOrQuoted, type TextEdit } from '../../text/edits';
import { entryOf, offsetsOf } from '../../text/tree';
import type { JobAnalysis } from '../../workspace/workspace';
import { onFirstLine, overlaps } from '../places';
import { type Action, answerMark, type Moment } from './code-action';

/** *Sign off*, *Accept with reason*, and signing against the chassis file as it is now. */
export function signOffActions(analysis: JobAnalysis, range: TextRange, moment: Moment): Action[] {
  const { inspection, job } = analysis;
  // what the program failed to judge may stand against it
  if (!inspection || inspection.heldBack || faultIn(analysis.findings) !== null) return [];
  const told = { ...analysis, inspection };
  if (job.signOff !== null) return acceptActions(analysis, standingOf(told), range);
  return isAsked(analysis, range) ? signAction(analysis, standingOf(told), moment) : [];
}

/** How much of the content hash is written: enough to tell files apart, short enough to read. */
const hashDigits = 16;

/** Offered at the head of an open job and on its newest measure, when nothing stands against it. */
function signAction(analysis: JobAnalysis, state: SignOffState, { today }: Moment): Action[] {
  const { inspection, tree } = analysis;
  const { root } = tree;
  if (!inspection || root?.kind !== 'map') return [];
  // what is undecided inside its limit may be accepted, and nothing else may stand against it
  const acceptable = state.undecided.filter(isInside);
  if (state.passes !== true && state.remaining.length > acceptable.filter(({ blocks }) => blocks).length)
    return [];
  const accepted =
    state.passes === true
      ? []
      : acceptable.filter(({ blocks }) => blocks).map(({ newest }) => newest.judged.id);
  const hash = chassisHash(inspection.chassis).slice(0, 'sha256-'.length + hashDigits);
  const lines = [
    '',
    `by: ${answerMark}`,
    `date: ${today}`,
    `chassis: ${hash}`,
    `judged-by: ${newestJudging}`,
    ...(accepted.length === 0
      ? []
      : ['accepted:', ...accepted.map((id) => `  - { point: ${id}, reason: ${answerMark} }`)]),
  ];
  const edit = entryInsertion(tree, root, 'sign-off', lines);
  if (edit === null) return [];
  const many = accepted.length === 0 ? '' : `, accepting ${accepted.length} undecided`;
  const ask =
    accepted.length === 0
      ? ({ question: 'Who signs? It covers dimensions only.', of: 'name' } as const)
      : undefined;
  return [
    {
      title: `Sign off the dimensions${many}`,
      kind: 'refactor.rewrite',
      edits: [edit],
      preferred: false,
      mends: null,
      ask,
    },
  ];
}

function isAsked({ job, inspection, text }: JobAnalysis, range: TextRange): boolean {
  const newest = inspection?.stages.at(-1);
  const places = [job.head, job.orderPlace, newest?.measure.keyPlace].filter((place) => place != null);
  return places.some((place) => onFirstLine(place, text, range));
}

/** Undecided, but not past its limit: what a reason may settle. */
const isInside = ({ why, accepted }: SignOffState['undecided'][number]): boolean =>
  accepted === null && ['inside-limit', 'guarded', 'weak-base'].includes(why);

/** On the sign-off of a closed job: each point that is undecided inside its limit. */
function acceptActions(analysis: JobAnalysis, state: SignOffState, range: TextRange): Action[] {
  const { job, tree, findings } = analysis;
  const block = entryOf(tree.root, 'sign-off')?.value;
  if (job.signOff === null || block?.kind !== 'map') return [];
  return state.undecided.filter(isInside).flatMap(({ newest: { judged } }) => {
    if (!overlaps(job.signOff!.place, range) && !overlaps(judged.reading.key, range)) return [];
    const edit = acceptance(analysis, judged.id);
    if (edit === null) return [];
    const mends =
      findings.find(
        (finding) => finding.rule === undecided.name && overlaps(job.signOff!.place, finding.range),
      ) ?? null;
    return [
      {
        title: `Accept ${judged.id} with a reason`,
        kind: 'quickfix' as const,
        edits: [edit],
        preferred: false,
        mends,
        ask: { question: `Why may ${judged.id} stay undecided?`, of: 'reason' as const },
      },
    ];
  });
}

function acceptance({ tree }: JobAnalysis, id: string): TextEdit | null {
  const block = entryOf(tree.root, 'sign-off')?.value;
  if (block?.kind !== 'map') return null;
  const item = `{ point: ${plainOrQuoted(id, 'flow')}, reason: ${answerMark} }`;
  const accepted = entryOf(block, 'accepted');
  const list = accepted?.value;
  if (!accepted) return entryInsertion(tree, block, 'accepted', ['', `- ${item}`]);
  if (list?.kind !== 'sequence') return null;
  if (!list.flow) return itemInsertion(tree, list, [item]);
  const { end } = offsetsOf(list.place);
  return { start: end - 1, end: end - 1, text: list.items.length === 0 ? item : `, ${item}` };
}
