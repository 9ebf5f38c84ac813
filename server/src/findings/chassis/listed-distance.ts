import type { Vec3 } from '../../geometry/vector';
import type { Chassis, Span } from '../../model/chassis';

/** A distance listed in this very file whose two ends are known, with what its two positions make of it. */
export interface ListedDistance {
  readonly span: Span;
  /** Between the two positions, mm; in the horizontal projection where the span is level. */
  readonly fromPositionsMm: number;
}

/** The listed distances of this very file that differ from their two positions by more than their tolerance. */
export function disagreeingDistances({ uri, spans, points }: Chassis): ListedDistance[] {
  return spans.flatMap((span) => {
    const from = points.get(span.from);
    const to = points.get(span.to);
    if (span.origin.uri !== uri || from === undefined || to === undefined) return [];
    const fromPositionsMm = spanLengthMm(span, from.reference, to.reference);
    // what a sound body measures, by its positions, against the limits of the listed distance; a thousandth for rounding
    const off = fromPositionsMm - span.distanceMm;
    return off < span.limits[0] - 1e-3 || off > span.limits[1] + 1e-3 ? [{ span, fromPositionsMm }] : [];
  });
}

/** Positions in vehicle axes, mm. */
export const spanLengthMm = ({ level }: Pick<Span, 'level'>, from: Vec3, to: Vec3): number =>
  Math.hypot(to[0] - from[0], to[1] - from[1], level ? 0 : to[2] - from[2]);
