import type { JudgedPoint } from '../inspection/alignment/points';
import { unusable } from '../inspection/frame/alignment';
import { currentSpans, spanName } from '../inspection/gate/current-spans';
import type { Inspection } from '../inspection/job/inspect';
import { newestReleased } from '../inspection/job/newest';
import { isUnsettled, provisionalReason } from '../inspection/job/provisional';
import { isMentionedIn, pointsInScope, withoutSides } from '../inspection/job/scope';
import { axesOver, overAdvice } from './undecided-words';
import { shortList } from './wording';

/**
 * What is to be said where no part has a point outside tolerance: that there is nothing to pull only where that is known, else what is off
 * or open all the same. One sentence or more.
 */
export function nothingPlanned(inspection: Inspection): string {
  if (inspection.heldBack) return 'No plan: a file has errors: correct them first.';
  const newest = [...newestReleased(inspection).values()].map(({ judged }) => judged);
  const spans = currentSpans(inspection);
  const stage = inspection.stages.findLast(({ underTension }) => !underTension);
  if (stage !== undefined && unusable(stage.alignment))
    return `No plan: the readings of “${stage.name}” cannot be understood: see the findings about its base.`;
  if (newest.length + spans.length === 0) return 'No plan: nothing was read off load yet that can be judged.';
  const ids = (verdict: string) => newest.filter((each) => each.verdict === verdict).map(({ id }) => id);
  const names = (verdict: string) =>
    spans.filter(({ span }) => span.verdict === verdict).map(({ span }) => spanName(span));
  const [outside, spansOutside] = [ids('outside'), names('outside')];
  const open = newest.filter(({ verdict }) => verdict === 'undecided');
  const over = open.filter((each) => axesOver(each).length > 0);
  const inside = [...open.filter((each) => !over.includes(each)).map(({ id }) => id), ...names('undecided')];
  const sentences = [
    ...(outside.length === 0 ? [] : [`Outside, but of no part: ${shortList(outside)}.`]),
    ...(spansOutside.length === 0 ? [] : [`${distances(spansOutside)}.`, howToTell]),
    ...over.map((each) => overSentence(each, inspection)),
    ...(inside.length === 0
      ? []
      : [`Not decided: ${shortList(inside)}: what to read stands at each reading (\`framewright check\`).`]),
    ...(ids('unjudged').length === 0 ? [] : [`Not judged: ${shortList(ids('unjudged'))}.`]),
    ...(stage?.provisional
      ? [`The base of “${stage.name}” is not settled (${provisionalReason(inspection, stage)}).`]
      : []),
  ];
  const unread = unreadParts(inspection);
  if (sentences.length === 0 && unread.length > 0)
    return `No plan: ${shortList(unread)} ${unread.length === 1 && !unread[0].endsWith(')') ? 'was' : 'were'} not read. What was read is within.`;
  return sentences.length === 0
    ? 'Nothing to pull: no point is outside tolerance in its newest released reading.'
    : `No plan: no part has a point outside tolerance in its newest released reading. ${sentences.join(' ')}`;
}

/** Parts of the scope of which nothing was read, nor said to be unreachable. */
function unreadParts(inspection: Inspection): string[] {
  const { points } = inspection.chassis;
  const isMentioned = isMentionedIn(inspection);
  const partOf = (id: string): string | readonly string[] => points.get(id)?.part ?? [];
  const ids = pointsInScope(inspection);
  const read = new Set(ids.filter(isMentioned).flatMap(partOf));
  return withoutSides([...new Set(ids.flatMap(partOf))].filter((part) => !read.has(part)));
}

/** What is outside and in none of the plans: points of no part, distances that end at none of the planned parts. Null where nothing is. */
export function besidesPlans(inspection: Inspection, partIds: readonly string[]): string | null {
  if (inspection.heldBack) return null;
  const { points } = inspection.chassis;
  const planned = (id: string) => partIds.includes(points.get(id)?.part ?? '');
  const lone = [...newestReleased(inspection).values()].flatMap(({ judged: { id, point, verdict } }) =>
    verdict === 'outside' && point.part === null ? [id] : [],
  );
  const spans = currentSpans(inspection).flatMap(({ span }) =>
    span.verdict === 'outside' && !planned(span.from) && !planned(span.to) ? [spanName(span)] : [],
  );
  const sentences = [
    ...(lone.length === 0 ? [] : [`Outside, but of no part: ${shortList(lone)}.`]),
    ...(spans.length === 0 ? [] : [`${distances(spans)}.`, howToTell]),
  ];
  return sentences.length === 0 ? null : `Besides: ${sentences.join(' ')}`;
}

/** Nobody is told to move a point by a base that may be the wrong one. */
function overSentence(judged: JudgedPoint, { stages, job }: Inspection): string {
  const stage = stages.findLast(({ points }) => points.includes(judged));
  const advice = stage === undefined || isUnsettled(stage) ? 'read it again' : overAdvice(judged, job.unit);
  return `${judged.id} is over its limit, but not for certain: ${advice}.`;
}

const distances = (names: readonly string[]): string =>
  names.length === 1
    ? `A distance is outside: ${names[0]}`
    : `${names.length} distances are outside: ${shortList(names)}`;

const howToTell =
  'A distance does not tell which of its ends is off: read both in three numbers, with the control points, and plan by that.';
