import { adviceInStage, stageToExtend } from '../../inspection/advice/job-advice';
import { spanName } from '../../inspection/gate/current-spans';
import type { Undecided, UndecidedSpan } from '../../inspection/gate/undecided';
import type { Inspection } from '../../inspection/job/inspect';
import type { SignOff } from '../../model/job';
import { adviceSentence } from '../../wording/advice-words';
import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnly, coversDimensionsOnlyPage, ofClosed } from './state';

export const undecided: Rule = {
  name: 'sign-off/undecided',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'always',
  inRecord: 'standing',
  unchangeable: true,
  wholeJob: true,
  page: {
    summary:
      'A job is signed off while the measurements cannot say whether a point of its scope, or a distance from one, is inside its limit.',
    why: `Every reading has an uncertainty. Near the limit it cannot say on which side the point lies. Inside the limit that is a warning under the rule
\`simple\`, which the report lists. It is an error where the deviation is beyond the limit, the base of the stage is not decided, its alignment was carried over work and nothing confirms it, the point
could not be judged at all, its repeats contradict each other, the base is weak there, or the shop works by the rule \`guarded\`, by which only what is certainly within passes. A distance
counts in the same way, where one of its points is in the scope, neither end is outside and neither was worked on since it was read.
${coversDimensionsOnlyPage}`,
    example: `# latch stands 3.2 mm too far left, certain to ±1.1; limit ±3.0
sign-off: { by: rk, date: 2026-03-05, chassis: sha256-3f9a61c2 }`,
    exampleIn: {
      place: 'head',
      uncertainty: 0.5,
      after: `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      cowl-hole.L: [1480, 612, 905]
      cowl-hole.R: [1480, -612, 905]
      latch: [3050, 3.2, 780]`,
    },
    mend: `Do what \`reading/undecided\` says at its reading: bring the point back, or read what it names. If it is to stay as it is, accept it with a
reason: \`accepted: [{ point: latch, reason: "slotted mounting, adjusts 5" }]\`. That clears what is undecided about the point and the distances from it, never what is outside.`,
    source: 'Decision rules after ISO 14253-1 and JCGM 106:2012.',
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (state, signOff) => {
      const open = <T extends { accepted: string | null; blocks: boolean }>(
        list: readonly T[],
        block: boolean,
      ) => list.filter(({ accepted, blocks }) => accepted === null && blocks === block);
      return ([true, false] as const).flatMap((block) =>
        draftOf(
          open(state.undecided, block),
          open(state.spansUndecided, block),
          block ? 'error' : 'warning',
          { signOff, inspection: context.inspection },
        ),
      );
    }),
};

function draftOf(
  points: readonly Undecided[],
  spans: readonly UndecidedSpan[],
  severity: 'error' | 'warning',
  { signOff, inspection }: { readonly signOff: SignOff; readonly inspection: Inspection },
): Draft[] {
  const named = [
    { what: 'points', groups: groupsOf(points.map(({ why, newest }) => [why, newest.judged.id])) },
    { what: 'distances', groups: groupsOf(spans.map(({ why, span }) => [why, spanName(span)])) },
  ].flatMap(({ what, groups }) => (groups.length === 0 ? [] : [`${what}: ${groups.join('; ')}`]));
  if (named.length === 0) return [];
  return [
    {
      place: signOff.keyPlace,
      severity,
      message: `signed off with undecided ${named.join('; undecided ')}. Measure again or accept with a reason. ${strengthen(inspection, points)}${coversDimensionsOnly}`,
      related: [
        ...points.map(({ newest: { judged, stage } }) => ({
          message: `${judged.id} in "${stage.name}"`,
          place: judged.reading.key,
        })),
        ...spans.map(({ span, stage }) => ({
          message: `${spanName(span)} in "${stage.name}"`,
          place: span.reading.place,
        })),
      ],
    },
  ];
}

/** What to read where the base is weak, while the measure can still take rows. */
function strengthen(inspection: Inspection, points: readonly Undecided[]): string {
  const stage = stageToExtend(inspection);
  const isWeakHere = points.some(({ why, newest }) => why === 'weak-base' && newest.stage === stage);
  const advice = stage !== null && isWeakHere ? adviceInStage(stage, inspection) : null;
  const said =
    advice === null || typeof advice === 'string' ? null : adviceSentence(advice, inspection.job.unit, 'now');
  return said === null ? '' : `Where the base is weak: ${said.charAt(0).toLowerCase()}${said.slice(1)} `;
}

function groupsOf(named: readonly (readonly [why: Undecided['why'], name: string])[]): string[] {
  return Object.entries(words).flatMap(([why, told]) => {
    const names = named.filter(([each]) => each === why).map(([, name]) => name);
    return names.length === 0 ? [] : [`${shortList(names)} (${told})`];
  });
}

const words: Record<Undecided['why'], string> = {
  'beyond-limit': 'beyond the limit by less than its uncertainty',
  provisional: 'the base is not decided',
  carried: 'the alignment is from before the work, and nothing confirms that the car has not moved',
  unjudged: 'could not be judged',
  repeats: 'its repeats contradict each other',
  'weak-base': 'the base is weak there',
  guarded: 'inside the limit by less than its uncertainty; the rule is guarded',
  'inside-limit': 'inside the limit by less than its uncertainty',
};
