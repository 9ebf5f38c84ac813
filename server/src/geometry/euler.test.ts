import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { number } from './arbitraries';
import { anglesOf, rotationFromAngles } from './euler';
import { transformed, type Vec3 } from './vector';

const close = (expected: Vec3) => expected.map((value) => expect.closeTo(value, 12));
const [x, y, z]: Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const quarter = Math.PI / 2;

describe('z-y-x angles', () => {
  it('turn right-handed: yaw x to y, pitch z to x, twist y to z', () => {
    expect(transformed(rotationFromAngles({ yaw: quarter, pitch: 0, twist: 0 }), x)).toEqual(close(y));
    expect(transformed(rotationFromAngles({ yaw: 0, pitch: quarter, twist: 0 }), z)).toEqual(close(x));
    expect(transformed(rotationFromAngles({ yaw: 0, pitch: 0, twist: quarter }), y)).toEqual(close(z));
  });
  it('apply twist first, then pitch, then yaw', () => {
    // twist lays y on z, pitch takes that to x, yaw to y
    const all = rotationFromAngles({ yaw: quarter, pitch: quarter, twist: quarter });
    expect(transformed(all, y)).toEqual(close(y));
    // twist leaves x, pitch takes it to −z, yaw leaves that
    expect(transformed(all, x)).toEqual(close([0, 0, -1]));
    expect(transformed(all, z)).toEqual(close([1, 0, 0]));
  });
  it('come back from the rotation they make', () => {
    fc.assert(
      fc.property(number(-3.1, 3.1), number(-1.56, 1.56), number(-3.1, 3.1), (yaw, pitch, twist) => {
        const found = anglesOf(rotationFromAngles({ yaw, pitch, twist }));
        expect(found.yaw).toBeCloseTo(yaw, 9);
        expect(found.pitch).toBeCloseTo(pitch, 9);
        expect(found.twist).toBeCloseTo(twist, 9);
      }),
    );
  });
  it('tell small angles to the last digit', () => {
    const { yaw, pitch, twist } = anglesOf(rotationFromAngles({ yaw: 1e-12, pitch: -2e-12, twist: 3e-12 }));
    expect([yaw * 1e12, pitch * 1e12, twist * 1e12]).toEqual(
      [1, -2, 3].map((value) => expect.closeTo(value, 9)),
    );
  });
  it('give all of the turn as yaw where pitch is a right angle', () => {
    for (const pitch of [quarter, -quarter]) {
      const rotation = rotationFromAngles({ yaw: 0.7, pitch, twist: 0.2 });
      const found = anglesOf(rotation);
      expect(found.twist).toBe(0);
      expect(rotationFromAngles(found).flat()).toEqual(
        rotation.flat().map((value) => expect.closeTo(value, 9)),
      );
    }
  });
});
