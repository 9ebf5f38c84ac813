import { describe, expect, it } from 'vitest';
import { teal } from '../../testing/teal';
import { analysed } from '../testing/analysed';
import { chassisFiles, found, foundBy } from '../testing/kit';

const rule = 'chassis/span-disagrees';

describe(rule, () => {
  it('is silent where distances and positions agree', async () =>
    expect(await foundBy(rule, teal)).toEqual([]));

  it('marks the span, with both figures, the difference and the tolerance', () =>
    found(
      rule,
      chassisFiles(`${teal}  - { from: rail-tip.L, to: strut-top.R, distance: 1700 }
#   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error: chassis/span-disagrees rail-tip.L to strut-top.R is listed as 1700.0 mm, but their positions are 1676.3 mm apart: 23.7 mm less, tolerance ±3.0
`),
    ));

  it('reads a level span in the horizontal projection', async () => {
    const level = (distance: number) =>
      `${teal}  - { from: rail-tip.R, to: strut-top.R, distance: ${distance}, level: true }\n`;
    expect(await foundBy(rule, level(500))).toEqual([]);
    expect(await foundBy(rule, level(1300))).toEqual([
      { message: expect.stringContaining('500.0 mm apart seen from above: 800.0 mm less'), fixes: [] },
    ]);
  });

  it('goes by the tolerance of the span, to its edge, each way', async () => {
    const span = (distance: number) =>
      `${teal}  - { from: rail-tip.R, to: strut-top.R, distance: ${distance}, tolerance: [-1, 4] }\n`;
    for (const distance of [1301, 1296]) expect(await foundBy(rule, span(distance))).toEqual([]);
    for (const distance of [1301.1, 1295.9]) expect(await foundBy(rule, span(distance))).toHaveLength(1);
  });

  it('is said once of a pair that disagrees on both sides', async () => {
    expect(
      await foundBy(
        rule,
        `${teal}  - { from: rail-root-lower, to: latch, distance: 1200, pairs: straight }\n`,
      ),
    ).toHaveLength(1);
  });

  it('leads to both positions', async () => {
    const { findings, text } = await analysed(
      { 'w.chassis.yaml': teal.replace('1301', '1311') },
      'w.chassis.yaml',
    );
    const [{ related }] = findings.filter((finding) => finding.rule === rule);
    expect(related.map(({ range }) => text.slice(range.start, range.end))).toEqual([
      '[2600, 400, 200]',
      '[2200, 700, 1400]',
    ]);
  });

  it("leaves a parent's span to the parent, and shows figures in the file's unit", async () => {
    const parent = teal.replace('1301', '1311');
    const child = `framewright: chassis/1
extends: ./teal.chassis.yaml
units: inch
spans:
  - { from: rail-tip.R, to: strut-top.R, distance: 52 }
`;
    const found = await foundBy(rule, child, { 'teal.chassis.yaml': parent });
    expect(found).toEqual([
      {
        message: expect.stringContaining('listed as 52.000 in, but their positions are 51.181 in apart'),
        fixes: [],
      },
    ]);
  });
});
