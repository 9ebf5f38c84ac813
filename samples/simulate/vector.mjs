// Three numbers [forward, left, up] in mm.

export const sum = (...vectors) => [0, 1, 2].map((axis) => vectors.reduce((total, v) => total + v[axis], 0));

export const scaled = (vector, factor) => vector.map((value) => value * factor);

export const distance = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

export const levelDistance = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Turned about forward by `degrees`, right-handed (+: the top goes right), about the line at (left, up) = `pivot`. */
export function twisted(position, degrees, pivot) {
  const angle = (degrees * Math.PI) / 180;
  const y = position[1] - pivot[0];
  const z = position[2] - pivot[1];
  return [
    position[0],
    pivot[0] + y * Math.cos(angle) - z * Math.sin(angle),
    pivot[1] + y * Math.sin(angle) + z * Math.cos(angle),
  ];
}

/** Rotation matrix yaw, then pitch, then roll (z-y-x), from degrees. */
export function rotationMatrix({ yaw = 0, pitch = 0, roll = 0 }) {
  const [cz, cy, cx] = [yaw, pitch, roll].map((degrees) => Math.cos((degrees * Math.PI) / 180));
  const [sz, sy, sx] = [yaw, pitch, roll].map((degrees) => Math.sin((degrees * Math.PI) / 180));
  return [
    [cz * cy, cz * sy * sx - sz * cx, cz * sy * cx + sz * sx],
    [sz * cy, sz * sy * sx + cz * cx, sz * sy * cx - cz * sx],
    [-sy, cy * sx, cy * cx],
  ];
}

export const rotated = (matrix, vector) =>
  matrix.map((row) => row[0] * vector[0] + row[1] * vector[1] + row[2] * vector[2]);
