import { grossReadings } from '../../inspection/gross';
import type { Inspection } from '../../inspection/inspect';
import { type Newest, newestReleased } from '../../inspection/newest';
import { oncePer } from '../../inspection/once';
import { type JudgedPoint, judgementsOf } from '../../inspection/points';
import { provisionalNote } from '../../inspection/provisional';
import type { Stage } from '../../inspection/stage';
import { beyond, conformity } from '../../inspection/verdict';
import { certaintyText, limitPhrase, listPhrase, movesPhrase, offPhrase } from '../../inspection/wording';
import { type Axis, axes } from '../../model/chassis';
import { Memory } from '../../text/memory';
import type { Draft, Rule } from '../rule';

export const outside: Rule = {
  name: 'reading/outside',
  severity: 'error',
  page: {
    summary: 'A point is out of tolerance, by more than its uncertainty can explain.',
    why: 'This is the work still to do: the point is not where the maker’s sheet has it, and no doubt about the reading or the alignment changes that. In the newest reading that was not under load it is an error; in earlier stages and under load it is information, for the history of the point.',
    example: '      rail-tip-upper.L: [3002.9, 437.8, 353.0]      # reference 3012, 452, 352',
    mend: 'Move the point the way and as far as the message says, release the tension, and measure again. How a part may be moved, or whether it must be replaced, is the maker’s procedure.',
    source:
      'JCGM 106:2012, Evaluation of measurement data: the role of measurement uncertainty in conformity assessment. A tolerance of ±3 mm where the maker states none is common practice in the trade.',
  },
  ofJob: ({ inspection, text }) => {
    const newest = newestReleased(inspection);
    return inspection.stages.flatMap((stage) => {
      const gross = grossReadings(inspection, stage, text);
      return outsideOf(stage.points)
        .filter((judged) => !gross.has(judged.id))
        .map((judged) => draftOf(inspection, stage, judged, newest.get(judged.id)));
    });
  },
};

const outsideOf = oncePer((points: readonly JudgedPoint[]) =>
  points.filter(({ verdict }) => verdict === 'outside'),
);

/** What was said of a point, and after which closing words: the same is said again as long as those are the same. */
const said = new Memory<JudgedPoint, { closing: string; draft: Draft }>();

function draftOf(
  inspection: Inspection,
  stage: Stage,
  judged: JudgedPoint,
  newest: Newest | undefined,
): Draft {
  const isNewest = newest?.judged === judged;
  // nobody is told to move a point by a base that may be the wrong one
  const isAdvised = isNewest && !stage.alignment?.provisional;
  const closing = `${isNewest ? '' : ` ${historyNote(stage, newest)}`}${provisionalNote(inspection, stage)}`;
  const key = `${isAdvised}${isNewest}${closing}`;
  const last = said.get(judged);
  if (last?.closing === key) return last.draft;
  const advice = isAdvised ? ` ${moveAdvice(inspection, judged)}` : '';
  const draft: Draft = {
    place: judged.reading.key,
    severity: isNewest ? 'error' : 'information',
    message: `${offSentence(inspection, judged)}${advice}${closing}`,
    // history is many lines long: a second one under each would hide the work still to do
    related: isNewest
      ? [
          {
            uri: judged.point.coordinates.uri,
            place: judged.point.coordinates.place,
            message: `the reference of ${judged.id}`,
          },
        ]
      : [],
  };
  said.set(judged, { closing: key, draft });
  return draft;
}

/** The axes that are outside for certain, worst first. */
export function axesOutside(judged: JudgedPoint): Axis[] {
  const judgements = judgementsOf(judged);
  const excess = (k: Axis) => Math.abs(judged.deviation[k] ?? 0);
  return axes
    .filter((k) => {
      const { deviationMm, limits } = judgements[k];
      const chance = conformity(judgements[k]);
      return deviationMm !== null && chance !== null && chance <= 0.05 && beyond(deviationMm, limits);
    })
    .sort((a, b) => excess(b) - excess(a));
}

function offSentence({ job: { unit } }: Inspection, judged: JudgedPoint): string {
  const { id, point, deviation, uncertainty } = judged;
  const found = axesOutside(judged);
  const off = listPhrase(found.map((k) => offPhrase(k, deviation[k]!, point.side, unit)));
  const limits = [...new Set(found.map((k) => limitPhrase(k, point.limits[k], point.side, unit)))];
  const certainty = [...new Set(found.map((k) => certaintyText(uncertainty[k]!, unit)))];
  const byOthers = judged.inBase ? ', judged by the other control points' : '';
  return `${id} is ${off}; ${limits.join(', ')}, certain to ${listPhrase(certainty)} (95 %)${byOthers}.`;
}

function moveAdvice({ job }: Inspection, judged: JudgedPoint): string {
  const found = axesOutside(judged);
  const needed = axes.map((k) => (found.includes(k) ? -(judged.deviation[k] ?? 0) : 0)) as [
    number,
    number,
    number,
  ];
  return `Move it ${movesPhrase(needed, judged.point.side, job.unit)}.`;
}

function historyNote(stage: Stage, newest: Newest | undefined): string {
  if (stage.underTension) return 'It was under load then: measure after release.';
  return newest ? `It was measured again in “${newest.stage.name}”.` : 'An earlier stage.';
}
