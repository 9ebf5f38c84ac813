import { grouped } from '../../inspection/alignment/grouped';
import type { JudgedPoint } from '../../inspection/alignment/points';
import type { Inspection } from '../../inspection/job/inspect';
import { levelsOf } from '../../inspection/shape/levels';
import { derived } from '../../memory/derived';
import type { Chassis, Part, Point } from '../../model/chassis';
import { resolvedJob } from '../../model/resolve/resolved-job';
import { placeText } from '../../wording/places';
import { shortList } from '../../wording/wording';
import type { Draft, Rule } from '../rule/rule';

export const oneLevel: Rule = {
  name: 'reading/one-level',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'reading',
  wholeJob: true,
  page: {
    summary: 'A part was read at one level only, though the chassis file has two.',
    why: 'One level cannot show a twist: lower points on and upper points off looks like a straight rail from below. What counts is the newest stage that reads the part off load.',
    example:
      '      rail-root-lower.L: [1760.3, 441.1, 188.2]\n      rail-tip-lower.L:  [3012.2, 448.4, 210.1]      # and neither upper point',
    exampleIn: { place: 'row' },
    mend: 'Read the other level at one station at least, best at the end farthest from the base.',
    source: 'Common practice in the trade.',
  },
  ofJob: ({ inspection }) =>
    [...inspection.chassis.parts.values()].flatMap((part) => {
      const draft = draftFor(inspection, part);
      return draft === null ? [] : [draft];
    }),
};

function draftFor(inspection: Inspection, part: Part): Draft | null {
  const { chassis, job } = inspection;
  const { points, levels: possible } = possibleLevels(chassis).get(part.id)!;
  if (possible.length === 0) return null;
  const stage = inspection.stages.findLast((each) => !each.underTension && byPart(each.points).has(part.id));
  if (stage === undefined) return null;
  const read = byPart(stage.points).get(part.id)!;
  // all were read, and so were their levels
  if (read.length === points.length) return null;
  // a part that only carries control points of the base is not what is being judged
  const { scope } = resolvedJob(job, chassis);
  const judgedHere = scope === null ? read.some(({ inBase }) => !inBase) : scope.has(part.id);
  if (!judgedHere) return null;
  if (levelsOf(read, part.along).length > 0) return null;
  const readIds = new Set(read.map(({ id }) => id));
  const missing = missingPoints(possible, readIds);
  const unreachable = stage.unreachable
    .filter(({ id }) => missing.some((point) => point.id === id))
    .map(({ id }) => id);
  const where = missing.map(
    (point) => `${point.id} (at ${placeText(point.reference[part.along], part, job.unit)})`,
  );
  const note = unreachable.length > 0 ? ` Marked unreachable here: ${shortList(unreachable)}.` : '';
  return {
    place: read[0].reading.key,
    message: `${part.id} is read at one level only in “${stage.name}”, so a twist of it would not show. Read ${shortList(where, 3)} too.${note}`,
  };
}

const byPart = derived((points: readonly JudgedPoint[]) => grouped(points, ({ point }) => point.part));

/** By part id: its points in the chassis file, and the pairs of levels among them. */
const possibleLevels = derived((chassis: Chassis) => {
  const listed = grouped(
    [...chassis.points.values()].map((point) => ({ point })),
    ({ point }) => point.part,
  );
  return new Map(
    [...chassis.parts.values()].map(({ id, along }) => {
      const points = listed.get(id) ?? [];
      return [id, { points, levels: levelsOf(points, along) }];
    }),
  );
});

/** What would make a pair with a point that was read; else any pair. Farthest along first, as they stand in the chassis file. */
function missingPoints(
  possible: readonly { lower: { point: Point }; upper: { point: Point } }[],
  read: ReadonlySet<string>,
): Point[] {
  const pairs = possible.map(({ lower, upper }) => [lower.point, upper.point]);
  const half = pairs.filter((pair) => pair.some((point) => read.has(point.id)));
  const wanted = (half.length > 0 ? half : pairs.slice(-1)).flat().filter((point) => !read.has(point.id));
  return [...new Set(wanted)].reverse();
}
