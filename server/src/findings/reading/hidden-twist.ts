import { grossReadings } from '../../inspection/gross';
import type { Inspection } from '../../inspection/inspect';
import { type Levels, levelsOf } from '../../inspection/levels';
import { newestReleased } from '../../inspection/newest';
import type { JudgedPoint } from '../../inspection/points';
import { provisionalNote } from '../../inspection/provisional';
import type { PartInspection, Stage } from '../../inspection/stage';
import { stationTwistText } from '../../inspection/twist-wording';
import { listPhrase, placeText } from '../../inspection/wording';
import type { Draft, Rule } from '../rule';

export const hiddenTwist: Rule = {
  name: 'reading/hidden-twist',
  severity: 'warning',
  page: {
    summary: 'At one station of a part one level is in tolerance and the other is not: the part is twisted.',
    why: 'A rail’s lower holes can be right while its top is off. Whoever measures the lower holes alone calls such a rail straight, and whoever pulls on the upper ones alone spoils the lower. A twist is taken out by turning the part, with two hooks at different heights.',
    example:
      '      rail-tip-lower.L: [3012.2, 448.4, 210.1]      # in tolerance\n      rail-tip-upper.L: [3011.7, 440.1, 352.2]      # 11.9 mm too far right',
    mend: 'Judge and correct the part by both levels together; pull high and low in opposite directions rather than at one level, as the maker’s procedure allows, and measure both levels after release.',
    source: 'Common practice in the trade.',
  },
  ofJob: ({ inspection, text }) => {
    const byStage = new Map<Stage, JudgedPoint[]>();
    for (const { stage, judged } of newestReleased(inspection).values()) {
      const points = byStage.get(stage);
      if (points) points.push(judged);
      else byStage.set(stage, [judged]);
    }
    return [...byStage]
      .filter(([, points]) => points.some(({ verdict }) => verdict === 'outside'))
      .flatMap(([stage, points]) => {
        const gross = grossReadings(inspection, stage, text);
        const current = new Map(
          points.filter(({ id }) => !gross.has(id)).map((judged) => [judged.id, judged]),
        );
        return stage.parts.flatMap((part) => {
          const points = part.displacements.flatMap(({ point }) => current.get(point.id) ?? []);
          const hiding = levelsOf(points, part.part.along).filter(oneOfTwo);
          return hiding.length === 0 ? [] : [draftOf(inspection, stage, part, hiding)];
        });
      });
  },
};

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
    return `at ${placeText(right.point.reference[part.part.along], unit)} ${right.id} is in tolerance and ${wrong.id}, ${placeText(Math.abs(upper.point.reference[2] - lower.point.reference[2]), unit)} ${wrong === upper ? 'higher' : 'lower'}, is not${angle}`;
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
