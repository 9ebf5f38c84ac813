/** How far some coordinates reach, mm; 0 where there are none. */
export function extentMm(coordinates: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const each of coordinates) {
    if (each < least) least = each;
    if (each > most) most = each;
  }
  return coordinates.length === 0 ? 0 : most - least;
}
