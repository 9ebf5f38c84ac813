import { type Mat3, product } from './vector';

/** Radians. Yaw about z (x towards y), pitch about the new y (z towards x), twist about the newest x (y towards z). */
interface EulerAngles {
  yaw: number;
  pitch: number;
  twist: number;
}

/** Right-handed rotation about an axis. */
const aboutX = (angle: number): Mat3 => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [1, 0, 0],
    [0, c, -s],
    [0, s, c],
  ];
};
const aboutY = (angle: number): Mat3 => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [c, 0, s],
    [0, 1, 0],
    [-s, 0, c],
  ];
};
const aboutZ = (angle: number): Mat3 => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [c, -s, 0],
    [s, c, 0],
    [0, 0, 1],
  ];
};

/** Rz(yaw) Ry(pitch) Rx(twist): the z-y-x order of ISO 8855, right-handed. */
export function rotationFromAngles({ yaw, pitch, twist }: EulerAngles): Mat3 {
  return product(product(aboutZ(yaw), aboutY(pitch)), aboutX(twist));
}

/** Under this cosine of the pitch, yaw and twist turn about the same line. */
const gimbalLock = 1e-9;

/**
 * The angles of a proper rotation: yaw and twist in (−π, π], pitch in [−π/2, π/2]. Where pitch is ±π/2, only yaw and
 * twist together are known: all of it is given as yaw.
 */
export function anglesOf(rotation: Mat3): EulerAngles {
  const cosine = Math.hypot(rotation[0][0], rotation[1][0]);
  const pitch = Math.atan2(-rotation[2][0], cosine);
  if (cosine < gimbalLock) return { yaw: Math.atan2(-rotation[0][1], rotation[1][1]), pitch, twist: 0 };
  return {
    yaw: Math.atan2(rotation[1][0], rotation[0][0]),
    pitch,
    twist: Math.atan2(rotation[2][1], rotation[2][2]),
  };
}
