import { describe, expect, it } from 'vitest';
import { birgeFactor } from '../../server/src/geometry/motion-covariance';
import { rigidFit } from '../../server/src/geometry/rigid-motion';
import { motionCovarianceAt } from '../../server/src/geometry/small-motion';
import type { Mat3, Vec3 } from '../../server/src/geometry/vector';
import { measuringAdvice, worstShare } from '../../server/src/inspection/advice/measuring-advice';
import { type FramePoint, scatterElsewhere, weightFor } from '../../server/src/inspection/frame/frame-points';
import { observed } from '../../server/src/inspection/frame/observations';
import { stageFrame } from '../../server/src/inspection/frame/stage-frame';
import { calledFor } from '../../server/src/inspection/frame/stories';
import { gainOf } from '../../server/src/inspection/frame/story-gain';
import type { Told } from '../../server/src/inspection/frame/story-kinds';
import { toldOf } from '../../server/src/inspection/frame/story-list';
import { expectRelative } from './expect-close';
import advice from './frame-advice.json';
import cases from './frame-cases.json';

/** Witnesses, stories and advice against a second way to compute them: `scripts/frame/`, numpy with whole matrices. */

type Row = (typeof cases.bodies.long.points)[number];
const sideOf = (side: string) => (side === 'L' || side === 'R' ? side : null);
const nameOf = (id: string) => id.replace(/\.[LR]$/, '');
const bodies = cases.bodies as unknown as Record<string, { build: number; elsewhere: number; points: Row[] }>;

function pointOf(row: Row, off: Vec3, uncertainty: number, build: number): FramePoint {
  return {
    id: row.id,
    place: row.reference as unknown as Vec3,
    off,
    variance: uncertainty ** 2 + row.uncertainty ** 2 + build ** 2,
    half: row.tolerance as unknown as Vec3,
    name: nameOf(row.id),
    side: sideOf(row.side),
  };
}

type Stage = (typeof cases.stages)[number];

function asked({ body, uncertainty, base: ids, readings, witnesses, scope, results }: Stage) {
  const { build, elsewhere, points } = bodies[body];
  const rows = new Map(points.map((row) => [row.id, row]));
  const read = readings as unknown as Record<string, Vec3>;
  const control = ids.map((id) => rows.get(id)!);
  const weights = control.map((row) => weightFor(uncertainty ** 2 + row.uncertainty ** 2 + build ** 2));
  const references = control.map(({ reference }) => reference as unknown as Vec3);
  const fit = rigidFit(
    ids.map((id) => read[id]),
    references,
    weights,
  ) as unknown as { rotation: Mat3; translation: Vec3; chiSquare: number };
  const readPoint = (row: Row, scatter: number) => {
    const { off, ...point } = pointOf(row, [0, 0, 0], uncertainty, scatter);
    return { ...point, measured: read[row.id] };
  };
  const frame = stageFrame(
    control.map((row) => readPoint(row, build)),
    witnesses.map((id) => {
      const row = rows.get(id)!;
      return { point: readPoint(row, 0), partName: row.part === null ? null : nameOf(row.part) };
    }),
    scatterElsewhere(elsewhere),
    { ...fit, factor: birgeFactor(fit.chiSquare, control.length) },
  )!;
  const scopePoints = scope.map((id) => pointOf(rows.get(id)!, [0, 0, 0], uncertainty, 0));
  expectRelative(frame.factor, results.base.birge, 1e-6);
  return { ...frame, scope: scopePoints };
}

/** Weights are sought until none changes by this. */
const settledBy = 0.03;

/** The angle of the turn from one rotation to another, rad; small: from the sine, which keeps its digits. */
function turnBetween(a: readonly number[][], b: readonly number[][]): number {
  const at = (i: number, j: number) => [0, 1, 2].reduce((sum, k) => sum + a[i][k] * b[j][k], 0);
  return Math.hypot(at(2, 1) - at(1, 2), at(0, 2) - at(2, 0), at(1, 0) - at(0, 1)) / 2;
}

const inOrder = <T extends { name: string }>(groups: readonly T[]): T[] =>
  groups
    .map((group) => ({ ...group, name: group.name.replace('point ', '') }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));

