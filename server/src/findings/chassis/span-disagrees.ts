import { lengthText } from '../../model/units';
import { limitsText } from '../../wording/wording';
import type { Draft, Rule } from '../rule/rule';
import { disagreeingDistances } from './listed-distance';

export const spanDisagrees: Rule = {
  name: 'chassis/span-disagrees',
  severity: 'error',
  since: '0.1',
  failsCheck: 'always',
  page: {
    summary: 'A listed distance differs from the two positions of its ends by more than its tolerance.',
    why: 'One of seven numbers is wrong: a coordinate of either end or the distance itself. Until it is found, a point may be pulled to a wrong place, or a sound distance may be called wrong.',
    example:
      '  - { from: rail-tip-lower.L, to: strut-top.R, distance: 1480.2 }      # the positions give 1408.2',
    exampleIn: { place: 'span' },
    mend: 'Compare the distance and both positions with the sheet. For a distance read with the pointers at unequal height, in the horizontal projection, write `level: true`.',
    source:
      'Common practice in the trade: distances check positions. The distance between two points by Pythagoras.',
  },
  ofChassis: ({ chassis }) => {
    const { unit, points } = chassis;
    const drafts = new Map<string, Draft>();
    for (const { span, fromPositionsMm } of disagreeingDistances(chassis)) {
      const { place } = span.origin;
      // a pair of spans is one line: one finding
      const key = `${place.block.start + place.start}`;
      if (drafts.has(key)) continue;
      const off = fromPositionsMm - span.distanceMm;
      drafts.set(key, {
        place,
        message:
          `${span.from} to ${span.to} is listed as ${lengthText(span.distanceMm, unit)}, but their positions are ` +
          `${lengthText(fromPositionsMm, unit)} apart${span.level ? ' seen from above' : ''}: ` +
          `${lengthText(Math.abs(off), unit)} ${off > 0 ? 'more' : 'less'}, tolerance ${limitsText(span.limits, unit)}`,
        related: [span.from, span.to].map((id) => {
          const { uri, place: at } = points.get(id)!.coordinates;
          return { uri, place: at, message: `position of ${id}` };
        }),
      });
    }
    return [...drafts.values()];
  },
};
