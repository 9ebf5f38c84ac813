import type { Left } from '../../inspection/advice/answer';
import { judgedParts, marksFor, type PartName, partDoubt } from '../../inspection/advice/chassis-advice';
import type { Chassis } from '../../model/chassis';
import { lengthFigure } from '../../model/units';
import { instrumentText, leftAndMost, readingsPhrase } from '../../wording/advice-words';
import { axisNames } from '../../wording/wording';
import type { Rule } from '../rule/rule';

export const undecidable: Rule = {
  name: 'chassis/undecidable',
  severity: 'information',
  since: '0.2',
  failsCheck: 'always',
  page: {
    summary: 'A point cannot be decided even where every control point of the file is read.',
    why: `An alignment is the less certain the farther a point stands from the control points. Where it alone leaves more than a third of the point's
limit, a job on this body can measure as much as it likes: some of its points stay undecided. It is told of the worst point, once a file, for
the instrument that \`advise-uncertainty\` of the settings states (0.5 mm where nothing is stated). \`framewright advise FILE\` lists all parts.
Fewer than three control points, and points of no part, are not asked.`,
    example: `points:
  floor-front: { both: [1200, 420, 95], part: floor, base: true }
  floor-rear: { both: [-350, 455, 90], part: floor, base: true }
  rail-tip: { both: [3012, 448, 210], part: front-rail }      # two metres ahead of all control points`,
    exampleIn: {
      place: 'chassis',
      before: `vehicle: Marten
parts:
  floor: {}
  front-rail: { sided: true }`,
    },
    mend: 'Mark points that stand farther out on sound metal as control points (`base: true`), or add some to the file. The message names points of the file that would do.',
    source: 'Fitzpatrick, West & Maurer 1998, Predicting error in rigid-body point-based registration.',
  },
  ofChassis: ({ chassis, settings }) => {
    const u = settings.adviseUncertaintyMm;
    const worst = worstPart(chassis, u);
    return worst === null
      ? []
      : [{ place: worst.left.point.origin.place, message: messageOf(chassis, worst, u) }];
  },
};

interface Worst {
  readonly part: PartName;
  readonly left: Left;
}

/** The part whose worst point is placed worst of all, where that point stands in this file and the alignment is the reason. */
function worstPart(chassis: Chassis, uncertaintyMm: number): Worst | null {
  // a point that cannot be read may be a control point
  if (chassis.unread.points.size > 0) return null;
  let worst: Worst | null = null;
  for (const each of judgedParts(chassis)) {
    // a control point is judged by the others, and what it lacks is said of the base
    const part = { ...each, points: each.points.filter(({ base }) => !base) };
    if (part.points.length === 0) continue;
    const { worst: left, isDecidable, coarse } = partDoubt(chassis, part, uncertaintyMm);
    if (isDecidable || coarse !== null || left === null || left.point.origin.uri !== chassis.uri) continue;
    if (worst === null || shareOf(left) > shareOf(worst.left)) worst = { part, left };
  }
  return worst;
}

const shareOf = ({ uncertaintyMm, halfMm }: Left): number => uncertaintyMm / halfMm;

function messageOf(chassis: Chassis, { part, left }: Worst, uncertaintyMm: number): string {
  const { unit } = chassis;
  const limit = lengthFigure(left.halfMm, unit);
  const [is, most] = leftAndMost(left, unit);
  const text = `with all control points read and ${instrumentText(uncertaintyMm, unit)}, the alignment places ${left.point.id} to ${is} in ${axisNames[left.axis]}; to decide it at a limit of ±${limit} it may be ${most} at most`;
  const { steps, reached, coarse } = marksFor(chassis, part, uncertaintyMm);
  return reached && coarse === null && steps.length > 0
    ? `${text}. Mark more control points: ${readingsPhrase(steps)}, would do`
    : `${text}. Mark or add control points farther out, or use a better instrument`;
}
