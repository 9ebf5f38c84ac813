/** What every routine here asks of its input: checked at the door, so that no NaN travels on as a figure. */

/** @throws RangeError unless the two lists are equally long */
export function requireSameLength(what: string, expected: number, actual: number): void {
  if (expected !== actual) throw new RangeError(`${what}: ${expected} expected, ${actual} given.`);
}

/** @throws RangeError unless every value is a finite number */
export function requireFinite(what: string, values: readonly number[]): void {
  for (let i = 0; i < values.length; i++)
    if (!Number.isFinite(values[i])) throw new RangeError(`${what}: ${values[i]} is not a finite number.`);
}

/**
 * The largest absolute value among all coordinates.
 * @throws RangeError unless there is a point, all have the same number of coordinates, and all are finite
 */
export function requirePoints(what: string, points: readonly (readonly number[])[]): number {
  if (points.length === 0) throw new RangeError(`${what}: no point given.`);
  const dimension = points[0].length;
  let largest = 0;
  for (let i = 0; i < points.length; i++) {
    const point = points[i];
    if (point.length !== dimension)
      requireSameLength(`${what}, coordinates of a point`, dimension, point.length);
    for (let axis = 0; axis < dimension; axis++) {
      const size = Math.abs(point[axis]);
      if (!(size < Number.POSITIVE_INFINITY)) requireFinite(what, point);
      if (size > largest) largest = size;
    }
  }
  return largest;
}

/** @throws RangeError unless there is one finite weight of at least 0 for each point and some weight above 0 */
export function requireWeights(weights: readonly number[], count: number): void {
  requireSameLength('Weights', count, weights.length);
  requireFinite('Weights', weights);
  let total = 0;
  for (let i = 0; i < weights.length; i++) {
    if (weights[i] < 0) throw new RangeError('Weights: none may be below 0.');
    total += weights[i];
  }
  if (!(total > 0 && Number.isFinite(total)))
    throw new RangeError('Weights: their sum must be above 0 and finite.');
}
