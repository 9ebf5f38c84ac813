import { spanSchema } from '@framewright/schemas';
import { entryOf, isNothing, type MapNode } from '../../text/tree';
import type { SpanSheet } from '../chassis-sheet';
import type { Problem } from '../problem';
import { typedNumber } from '../typed-numbers';
import { checked } from './schema-check';
import { oneLimits } from './tolerances';

/** The listed distances of a chassis file. `mm`: millimetres in one unit of the file. */
export function spanSheets(
  root: MapNode | null,
  mm: number,
  report: (problem: Problem) => void,
): SpanSheet[] {
  const list = entryOf(root, 'spans')?.value;
  if (isNothing(list)) return [];
  if (list.kind !== 'sequence') {
    report({ rule: 'text/wrong-type', place: list.place, message: '`spans`: a list belongs here' });
    return [];
  }
  return list.items.flatMap((item) => {
    const value = checked(spanSchema, item, item.place, (problem) =>
      report({ ...problem, message: problem.message.replace(/^this/, 'a span') }),
    );
    if (value === null) return [];
    return [
      {
        from: value.from,
        to: value.to,
        fromPlace: entryOf(item, 'from')?.value?.place ?? item.place,
        toPlace: entryOf(item, 'to')?.value?.place ?? item.place,
        distanceMm: value.distance * mm,
        typedDistance: typedNumber(entryOf(item, 'distance')?.value),
        limits: value.tolerance === undefined ? null : oneLimits(value.tolerance, mm),
        level: value.level ?? false,
        pairs: value.pairs ?? null,
        place: item.place,
      },
    ];
  });
}
