import { faultIn } from '../../findings/internal/fault';
import type { TextRange } from '../../findings/rule/finding';
import { oldSeal } from '../../findings/sign-off/old-seal';
import { undecided } from '../../findings/sign-off/undecided';
import { standingOf } from '../../findings/standing';
import { missingKey } from '../../findings/text/missing-key';
import { chassisIsAnother, type SignOffState } from '../../inspection/gate/sign-off';
import { entryInsertion, itemInsertion, plainOrQuoted, type TextEdit } from '../../text/edits';
import { entryOf, offsetsOf, type Place } from '../../text/tree';
import type { JobAnalysis } from '../../workspace/workspace';
import { onFirstLine, overlaps } from '../places';
import { type Action, answerMark, type Moment, reasonMark } from './code-action';
import { removalEdit, sealing, signatureEdit, signOffComments } from './sign-off-block';

/** *Sign off*, sealing what was signed, *Accept with reason* and *Reopen Job*. */
export function signOffActions(analysis: JobAnalysis, range: TextRange, moment: Moment): Action[] {
  const { inspection, job } = analysis;
  // what the program failed to judge may stand against it
  if (!inspection || inspection.heldBack || faultIn(analysis.findings) !== null) return [];
  const told = { ...analysis, inspection };
  if (job.signOff !== null) {
    const standing = standingOf(told);
    return [
      ...acceptActions(analysis, standing, range),
      ...(overlaps(job.signOff.place, range)
        ? [...sealActions(analysis, standing), ...reopening(analysis, moment)]
        : []),
    ];
  }
  if (!isAsked(analysis, range)) return [];
  const standing = standingOf(told);
  const signed = signAction(analysis, standing, moment);
  return signed.length > 0 ? signed : againstIt(standing, moment);
}

/** Where it cannot be signed yet: what is in the way, for an editor that can list it. */
function againstIt({ remaining }: SignOffState, { shows }: Moment): Action[] {
  const command = 'framewright.signOff';
  if (!shows.has(command) || remaining.length === 0) return [];
  const things = remaining.length === 1 ? 'What stands' : `The ${remaining.length} things that stand`;
  return [
    {
      title: `${things} against the sign-off…`,
      kind: 'refactor.rewrite',
      edits: [],
      preferred: false,
      mends: null,
      shows: { command, with: [] },
    },
  ];
}

/** The sign-off of an open job, wherever the cursor stands; null where something stands against it. */
export function signing(analysis: JobAnalysis, moment: Moment): Action | null {
  const { inspection, job } = analysis;
  if (!inspection || inspection.heldBack || job.signOff !== null || faultIn(analysis.findings) !== null)
    return null;
  return signAction(analysis, standingOf({ ...analysis, inspection }), moment)[0] ?? null;
}

/** Offered at the head of an open job, on its newest measure and at the end of the file, when nothing stands against it. */
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
  const edit = signatureEdit(tree, {
    by: answerMark,
    date: today,
    accepted: accepted.map((id) => `{ point: ${id}, reason: ${answerMark} }`),
    earlier: [],
  });
  if (edit === null) return [];
  const many = accepted.length === 0 ? '' : `, accepting ${accepted.length} undecided`;
  const ask =
    accepted.length === 0
      ? ({ question: 'Who signs? It covers dimensions only.', of: 'name', thenSeals: true } as const)
      : undefined;
  return [
    {
      title: `Sign off the dimensions${many}`,
      kind: 'refactor.rewrite',
      edits: [edit],
      preferred: false,
      mends: null,
      reveals: true as const,
      ask,
    },
  ];
}

/** On a sign-off without seals: one that was just filled in, or an older one whose fingerprint still fits. */
function sealActions(analysis: JobAnalysis, state: SignOffState): Action[] {
  const { inspection, job, findings } = analysis;
  const { signOff } = job;
  if (!inspection || signOff === null || signOff.readings !== null || !signOff.by || !signOff.date) return [];
  const isNew = signOff.chassis === null;
  if (isNew ? !waitsForSeals(analysis, state) : state.chassisChanged) return [];
  const edits = sealing(analysis.tree, inspection.chassis, analysis.settings.decisionRule);
  if (edits === null) return [];
  const rule = isNew ? missingKey.name : oldSeal.name;
  return [
    {
      title: isNew ? 'Seal the sign-off' : 'Seal it as it is now',
      kind: 'quickfix',
      edits,
      preferred: isNew,
      mends:
        findings.find((finding) => finding.rule === rule && overlaps(signOff.place, finding.range)) ?? null,
    },
  ];
}

