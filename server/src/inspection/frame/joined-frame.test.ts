import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../geometry/vector';
import { idIn, isControl, readCar, views } from '../../testing/read-car';
import type { JudgedPoint } from '../alignment/points';

const still = (): Vec3 => [0, 0, 0];
const rearLow =
  (mm: number) =>
  (id: string): Vec3 =>
    id.startsWith('rear-rail') ? [0, 0, -mm] : [0, 0, 0];
const alone = 'scope: [front-rail, sill, centre-pillar, rear-rail]';
const stageOf = (...asked: Parameters<typeof readCar>) => readCar(...asked).stages[0];
const pointsOf = (...asked: Parameters<typeof readCar>): Map<string, JudgedPoint> =>
  new Map(stageOf(...asked).points.map((judged) => [judged.id, judged]));

describe('a base joined with its witnesses', () => {
  it('is judged by with less doubt than by itself, and keeps its own fit', () => {
    const [joined, base] = [stageOf(still), stageOf(still, { head: alone })];
    const tip = (stage: typeof joined) => stage.points.find(({ id }) => id === 'rail-tip-lower.L')!;
    for (const k of [0, 1, 2]) expect(tip(joined).uncertainty[k]).toBeLessThan(tip(base).uncertainty[k]!);
    expect(joined.alignment!.rmsMm).toBe(base.alignment!.rmsMm);
    expect(joined.alignment!.baseIds).toEqual(base.alignment!.baseIds);
    expect(joined.alignment!.rotation).not.toEqual(base.alignment!.rotation);
    expect(base.alignment!.rotation).toEqual(base.alignment!.base!.fit.rotation);
  });

  it('follows a group that stands low, so that all else does not sink with it', () => {
    const options = { noiseMm: 0 };
    const [low, sound] = [pointsOf(rearLow(1.5), options), pointsOf(still, options)];
    // the frame sinks at the rear: what is there stands nearer to its place than by the base, and the front rises or stays
    const measured = (points: typeof low, id: string) => points.get(id)!.measured![2]!;
    expect(measured(low, 'rear-rail-extension.L')).toBeGreaterThan(410 - 1.5 + 0.02);
    expect(measured(low, 'rear-rail-extension.L')).toBeLessThan(410);
    expect(measured(low, 'rail-tip-lower.L')).toBeLessThan(measured(sound, 'rail-tip-lower.L'));
  });

  it('sinks where all that testifies stands low: control points then stand high, and nothing else does', () => {
    const points = pointsOf((id): Vec3 => [0, 0, isControl(id) || id.startsWith('rail') ? 0 : -1], {
      noiseMm: 0,
    });
    const mean = (wanted: (id: string) => boolean) => {
      const offs = [...points.values()].filter(({ id }) => wanted(id));
      return (
        offs.reduce((sum, { measured, point }) => sum + measured![2]! - point.reference[2], 0) / offs.length
      );
    };
    expect(mean(isControl)).toBeGreaterThan(0.02);
    expect(mean(isControl)).toBeLessThan(0.5);
    const around = mean((id) => !isControl(id) && !id.startsWith('rail'));
    expect(around).toBeGreaterThan(-0.98);
    expect(around).toBeLessThan(-0.5);
  });

  it('has a witness judged by all but its group, which is a measured fact', () => {
    const points = pointsOf(rearLow(1.5), { noiseMm: 0 });
    for (const id of ['rear-rail-tip.L', 'rear-rail-extension.R']) {
      const { deviation, inBase, witness } = points.get(id)!;
      expect(deviation[2]).toBeCloseTo(-1.5, 4);
      expect(inBase).toBe(false);
      expect(witness).toBeGreaterThan(0);
      expect(witness).toBeLessThanOrEqual(1);
    }
    expect(points.get('rail-tip-lower.L')!.witness).toBeUndefined();
    expect(points.get('floor-front.L')!).toMatchObject({ inBase: true });
    expect(points.get('floor-front.L')!.witness).toBeUndefined();
  });

  it('has a control point judged by all but itself', () => {
    const by = (mm: number) =>
      pointsOf((id): Vec3 => (id === 'toe-board.L' ? [0, 0, mm] : [0, 0, 0]), { noiseMm: 0 });
    expect(by(1).get('toe-board.L')!.deviation[2]).toBeCloseTo(1, 4);
    expect(by(1).get('toe-board.L')!.uncertainty).toEqual(
      by(0)
        .get('toe-board.L')!
        .uncertainty.map((u) => expect.closeTo(u!, 3)),
    );
  });

  it('places what it judges: measured = rotation · reading + translation', () => {
    const stage = stageOf(still);
    const { rotation, translation } = stage.alignment!;
    for (const { measured, reading, inBase, witness, deviation, point } of stage.points) {
      const [read] = reading.triplesMm;
      for (const k of [0, 1, 2] as const) {
        const at =
          rotation![k][0] * read[0] + rotation![k][1] * read[1] + rotation![k][2] * read[2] + translation![k];
        expect(measured![k]).toBeCloseTo(at, 9);
        if (!inBase && witness === undefined) expect(deviation[k]).toBeCloseTo(at - point.reference[k], 9);
      }
    }
  });

  for (const [what, view] of Object.entries(views))
    it(`gives the same figures for the car ${what}`, () => {
      const moved = rearLow(2);
      const [here, there] = [pointsOf(moved), pointsOf(moved, { view })];
      for (const [id, judged] of here) {
        const other = there.get(idIn(view, id))!;
        const [x, y, z] = view.of(judged.deviation as Vec3);
        expect(other.deviation, id).toEqual([x, y, z].map((each) => expect.closeTo(each, 4)));
        expect(other.uncertainty, id).toEqual(judged.uncertainty.map((each) => expect.closeTo(each!, 6)));
        expect([other.inBase, other.verdict], id).toEqual([judged.inBase, judged.verdict]);
        if (judged.witness !== undefined) expect(other.witness, id).toBeCloseTo(judged.witness, 4);
      }
    });

  it('is not asked for where nothing may testify: figures are those of the base alone, to the last digit', () => {
    const seen = ['sill', 'centre-pillar', 'rear-rail']
      .flatMap((part) => [`${part}.L`, `${part}.R`])
      .map((part) => `  - observe: kink\n    part: ${part}\n`)
      .join('');
    const pull = '  - pull: rail\n    part: front-rail.L\n';
    const expected = stageOf(still, { head: alone }).points.map(({ id, deviation, uncertainty }) => ({
      id,
      deviation,
      uncertainty,
    }));
    for (const options of [
      { head: '' },
      { head: 'scope: [front-rail]', timeline: seen },
      { head: 'scope: [front-rail]', timeline: pull },
    ]) {
      const stage = readCar(still, options).stages.at(-1)!;
      expect(stage.alignment!.witnesses).toBeNull();
      expect(stage.points.map(({ id, deviation, uncertainty }) => ({ id, deviation, uncertainty }))).toEqual(
        expected,
      );
    }
  });

  it('names its groups with how far they are believed', () => {
    const { witnesses } = stageOf(rearLow(8)).alignment!;
    expect(witnesses!.groups.map(({ name }) => name)).toEqual(['centre-pillar', 'rear end', 'sill']);
    const rear = witnesses!.groups.find(({ name }) => name === 'rear end')!;
    expect(rear.isOff).toBe(true);
    expect(rear.off[2]).toBeLessThan(-5);
    expect(rear.weight).toBeLessThan(0.3);
    expect(witnesses!.groups.find(({ name }) => name === 'centre-pillar')!.isOff).toBe(false);
  });
});
