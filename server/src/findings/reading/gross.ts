import { type JudgedPoint, mapAxes } from '../../inspection/alignment/points';
import { offOnBothSides } from '../../inspection/job/both-sides';
import { type Explanation, type Gross, grossReadings } from '../../inspection/job/gross';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import type { Reading } from '../../model/job';
import type { Replacement } from '../../model/problem';
import { lengthText } from '../../model/units';
import { offsetsOf } from '../../text/tree';
import { movesPhrase } from '../../wording/wording';
import type { Rule } from '../rule/rule';

export const gross: Rule = {
  name: 'reading/gross',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'reading',
  page: {
    summary: 'A reading is so far off that it is a slip, not damage.',
    why: 'A lost minus, two digits the wrong way round, the same hole on the other side, the wrong hole: such slips make hundreds of millimetres. If they stay in the file, they spoil every figure of their part, and nobody must pull by them. A reading over 100 mm off that a slip of this kind explains is reported here, and any over 500 mm. Where the other side is off by as much, it is the sheet that is asked about: a reading goes wrong on one side, a reference that was typed once on both.',
    example: '      rail-middle-upper.R: [3281.0, -442.6, 338.2]      # 2381.0 was read',
    exampleIn: { place: 'row' },
    mend: 'Take the offered correction if the note on the bench agrees with it, else read the point again.',
    source: 'Common practice in the trade.',
  },
  ofJob: ({ inspection }) =>
    inspection.stages.flatMap((stage) =>
      [...grossReadings(inspection, stage).values()].map((found) => ({
        place: found.judged.reading.key,
        message: messageOf(inspection, stage, found),
        related: found.explanations.slice(0, 1).flatMap((each) => placesOf(stage, each)),
        // what is wrong on the sheet is not mended in a reading
        replacements:
          alikeOf(stage, found) === null
            ? found.explanations.flatMap((each) => fixesFor(stage, found, each))
            : [],
      })),
    ),
};

/** `so is rail-tip.R, alike: …`: a reading goes wrong on one side, a reference that was typed once on both. */
export const alikePhrase = (otherId: string): string =>
  `So is ${otherId}, by as much: look at the sheet before anything is moved`;

/** The other side, where it is off by as much; not where the two readings are exchanged, which looks alike. */
const alikeOf = (stage: Stage, { judged, explanations }: Gross): JudgedPoint | null =>
  explanations.some((each) => each.kind === 'other-side' && each.swapped)
    ? null
    : offOnBothSides(judged, stage.points);

function messageOf(inspection: Inspection, stage: Stage, found: Gross): string {
  const { judged, offMm, explanations } = found;
  const { unit } = inspection.job;
  const way = movesPhrase(
    mapAxes((k) => judged.deviation[k] ?? 0),
    judged.point.side,
    unit,
    20,
  );
  const off = `${judged.id} is ${lengthText(offMm, unit)} off (${way})`;
  const alike = alikeOf(stage, found);
  if (alike !== null) return `${off}. ${alikePhrase(alike.id)}.`;
  if (explanations.length === 0)
    return `${off}: no damage moves a point so far. Look at the name, the digits and the point that was touched.`;
  const [first, second] = explanations.map((each) => explained(each, inspection));
  return `${off}, probably a slip: ${first}${second ? `; or ${second}` : ''}.`;
}

const numberNames = ['first', 'second', 'third'];

function explained(explanation: Explanation, { job }: Inspection): string {
  const left = `${lengthText(explanation.remainderMm, job.unit)} off`;
  switch (explanation.kind) {
    case 'other-side':
      return explanation.swapped
        ? `it is at the place of ${explanation.otherId}, and that one at its place: left and right are swapped (then ${left})`
        : `it is at the place of ${explanation.otherId}, on the other side (then ${left})`;
    case 'other-point':
      return `it is at the place of ${explanation.otherId} (then ${left})`;
    case 'slip': {
      const wrong = explanation.what === 'sign' ? 'has the wrong sign' : 'has two digits the wrong way round';
      return `its ${numberNames[explanation.number]} number ${wrong}, ${explanation.from.source} for ${explanation.to} (then ${left})`;
    }
  }
}

const readingOf = (stage: Stage, id: string): Reading | undefined =>
  stage.measure.readings.find((reading) => reading.id === id);

function placesOf(stage: Stage, explanation: Explanation) {
  const other = explanation.kind === 'slip' ? undefined : readingOf(stage, explanation.otherId);
  return other ? [{ place: other.key, message: `${other.id} was read here` }] : [];
}

/** Only what cannot make another reading wrong: a name is given anew where it is free, or two names change places. */
function fixesFor(stage: Stage, { judged }: Gross, explanation: Explanation): Replacement[] {
  const { reading } = judged;
  if (explanation.kind === 'slip') {
    if (explanation.more.length > 0) return [];
    const { from, to } = explanation;
    return [{ title: `Write ${to} for ${from.source}`, place: from.place, text: to }];
  }
  const other = readingOf(stage, explanation.otherId);
  if (other === undefined) {
    if (!reading.hasPlainKey) return [];
    return [{ title: `Rename to ${explanation.otherId}`, place: reading.key, text: explanation.otherId }];
  }
  if (explanation.kind !== 'other-side' || !explanation.swapped || !reading.hasPlainKey || !other.hasPlainKey)
    return [];
  const [first, last] =
    offsetsOf(reading.key).start < offsetsOf(other.key).start ? [reading, other] : [other, reading];
  return [
    {
      title: `Swap ${first.id} and ${last.id}`,
      place: first.key,
      text: last.id,
      also: [{ place: last.key, text: first.id }],
    },
  ];
}
