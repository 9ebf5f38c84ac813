import { grouped } from '../../inspection/alignment/grouped';
import type { Verdict } from '../../inspection/alignment/verdict';
import type { Reason, SignOffState } from '../../inspection/gate/sign-off';
import { type Newest, newestReleased } from '../../inspection/job/newest';
import { pointsInScope, withoutSides } from '../../inspection/job/scope';
import type { Stage } from '../../inspection/job/stage';
import { axes } from '../../model/chassis';
import { summaryLines } from '../../wording/summaries';
import { excessMm } from '../drawing/drawing-marks';
import { type Markup, markup, quoted, shortened } from '../markup';
import { deviationMarkup, limitsMarkup, verdictMark } from './record-figures';
import { type Cell, facts, plural, type RecordContext, section, table, written } from './record-input';

/** How the car stands by its newest readings off load, in a few lines. */
export function standingSection(context: RecordContext): Markup {
  const { inspection, job, state } = context;
  const inScope = pointsInScope(inspection).length;
  const count = (verdict: Verdict) => state.judged.filter((each) => verdictNow(each) === verdict).length;
  return section(
    'standing',
    'How it stands',
    markup`<p class="standing ${state.passes ? 'passes' : 'stays'}">${standingText(context)}</p>`,
    state.heldBack
      ? null
      : markup`<p>Of ${plural(inScope, 'point')} to be judged, by readings off load that no later work has outdated: ${count('within')} within, ${count('outside')} outside, ${count('undecided')} undecided, ${count('unjudged')} unjudged, ${inScope - state.judged.length} without such a reading.</p>`,
    state.remaining.length === 0
      ? null
      : markup`<h3>What stands against a sign-off</h3>${remainingTable(state.reasons)}`,
    job.timeline.length === 0 ? markup`<p>Nothing was measured yet.</p>` : null,
  );
}

/** In a stage that is not settled nothing is within for certain. */
const verdictNow = ({ judged, stage }: Newest): Verdict =>
  stage.provisional && judged.verdict === 'within' ? 'undecided' : judged.verdict;

/** Each reason once, with all names that share it; one of the whole job stands by itself. */
function remainingTable(reasons: readonly Reason[]): Markup {
  return facts(
    [...grouped(reasons, ({ why }) => why)].map(([why, group]) => {
      const names = [...new Set(group.flatMap(({ name }) => name ?? []))];
      if (names.length === 0) return [why, markup``] as const;
      return [names.length === 1 ? why : `${why} (${names.length})`, namesMarkup(names)] as const;
    }),
  );
}

/** Names in a row, both sides of one as one. */
export const namesMarkup = (names: readonly string[]): Markup =>
  markup`${withoutSides(names).map((name, i) => markup`${i === 0 ? null : ', '}${quoted(name)}`)}`;

function standingText({ state, job }: RecordContext): Markup {
  if (state.heldBack)
    return markup`The files have errors. What needs the whole job is not judged; do not release a car by this record.`;
  if (!state.closed)
    return state.passes
      ? markup`The job is open. Nothing stands against signing off its dimensions.`
      : markup`The job is open: ${thingsStand(state)} against signing it off.`;
  const by = markup`Signed off by ${written(job.signOff?.by ?? null, 'nobody named')}, ${written(job.signOff?.date ?? null, 'no date')}`;
  return state.passes
    ? markup`${by}: the sign-off stands.`
    : markup`${by}, but the sign-off does not stand: ${thingsStand(state)} against it.`;
}

const thingsStand = ({ remaining }: SignOffState): string =>
  `${plural(remaining.length, 'thing')} stand${remaining.length === 1 ? 's' : ''}`;

/** The points that are not within, by their newest reading off load; those farthest past their limits first. */
export function openPointsSection({ inspection, unit }: RecordContext): Markup {
  const order: Record<Verdict, number> = { outside: 0, undecided: 1, unjudged: 2, within: 3 };
  const excess = ({ judged }: Newest) => (judged.verdict === 'outside' ? excessMm(judged) : 0);
  const open = [...newestReleased(inspection).values()]
    .filter((each) => verdictNow(each) !== 'within')
    .sort(
      (a, b) =>
        order[verdictNow(a)] - order[verdictNow(b)] ||
        excess(b) - excess(a) ||
        (a.judged.id < b.judged.id ? -1 : 1),
    );
  const readIn = [...new Set(open.map(({ stage }) => stage))];
  const stageName = (stage: Stage) =>
    markup`${inspection.stages.indexOf(stage) + 1} ${quoted(shortened(stage.name, 40))}${stage.provisional ? ' (provisional)' : null}`;
  if (open.length === 0)
    return section(
      'open-points',
      'Points that are not within',
      markup`<p>${newestReleased(inspection).size === 0 ? 'No point was read off load.' : 'By its newest reading off load, every point that was read is within its limits.'}</p>`,
    );
  const several = readIn.length > 1;
  return section(
    'open-points',
    'Points that are not within',
    markup`<p>By the newest reading of each off load, farthest past its limit first${several ? '.' : markup`; all as read in stage ${stageName(readIn[0])}.`}</p>`,
    table(
      several ? 'open-points several' : 'open-points',
      ['Point', 'Verdict', 'Limit', 'Length', 'Width', 'Height', ...(several ? ['Read in'] : [])],
      open.map(({ judged, stage }): Cell[] => [
        quoted(shortened(judged.id, 80)),
        verdictMark(verdictNow({ judged, stage }), verdictNow({ judged, stage })),
        limitsMarkup(judged.point, unit),
        ...axes.map((k) => deviationMarkup(judged, k, unit)),
        ...(several ? [stageName(stage)] : []),
      ]),
    ),
  );
}

/** Twist, sweep, bend and the rest of each part, as the newest stage off load shows them. */
export function partsSection({ inspection }: RecordContext): Markup | null {
  const last = inspection.stages.findLast(({ underTension }) => !underTension);
  const lines = last === undefined ? [] : summaryLines(inspection, last);
  if (last === undefined || lines.length === 0) return null;
  return section(
    'parts',
    'Shape of the parts',
    markup`<p>As stage ${inspection.stages.indexOf(last) + 1} ${quoted(`“${shortened(last.name, 60)}”`)} shows them; figures with ± at 95 %.</p>`,
    facts(lines.map(({ key, text }) => [key, quoted(text)])),
  );
}
