import type { DiffBody, DiffFile, DiffJob, DiffStanding, DiffTouched } from '@framewright/schemas';
import { arrow, counted } from './line';

/** The first line of a file: how it stands, and what of that is another. */

const signedText = ({ signed }: NonNullable<DiffStanding>): string =>
  signed === null
    ? 'open'
    : `signed by ${signed.by ?? 'nobody named'}${signed.date === null ? '' : ` ${signed.date}`}`;

const remainText = ({ length }: readonly string[]): string =>
  `${length} ${length === 1 ? 'remains' : 'remain'}`;

function gateText({ signed, passes, remaining }: NonNullable<DiffStanding>): string {
  if (passes === null) return 'nothing can be concluded';
  if (signed !== null) return passes ? 'gate passes' : `gate does not pass (${remainText(remaining)})`;
  return passes ? 'nothing remains' : remainText(remaining);
}

function sealsText({ changed }: NonNullable<DiffStanding>): string | null {
  if (changed === null) return null;
  if (changed.length === 0) return 'seals agree';
  const said = { readings: 'the job', chassis: 'the chassis' };
  return `${changed.map((which) => said[which]).join(' and ')} ${changed.length === 1 ? 'is' : 'are'} no longer what was signed`;
}

const pieces = (state: NonNullable<DiffStanding>): (string | null)[] => [
  signedText(state),
  gateText(state),
  `${state.accepted} accepted`,
  `${state.ignored} ignored`,
  sealsText(state),
];

/** `signed by rk 2026-03-05, gate passes, 1 accepted, 2 ignored, seals agree`. */
const standingText = (state: DiffStanding): string =>
  state === null
    ? 'cannot be judged'
    : pieces(state)
        .filter((each) => each !== null)
        .join(', ');

/** The same of two sides; what is another has both, with an arrow between. */
export function standingChange(before: DiffStanding, after: DiffStanding): string {
  if (before === null || after === null)
    return before === after ? standingText(after) : `${standingText(before)} → ${standingText(after)}`;
  const now = pieces(after);
  return pieces(before)
    .map((was, k) =>
      was === null && now[k] === null ? null : arrow(was ?? 'no seals', now[k] ?? 'no seals'),
    )
    .filter((each) => each !== null)
    .join(', ');
}

export const isSameStanding = (before: DiffStanding, after: DiffStanding): boolean =>
  JSON.stringify(before) === JSON.stringify(after);

export function jobVerdict({ before, after, afterSignature, signedAnew }: DiffJob, isSame: boolean): string {
  const said = standingChange(before, after);
  if (isSame) return `same meaning: ${said}`;
  if (afterSignature) return `changed after the signature: ${said}`;
  return signedAnew ? `signed anew: ${said}` : said;
}

/** A signature that stood before and does not now. */
export const losesSignature = ({ before, after }: Pick<DiffTouched, 'before' | 'after'>): boolean =>
  before !== null &&
  before.signed !== null &&
  before.changed?.length === 0 &&
  (after === null || after.signed === null || after.changed?.length !== 0);

export const losesGate = ({ before, after }: Pick<DiffTouched, 'before' | 'after'>): boolean =>
  before !== null && before.signed !== null && before.passes === true && after?.passes !== true;

/** What became of a body, in counts. */
export function bodyCounts({ head, points, limits, facts, parts, spans }: DiffBody): string[] {
  const pointsBy = (status: string) => points.filter((point) => point.status === status).length;
  const wider = limits.filter((limit) => limit.wider).length + spans.filter((span) => span.wider).length;
  const narrower = limits.filter((limit) => !limit.wider).length;
  const counts: [number, string, string][] = [
    [pointsBy('changed'), 'point moved', 'points moved'],
    [pointsBy('added'), 'point added', 'points added'],
    [pointsBy('dropped'), 'point gone', 'points gone'],
    [wider, 'limit wider', 'limits wider'],
    [narrower, 'limit narrower', 'limits narrower'],
    [parts.length, 'part changed', 'parts changed'],
    [facts.length, 'fact of a point changed', 'facts of points changed'],
    [spans.length, 'distance changed', 'distances changed'],
    [head.length, 'statement about the whole body changed', 'statements about the whole body changed'],
  ];
  return counts.filter(([count]) => count > 0).map(([count, one, many]) => counted(count, one, many));
}

/** What a change does to the jobs that rest on it. */
export function touchedCounts({
  touches,
  untouched,
}: Pick<DiffFile, 'touches' | 'untouched'>): string | null {
  if (untouched === null) return null;
  const all = touches.length + untouched;
  if (all === 0) return 'no job rests on it';
  const unsealed = touches.filter(losesSignature).length;
  const gates = touches.filter(losesGate).length;
  const verdicts = touches.reduce((sum, { verdicts: { length } }) => sum + length, 0);
  const said = [
    ...(unsealed > 0
      ? [`${counted(unsealed, 'signature')} no longer ${unsealed === 1 ? 'agrees' : 'agree'}`]
      : []),
    ...(gates > 0
      ? [`${counted(gates, 'signed job')} no longer ${gates === 1 ? 'passes' : 'pass'} the gate`]
      : []),
    ...(verdicts > 0 ? [`${counted(verdicts, 'verdict')} ${verdicts === 1 ? 'is' : 'are'} another`] : []),
  ];
  const rest = `${counted(all, 'job')} ${all === 1 ? 'rests' : 'rest'} on it`;
  if (touches.length === 0) return `${rest}: all stand as before`;
  return `${rest}: ${said.length === 0 ? `${touches.length} ${touches.length === 1 ? 'stands' : 'stand'} otherwise` : said.join(', ')}`;
}

export const bodyVerdict = (body: DiffBody, file: Pick<DiffFile, 'touches' | 'untouched'>): string =>
  [...bodyCounts(body), touchedCounts(file)].filter((each) => each !== null).join(', ');
