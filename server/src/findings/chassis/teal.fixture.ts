import { expect } from 'vitest';
import { analysed, foundIn } from '../fixture';

/** A body in which everything agrees: rail-tip to strut-top is 400 × 300 in plan (500) and 400 × 300 × 1200 in space (1300). */
export const teal = `framewright: chassis/1
vehicle: Teal estate
source: { kind: published }
parts:
  floor: {}
  front-rail: { sided: true }
points:
  floor-rear: { both: [-350, 455, 90], part: floor, base: true }
  floor-front: { both: [1200, 420, 95], part: floor, base: true }
  rail-root-lower: { both: [1760, 400, 188], part: front-rail }
  rail-root-upper: { both: [1760, 400, 322], part: front-rail }
  rail-tip: { both: [2600, 400, 200], part: front-rail }
  strut-top: { both: [2200, 700, 1400] }
  latch: { centre: [2700, 12, 780] }
spans:
  - { from: rail-tip, to: strut-top, distance: 1300, pairs: straight }
  - { from: rail-tip.L, to: strut-top.L, distance: 1301 }
`;

const name = 'w.chassis.yaml';

/** The marks of a fixture are just what a rule finds in it. */
export async function expectMarked(
  rule: string,
  text: string,
  more: Record<string, string> = {},
): Promise<void> {
  const { found, expected } = await foundIn({ ...more, [name]: text }, name, rule);
  expect(expected.length).toBeGreaterThan(0);
  expect(found).toEqual(expected);
}

/** What a rule finds in a text, its messages and fixes. */
export async function foundBy(
  rule: string,
  text: string,
  more: Record<string, string> = {},
): Promise<{ message: string; fixes: string[] }[]> {
  const { findings } = await analysed({ ...more, [name]: text }, name);
  return findings
    .filter((finding) => finding.rule === rule)
    .map(({ message, replacements }) => ({ message, fixes: replacements.map((each) => each.text) }));
}

/** The text with the nth fix of the first finding of a rule taken. */
export async function mended(rule: string, text: string, nth = 0): Promise<string> {
  const { findings } = await analysed({ [name]: text }, name);
  const { place, text: instead } = findings.find((finding) => finding.rule === rule)!.replacements[nth];
  const start = place.block.start + place.start;
  const end = (place.endBlock ?? place.block).start + place.end;
  return text.slice(0, start) + instead + text.slice(end);
}
