import type { DiffBody, DiffFile, DiffStanding, DiffTouched } from '@framewright/schemas';
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

/** Said only where there is some. */
const isNone = (piece: string): boolean => piece === '0 accepted' || piece === '0 ignored';

/** `signed by rk 2026-03-05, gate passes, 1 accepted, 2 ignored, seals agree`. */
const standingText = (state: DiffStanding): string =>
  state === null
    ? 'cannot be judged'
    : pieces(state)
        .filter((each) => each !== null && !isNone(each))
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
    .filter((each) => each !== null && !isNone(each))
    .join(', ');
}

export const isSameStanding = (before: DiffStanding, after: DiffStanding): boolean =>
  JSON.stringify(before) === JSON.stringify(after);

/** A signature that stood before and does not now. */
export const losesSignature = ({ before, after }: Pick<DiffTouched, 'before' | 'after'>): boolean =>
  before !== null &&
  before.signed !== null &&
  before.changed?.length === 0 &&
  (after === null || after.signed === null || after.changed?.length !== 0);

export const losesGate = ({ before, after }: Pick<DiffTouched, 'before' | 'after'>): boolean =>
  before !== null && before.signed !== null && before.passes === true && after?.passes !== true;

/** `limits of 26 points wider (3 axes each)`; where not every axis of each is another, so many limits. */
function limitCount(limits: DiffBody['limits'], word: string): string[] {
  if (limits.length === 0) return [];
  const points = new Set(limits.map(({ id }) => id)).size;
  return points > 1 && limits.length === 3 * points
    ? [`limits of ${points} points ${word} (3 axes each)`]
    : [`${counted(limits.length, 'limit')} ${word}`];
}

/** What became of a body, in counts. */
export function bodyCounts({ head, points, limits, facts, parts, spans }: DiffBody): string[] {
  const pointsBy = (status: string) => points.filter((point) => point.status === status).length;
  const told = (counts: readonly [number, string, string][]): string[] =>
    counts.filter(([count]) => count > 0).map(([count, one, many]) => counted(count, one, many));
  return [
    ...told([
      [pointsBy('changed'), 'point moved', 'points moved'],
      [pointsBy('added'), 'point added', 'points added'],
      [pointsBy('dropped'), 'point gone', 'points gone'],
    ]),
    ...limitCount(
      limits.filter(({ wider }) => wider),
      'wider',
    ),
    ...limitCount(
      limits.filter(({ wider }) => !wider),
      'narrower',
    ),
    ...told([
      [spans.filter(({ wider }) => wider).length, 'limit of a distance wider', 'limits of distances wider'],
      [parts.length, 'part changed', 'parts changed'],
      [facts.length, 'fact of a point changed', 'facts of points changed'],
      [spans.length, 'distance changed', 'distances changed'],
      [head.length, 'statement about the whole body changed', 'statements about the whole body changed'],
    ]),
  ];
}

type Resting = Pick<DiffFile, 'touches' | 'untouched'>;

/** What a change does to the jobs that rest on it, the gravest first; empty where all stand as before. */
function touchedTexts({ touches }: Resting): string[] {
  if (touches.length === 0) return [];
  const unsealed = touches.filter(losesSignature).length;
  const gates = touches.filter(losesGate).length;
  const verdicts = touches.reduce((sum, { verdicts: { length } }) => sum + length, 0);
  const said = [
    ...(gates > 0
      ? [`${counted(gates, 'signed job')} no longer ${gates === 1 ? 'passes its' : 'pass their'} gate`]
      : []),
    ...(unsealed > 0
      ? [`${counted(unsealed, 'signature')} no longer ${unsealed === 1 ? 'agrees' : 'agree'}`]
      : []),
    ...(verdicts > 0 ? [`${counted(verdicts, 'verdict')} changed`] : []),
  ];
  return said.length > 0
    ? said
    : [`${counted(touches.length, 'job')} ${touches.length === 1 ? 'is' : 'are'} judged differently`];
}

function restsText({ touches, untouched }: Resting): string[] {
  if (untouched === null) return [];
  const all = touches.length + untouched;
  if (all === 0) return ['no job rests on it'];
  const rest = `${counted(all, 'job')} ${all === 1 ? 'rests' : 'rest'} on it`;
  return [touches.length === 0 ? `${rest}: all stand as before` : rest];
}

/** What a change does first, then what it is: `1 signature no longer agrees. 2 points moved, 3 jobs rest on it`. */
export function verdictFirst(what: readonly string[], resting: Resting): string {
  const does = touchedTexts(resting);
  const is = [...what, ...restsText(resting)].join(', ');
  return does.length === 0 ? is : `${does.join('; ')}. ${is}`;
}

/** The meaning is the same, and so is that of what rests on it. */
export const sameMeaning = (resting: Resting): string => ['same meaning', ...restsText(resting)].join(': ');
