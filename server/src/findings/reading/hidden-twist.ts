import type { JudgedPoint } from '../../inspection/alignment/points';
import { grossReadings } from '../../inspection/job/gross';
import type { Inspection } from '../../inspection/job/inspect';
import { type Newest, newestReleased } from '../../inspection/job/newest';
import { provisionalNote } from '../../inspection/job/provisional';
import type { PartInspection, Stage } from '../../inspection/job/stage';
import { type Levels, levelsOf } from '../../inspection/shape/levels';
import { placeText } from '../../wording/places';
import { stationTwistText } from '../../wording/twist-wording';
import { listPhrase, roundedText } from '../../wording/wording';
import type { Draft, Rule } from '../rule/rule';

export const hiddenTwist: Rule = {
  name: 'reading/hidden-twist',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'reading',
  page: {
    summary: 'At one station of a part one level is in tolerance and the other is not: the part is twisted.',
    why: 'A rail’s lower holes can be right while its top is off. Whoever measures the lower holes alone calls such a rail straight, and whoever pulls on the upper ones alone spoils the lower. A twist is taken out by turning the part, with two hooks at different heights.',
    example:
      '      rail-tip-lower.L: [3012.2, 448.4, 210.1]      # in tolerance\n      rail-tip-upper.L: [3011.7, 440.1, 352.2]      # 11.9 mm too far right',
    exampleIn: { place: 'row' },
    mend: 'Judge and correct the part by both levels together; pull high and low in opposite directions rather than at one level, as the maker’s procedure allows, and measure both levels after release.',
    source: 'Common practice in the trade.',
  },
  ofJob: ({ inspection }) => {
    const newest = newestReleased(inspection);
    return [...partsOutside(newest)].flatMap(([stage, suspects]) => {
      const gross = grossReadings(inspection, stage);
      const isCurrent = (id: string) => newest.get(id)?.stage === stage && !gross.has(id);
      return stage.parts.flatMap((part) => {
        if (!suspects.has(part.part.id)) return [];
        const points = part.displacements.flatMap(({ point: { id } }) =>
          isCurrent(id) ? newest.get(id)!.judged : [],
        );
        const hiding = levelsOf(points, part.part.along).filter(oneOfTwo);
        return hiding.length === 0 ? [] : [draftOf(inspection, stage, part, hiding)];
      });
    });
  },
};

/** By stage: the parts of which a newest reading is outside there. Only such a part can have one level that hides the other. */
function partsOutside(newest: ReadonlyMap<string, Newest>): Map<Stage, Set<string | null>> {
  const byStage = new Map<Stage, Set<string | null>>();
  for (const { stage, judged } of newest.values()) {
    if (judged.verdict !== 'outside') continue;
    const parts = byStage.get(stage);
    if (parts) parts.add(judged.point.part);
    else byStage.set(stage, new Set([judged.point.part]));
  }
  return byStage;
}

const oneOfTwo = ({ lower, upper }: Levels<JudgedPoint>): boolean =>
  (lower.verdict === 'within' && upper.verdict === 'outside') ||
  (lower.verdict === 'outside' && upper.verdict === 'within');

function draftOf(
  inspection: Inspection,
  stage: Stage,
  part: PartInspection,
  hiding: readonly Levels<JudgedPoint>[],
): Draft {
  const { unit } = inspection.job;
  const told = hiding.slice(0, 3).map(({ lower, upper }) => {
    const [right, wrong] = lower.verdict === 'within' ? [lower, upper] : [upper, lower];
    const twist = part.stations.find((station) =>
      station.members.some(({ point }) => point.id === right.id),
    )?.twist;
    const angle = twist ? `, turned ${stationTwistText(twist, part.part.along)}` : '';
    return `at ${placeText(right.point.reference[part.part.along], part.part, unit)} ${right.id} is in tolerance and ${wrong.id}, ${roundedText(Math.abs(upper.point.reference[2] - lower.point.reference[2]), unit)} ${wrong === upper ? 'higher' : 'lower'}, is not${angle}`;
  });
  const rest = hiding.length > told.length ? `, and at ${hiding.length - told.length} more pairs` : '';
  const first = hiding[0].lower.verdict === 'within' ? hiding[0].lower : hiding[0].upper;
  return {
    place: first.reading.key,
    message: `${part.part.id} is twisted, and half of its points hide it: ${listPhrase(told)}${rest}. Judge and correct both levels together.${provisionalNote(inspection, stage)}`,
    related: hiding.flatMap(({ lower, upper }) =>
      [lower, upper]
        .filter((judged) => judged !== first)
        .map((judged) => ({
          place: judged.reading.key,
          message: `${judged.id} is ${judged.verdict === 'within' ? 'in tolerance' : 'out of tolerance'}`,
        })),
    ),
  };
}
