import { distance, dot, type Vec3 } from '../../geometry/vector';
import type { AdviceItem, ScopePlace } from './items';

/** What a search for advice looks at where a body has more to read than anyone would look through. */

/** Of a body with more to read than this, so many that stand well apart are searched. */
const mostItems = 40;
/** Of a scope with more points than this, the outermost are searched: the doubt of a frame grows outwards. */
const mostPlaces = 60;

const distanceOf = (a: AdviceItem, b: AdviceItem): number => distance(a.points[0].place, b.points[0].place);

/** The farthest from those taken already, again and again. */
export function wellApart(items: readonly AdviceItem[]): readonly AdviceItem[] {
  if (items.length <= mostItems) return items;
  const taken = new Set([items[0]]);
  const away = items.map((item) => distanceOf(item, items[0]));
  while (taken.size < mostItems) {
    const next = away.indexOf(Math.max(...away));
    taken.add(items[next]);
    for (const [i, item] of items.entries()) away[i] = Math.min(away[i], distanceOf(item, items[next]));
    away[next] = -1;
  }
  return items.filter((item) => taken.has(item));
}

const signs = [-1, 0, 1] as const;
const ways: readonly Vec3[] = signs.flatMap((x) => signs.flatMap((y) => signs.map((z): Vec3 => [x, y, z])));

/** For each width of tolerance the points that stand out most in 26 directions. */
export function outermost(scope: readonly ScopePlace[]): readonly ScopePlace[] {
  if (scope.length <= mostPlaces) return scope;
  const found = new Set<ScopePlace>();
  const byHalf = new Map<string, ScopePlace[]>();
  for (const each of scope) {
    const key = each.half.join(' ');
    const known = byHalf.get(key);
    if (known === undefined) byHalf.set(key, [each]);
    else known.push(each);
  }
  for (const group of byHalf.values())
    for (const way of ways)
      found.add(group.reduce((a, b) => (dot(b.place, way) > dot(a.place, way) ? b : a)));
  return [...found];
}