/** Nothing stands against it but that its seals are missing. */
const waitsForSeals = ({ findings }: JobAnalysis, { reasons }: SignOffState): boolean =>
  findings.filter(({ rule }) => rule === missingKey.name).length === 1 &&
  reasons.every(({ name, why }) => name === missingKey.name || why === chassisIsAnother);

/** What the editor does when a signature was filled in; none where something stands against it. */
export function sealingOf(analysis: JobAnalysis): readonly TextEdit[] {
  const { inspection } = analysis;
  if (!inspection || inspection.heldBack || faultIn(analysis.findings) !== null) return [];
  return sealActions(analysis, standingOf({ ...analysis, inspection }))[0]?.edits ?? [];
}

/** Takes the signature out and keeps it, with its seals, its comments and a reason, as a note at the end of the timeline. */
function reopening({ job, tree }: JobAnalysis, { today }: Moment): Action[] {
  const timeline = entryOf(tree.root, 'timeline')?.value;
  const removal = removalEdit(tree);
  if (job.signOff === null || removal === null || timeline?.kind !== 'sequence') return [];
  const { by, date, readings, chassis, judgedBy } = job.signOff;
  const seals = [
    ...(readings === null ? [] : [`readings ${readings}`]),
    ...(chassis === null ? [] : [`chassis ${chassis}`]),
    `judged by ${judgedBy}`,
  ];
  const who = `signed by ${by ?? 'nobody named'}, ${date ?? 'no date'}`.replaceAll(/\s+/g, ' ');
  const note = itemInsertion(tree, timeline, [
    'note: |-',
    `  ${who} (${seals.join(', ')}); reopened ${today}: ${reasonMark}`,
    ...signOffComments(tree).map(({ text }) => `  ${text}`),
  ]);
  if (note === null || note.start > removal.start) return [];
  return [
    {
      title: 'Reopen Job',
      kind: 'refactor.rewrite',
      edits: [note, removal],
      preferred: false,
      mends: null,
      ask: { question: 'Why is the job reopened?', of: 'reason' },
    },
  ];
}

function isAsked({ job, inspection, text }: JobAnalysis, range: TextRange): boolean {
  const newest = inspection?.stages.at(-1);
  const places = [job.head, job.orderPlace, newest?.measure.keyPlace].filter((place) => place != null);
  return places.some((place) => onLineOf(place, text, range)) || isAtEnd(text, range);
}

/** Anywhere on the line on which a place begins: a cursor on a key asks as one on its value does. */
function onLineOf(place: Place, text: string, range: TextRange): boolean {
  const { start } = offsetsOf(place);
  const begins = Math.max(text.lastIndexOf('\n', start - 1), text.lastIndexOf('\r', start - 1)) + 1;
  return range.end >= begins && (range.end < start || onFirstLine(place, text, range));
}

/** Behind the last line of which something stands, or on it. */
const isAtEnd = (text: string, { start }: TextRange): boolean =>
  start >= text.trimEnd().lastIndexOf('\n') + 1;

/** Undecided, but not past its limit: what a reason may settle. */
const isInside = ({ why, accepted }: SignOffState['undecided'][number]): boolean =>
  accepted === null && ['inside-limit', 'guarded', 'weak-base'].includes(why);

/** On the sign-off of a closed job: each point that is undecided inside its limit. */
function acceptActions(analysis: JobAnalysis, state: SignOffState, range: TextRange): Action[] {
  const { job, tree, findings } = analysis;
  const block = entryOf(tree.root, 'sign-off')?.value;
  // what a seal is over is not changed behind its back: a sealed job is signed again
  if (job.signOff === null || job.signOff.readings !== null || block?.kind !== 'map') return [];
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