for (const stage of cases.stages) {
  const { base, groups, weighing, joined, scope } = asked(stage);
  const { results } = stage;
  // where the base's frame stands turned against the joined one, a linear step from the one to the other bends by as much
  const bent = 3 * turnBetween(results.base.rotation, results.joined.rotation);

  describe(`${stage.name}: witnesses`, () => {
    it('have the weights of the second way', () => {
      expect(groups.map(({ name }) => name)).toEqual(inOrder(results.groups).map(({ name }) => name));
      for (const [found, expected] of [
        [weighing?.byBase ?? [], results.first],
        [weighing?.groups ?? [], results.groups],
      ] as const)
        inOrder(
          expected as { name: string; points: string[]; inner: number[]; outer: number; quadratic: number }[],
        ).forEach((group, g) => {
          const order = groups[g].points.map(({ id }) => group.points.indexOf(id));
          // a motion is linear here and a real turn there, and weights that change by less end the search
          for (const [i, each] of found[g].points.entries())
            expect(Math.abs(each - group.inner[order[i]])).toBeLessThan(settledBy + bent);
          expect(Math.abs(found[g].group - group.outer)).toBeLessThan(settledBy + bent);
          expectRelative(found[g].weighted.squares + 1, group.quadratic + 1, 0.03 + bent);
        });
      if (weighing !== null) expectRelative(weighing.scatter.own, results.scatter.own, 0.02 + bent);
    });

    it('give the joined fit of the second way', () => {
      if (joined === null) {
        expect(results.groups).toEqual([]);
        return;
      }
      const { covariance, centre } = results.joined;
      for (const { place } of scope) {
        const found = motionCovarianceAt(joined.motion, place);
        const [x, y, z] = [place[0] - centre[0], place[1] - centre[1], place[2] - centre[2]];
        const lever = [
          [1, 0, 0, 0, z, -y],
          [0, 1, 0, -z, 0, x],
          [0, 0, 1, y, -x, 0],
        ];
        for (let k = 0; k < 3; k++) {
          let expected = 0;
          for (let a = 0; a < 6; a++)
            for (let b = 0; b < 6; b++) expected += lever[k][a] * covariance[a][b] * lever[k][b];
          expectRelative(found[k][k], expected, 0.025);
        }
      }
    });
  });

  describe(`${stage.name}: stories`, () => {
    const full = groups.map(({ points }) => ({ points: points.map(() => 1), group: 1 }));
    const scatter = weighing?.stated ?? { own: 0, shared: 0 };
    const weightedWay = observed(base, groups, weighing?.groups ?? [], scatter)!;
    const fullWay = observed(base, groups, full, scatter)!;
    const told = toldOf(base, groups);
    const keyOf = ({ story, members }: Told) =>
      [
        story.kind,
        members.flatMap((member, i) => (member ? [i] : [])).join(' '),
        'to' in story ? `${story.to} ${story.withFloor}` : '',
      ].join('|');
    const mine = new Map(told.map((each) => [keyOf(each), each]));

    it('are those of the second way, with their gains', () => {
      const seen = results.stories.named.map((named) => {
        const floor = named.label.includes('floor');
        const to = named.label.startsWith('ahead') ? 'front' : 'rear';
        const grows = named.kind === 'lean' || named.kind === 'turn';
        const key = [named.kind, named.members.join(' '), grows ? `${to} ${floor}` : ''].join('|');
        const story = mine.get(key);
        expect(story, key).toBeDefined();
        for (const [way, expected] of [
          [weightedWay, named.weighted],
          [fullWay, 'full' in named ? named.full : undefined],
        ] as const) {
          if (!expected || expected.gain === undefined || expected.gain === null) continue;
          const found = gainOf(way, story!)!;
          expectRelative(found.gain + 1, expected.gain + 1, 0.02 + bent);
        }
        return key;
      });
      expect(seen.length).toBe(results.stories.count);
      const tellable = told.filter((each) => gainOf(fullWay, each) !== null).map(keyOf);
      expect(tellable.sort()).toEqual(seen.sort());
    });

    it('are called for where the second way calls for them', () => {
      const found = calledFor({ base, groups, weighing, scope: () => scope, toldBy: joined?.motion ?? null });
      expect(found.length > 0).toBe(results.stories.ambiguous);
      const sets = found.map(({ movedIds }) => [...movedIds].sort().join(' '));
      const best = results.stories.alternatives[0] as { moved: string[] } | undefined;
      if (best !== undefined) expect(sets[0]).toBe([...best.moved].sort().join(' '));
    });
  });
}

describe('measuring advice', () => {
  for (const one of advice.cases)
    it(`is as good as the second way: ${one.name}`, () => {
      const { build, elsewhere, points } = bodies[one.body];
      const rows = new Map(points.map((row) => [row.id, row]));
      const of = (id: string) => {
        const row = rows.get(id)!;
        return pointOf(row, [0, 0, 0], one.uncertainty, row.control ? build : 0);
      };
      const partOf = (id: string) => {
        const { part } = rows.get(id)!;
        return part === null ? null : nameOf(part);
      };
      const isControl = (id: string) => rows.get(id)!.control;
      const read = (one.read as unknown as (string | string[])[]).flat();
      const question = {
        base: read.filter(isControl).map(of),
        witnesses: read.filter((id) => !isControl(id)).map((id) => ({ point: of(id), partName: partOf(id) })),
        factor: 1,
        items: one.items.map((ids) => ({
          name: nameOf(ids[0]),
          points: ids.map(of),
          isControl: isControl(ids[0]),
          partName: partOf(ids[0]),
        })),
        scope: one.scope.map(of),
        scatter: scatterElsewhere(elsewhere),
      };
      const found = measuringAdvice(question);
      const { before, kept, reached, after } = one.results;
      if (before === null) expect(found.now).toBe(Number.POSITIVE_INFINITY);
      else expectRelative(found.now, before, 1e-6);
      expect(found.reached).toBe(reached);
      const theirs = (kept as unknown as string[][]).map(
        (ids) => question.items.find((item) => item.points[0].id === ids[0])!,
      );
      if (after !== null) expectRelative(worstShare(question, theirs), after, 1e-6);
      if (reached) expect(found.steps.length).toBeLessThanOrEqual(theirs.length);
    });
});
