import { distance } from '../../geometry/vector';
import type { Point } from '../../model/chassis';
import { lengthText } from '../../model/units';
import type { Draft, Rule } from '../rule/rule';

const nearestMm = 1;

export const coincidentPoints: Rule = {
  name: 'chassis/coincident-points',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'always',
  page: {
    summary: 'Two points stand under 1 mm apart.',
    why: 'Two names for one place are nearly always a line that was copied and not changed. Counted as two control points, one place would weigh double and could not check the other.',
    example:
      '  rail-tip-lower: { both: [3012, 448, 210] }\n  rail-tip-upper: { both: [3012, 448, 210] }      # copied, height not changed',
    exampleIn: { place: 'point' },
    mend: 'Correct the second, or remove it. A point on the centre plane is `centre`, not `both`.',
    source: 'Common practice in the trade.',
  },
  ofChassis: ({ chassis }) => {
    const sorted = [...chassis.points.values()].sort((a, b) => a.reference[0] - b.reference[0]);
    const drafts = new Map<string, Draft>();
    sorted.forEach((a, i) => {
      for (let k = i + 1; k < sorted.length && sorted[k].reference[0] - a.reference[0] < nearestMm; k++) {
        const b = sorted[k];
        const apart = distance(a.reference, b.reference);
        if (apart >= nearestMm) continue;
        const [first, second] = isLater(a, b) ? [b, a] : [a, b];
        const { uri } = chassis;
        if (second.origin.uri !== uri) continue;
        // both sides of a pair coincide alike: one cause, one finding
        const key = [first.name, second.name].sort().join(' ');
        if (drafts.has(key)) continue;
        const isPair = first.name === second.name;
        const text = lengthText(apart, chassis.unit);
        drafts.set(key, {
          place: second.origin.place,
          message: isPair
            ? `left and right of ${second.name} are ${text} apart: a point on the centre plane is \`centre\``
            : `${second.name} stands where ${first.name} is (${text} apart)`,
          related: isPair
            ? []
            : [{ uri: first.origin.uri, place: first.origin.place, message: `${first.name} is here` }],
        });
      }
    });
    return [...drafts.values()];

    function isLater(a: Point, b: Point): boolean {
      const own = (point: Point): number => (point.origin.uri === chassis.uri ? 1 : 0);
      return own(a) !== own(b) ? own(a) > own(b) : order(a) > order(b);
    }
  },
};

const order = ({ origin }: Point): number => origin.place.block.start + origin.place.start;
