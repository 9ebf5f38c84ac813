import { chassisPoints } from '../body.mjs';
import { oneDecimal } from '../layout.mjs';
import { distance, levelDistance } from '../vector.mjs';

/** The pairs of ids that a span stands for. */
function endsOf({ from, to, pairs }) {
  if (!pairs) return [[from, to]];
  const other = pairs === 'crossed' ? { L: 'R', R: 'L' } : { L: 'L', R: 'R' };
  return ['L', 'R'].map((side) => [`${from}.${side}`, `${to}.${other[side]}`]);
}

/** Lines of a `spans:` block of a chassis file, each distance worked out from the positions (a pair has their mean). */
export function chassisSpanLines(spans, entries) {
  const points = chassisPoints(entries);
  return spans
    .map((span) => {
      if (typeof span === 'string') return `  ${span}`;
      const measure = span.level ? levelDistance : distance;
      const ends = endsOf(span).map((ids) => ids.map((id) => points.get(id).reference));
      const mean = ends.reduce((total, [a, b]) => total + measure(a, b), 0) / ends.length;
      const fields = [`from: ${span.from}`, `to: ${span.to}`, `distance: ${oneDecimal(mean)}`];
      if (span.tolerance) fields.push(`tolerance: ${span.tolerance}`);
      if (span.pairs) fields.push(`pairs: ${span.pairs}`);
      if (span.level) fields.push('level: true');
      return `  - { ${fields.join(', ')} }`;
    })
    .join('\n');
}
