import { distance, rotated, rotationMatrix, sum } from './vector.mjs';

const DIRECTIONS = {
  forward: [1, 0, 0],
  rearward: [-1, 0, 0],
  left: [0, 1, 0],
  right: [0, -1, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
};

/**
 * An instrument that stands anywhere and is a little wrong.
 * @param {object} options `frame`: yaw, pitch, roll in degrees and `at`, where vehicle zero lies in its frame;
 *   `axes` its three directions; `uncertainty`, `repeatability`, `spanUncertainty` standard, mm
 * @param {(sigma: number) => number} normal
 */
export function measuringInstrument(options, normal) {
  const {
    frame,
    axes = ['forward', 'left', 'up'],
    uncertainty,
    repeatability = 0,
    spanUncertainty = 1,
  } = options;
  const matrix = rotationMatrix(frame);
  const steady = Math.sqrt(uncertainty ** 2 - repeatability ** 2);
  const noise = (sigma) => [normal(sigma), normal(sigma), normal(sigma)];

  const numbers = (point, position) => {
    const own = sum(rotated(matrix, position), frame.at);
    return axes.map((name) => {
      if (name === 'outboard') return point.side === 'R' ? -own[1] : own[1];
      const direction = DIRECTIONS[name];
      return own[0] * direction[0] + own[1] * direction[1] + own[2] * direction[2];
    });
  };

  return {
    /** `count` readings of one point: what averaging does not take away stays the same in all of them. */
    readings(body, point, count = 1) {
      const position = sum(body(point), noise(steady));
      return Array.from({ length: count }, () => numbers(point, sum(position, noise(repeatability))));
    },
    /** A tram gauge between two points, read to half a millimetre. */
    span(body, from, to) {
      return Math.round((distance(body(from), body(to)) + normal(spanUncertainty)) * 2) / 2;
    },
  };
}
