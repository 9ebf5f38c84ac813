import { describe, expect, it } from 'vitest';
import { teal } from '../../testing/teal';
import { analysed } from '../testing/analysed';
import { afterFix, chassisFiles, found } from '../testing/kit';

const rule = 'chassis/span-dropped';
const level =
  '  - { from: floor-front.L, to: rail-tip.L, distance: 1400.1, level: true, tolerance: [-2, 4] }\n';
const parents = { 'teal.chassis.yaml': teal + level };
const child = (lines: string): string =>
  `framewright: chassis/1\nvehicle: Teal van\nextends: teal.chassis.yaml\n${lines}`;
const moved = 'points:\n  rail-tip: { both: [2608, 400, 200], part: front-rail }\n';

async function bodyOf(text: string, files: Record<string, string> = parents) {
  const analysis = await analysed({ ...files, 'w.chassis.yaml': text }, 'w.chassis.yaml');
  if (analysis.kind !== 'chassis') throw new Error('not a chassis file');
  const spans = analysis.chassis.spans.map(({ from, to, distanceMm }) => `${from} ${to} ${distanceMm}`);
  return { spans, told: analysis.findings.filter((each) => each.rule === rule), findings: analysis.findings };
}

describe(rule, () => {
  it('marks the point that has a place of its own, and names the distances that go', () =>
    found(
      rule,
      chassisFiles(
        child(
          moved.replace(
            'front-rail }',
            `front-rail }
# ^^^^^^^^ information: chassis/span-dropped rail-tip has a position of its own here, so the distances listed in teal.chassis.yaml do not hold: rail-tip.R to strut-top.R (1300.0 mm), rail-tip.L to strut-top.L (1301.0 mm), floor-front.L to rail-tip.L (1400.1 mm); they are judged by the positions`,
          ),
        ),
        parents,
      ),
    ));

  it('a sound body of the variant is not held against the distance of its parent', async () => {
    const job = `framewright: readings/1
chassis: w.chassis.yaml
instrument: { name: tram, spans: 0.5 }
timeline:
  - measure: as received
    spans:
      - [rail-tip.R, strut-top.R, 1302.5]
`;
    const files = { ...parents, 'w.chassis.yaml': child(moved), 'w.readings.yaml': job };
    const analysis = await analysed(files, 'w.readings.yaml');
    if (analysis.kind !== 'readings') throw new Error('not a job');
    const [span] = analysis.inspection!.stages[0].spans;
    expect(Math.abs(span.deviationMm)).toBeLessThan(0.1);
    expect(span.verdict).toBe('within');
  });

  it.each([
    [
      'a point keeps its place and changes something else',
      'points:\n  rail-tip: { both: [2600, 400, 200], base: true }\n',
    ],
    [
      'the place is written in another way',
      'points:\n  rail-tip: { left: [2600, 400, 200], right: [2600, 400, 200] }\n',
    ],
    ['no point is given', ''],
    ['a point that no distance leads to moves', 'points:\n  latch: { centre: [2700, 16, 780] }\n'],
    ['the point is removed', 'points:\n  rail-tip: ~\n'],
  ])('is silent where %s', async (_, lines) => expect((await bodyOf(child(lines))).told).toEqual([]));

  it('is silent where the distances are listed anew', async () => {
    const anew = `${moved}spans:
  - { from: strut-top, to: rail-tip, distance: 1302.5, pairs: straight }
  - { from: rail-tip.L, to: floor-front.L, distance: 1408.1, level: true }
`;
    const { told, spans } = await bodyOf(child(anew));
    expect(told).toEqual([]);
    expect(spans).toEqual([
      'strut-top.L rail-tip.L 1302.5',
      'strut-top.R rail-tip.R 1302.5',
      'rail-tip.L floor-front.L 1408.1',
    ]);
  });

  it('leaves a level distance in force where a point moved up or down only', async () => {
    const { spans, told } = await bodyOf(child('points:\n  rail-tip: { both: [2600, 400, 208] }\n'));
    expect(spans).toEqual(['floor-front.L rail-tip.L 1400.1']);
    expect(told).toHaveLength(1);
    expect(told[0].message).not.toContain('floor-front');
  });

  it('leaves the other side alone where one side moved', async () => {
    const { spans } = await bodyOf(
      child('points:\n  rail-tip: { left: [2608, 400, 200], right: [2600, 400, 200] }\n'),
    );
    expect(spans).toEqual(['rail-tip.R strut-top.R 1300']);
  });

  it('offers to write them anew, and then nothing is left to say', async () => {
    const text = await afterFix(rule, chassisFiles(child(moved), parents), 0);
    expect(text).toBe(
      `${child(moved)}spans:
  - { from: rail-tip.R, to: strut-top.R, distance: 1302.5 }
  - { from: rail-tip.L, to: strut-top.L, distance: 1302.5 }
  - { from: floor-front.L, to: rail-tip.L, distance: 1408.1, tolerance: [-2, 4], level: true }
`,
    );
    expect((await bodyOf(text)).findings.filter(({ rule }) => rule.startsWith('chassis/span'))).toEqual([]);
  });

  it('offers to keep the old ones on purpose', async () => {
    const text = await afterFix(rule, chassisFiles(child(moved), parents), 1);
    const { told, spans } = await bodyOf(text);
    expect(told).toEqual([]);
    expect(spans).toEqual([
      'rail-tip.R strut-top.R 1300',
      'rail-tip.L strut-top.L 1301',
      'floor-front.L rail-tip.L 1400.1',
    ]);
  });

  it.each([
    ['a list', 'spans:\n- { from: latch, to: floor-rear.L, distance: 3156 } # kept\n'],
    ['a list in brackets', 'spans: [{ from: latch, to: floor-rear.L, distance: 3156 }]\n'],
    ['an empty list', 'spans: []\n'],
    ['a key alone', 'spans:\n'],
  ])('writes into %s', async (_, spans) => {
    for (const nth of [0, 1]) {
      const text = await afterFix(rule, chassisFiles(child(`${spans}${moved}`), parents), nth);
      const now = await bodyOf(text);
      expect(now.findings.filter(({ rule }) => /^text\/|dropped/.test(rule))).toEqual([]);
      expect(now.spans).toHaveLength(spans.includes('latch') ? 4 : 3);
    }
  });

  it('is told in the file that moves the point, not in those that start from it', async () => {
    const files = { ...parents, 'van.chassis.yaml': child(moved) };
    const grandchild = 'framewright: chassis/1\nextends: van.chassis.yaml\n';
    const { told, spans } = await bodyOf(grandchild, files);
    expect(told).toEqual([]);
    expect(spans).toEqual([]);
    // its other end moves as well: the distance had gone before
    const again = await bodyOf(`${grandchild}points:\n  strut-top: { both: [2200, 700, 1410] }\n`, files);
    expect(again.told).toEqual([]);
  });

  it('a point taken away and given again does not bring the old distances back', async () => {
    const files = { ...parents, 'van.chassis.yaml': child('points:\n  rail-tip: ~\n') };
    const text =
      'framewright: chassis/1\nextends: van.chassis.yaml\npoints:\n  rail-tip: { both: [2700, 400, 200] }\n';
    expect((await bodyOf(text, files)).spans).toEqual([]);
  });

  it('reckons in the unit of its own file', async () => {
    const inches = child('units: inch\npoints:\n  rail-tip: { both: [102.7, 15.748, 7.874] }\n');
    expect(await afterFix(rule, chassisFiles(inches, parents), 1)).toContain('distance: 51.1811 }');
    expect(
      (await bodyOf(await afterFix(rule, chassisFiles(inches, parents), 0))).findings.filter(({ rule }) =>
        /span/.test(rule),
      ),
    ).toEqual([]);
  });
});
