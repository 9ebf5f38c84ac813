import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../geometry/vector';
import { jobOn } from '../../testing/car';
import { chassisText, controlNames, headText, isControl, readingsText } from '../../testing/read-car';
import type { JobAnalysis } from '../../workspace/workspace';
import { analysed } from '../testing/analysed';

const rule = 'base/list-contradicts';
const listed = controlNames.flatMap((name) => [`${name}.L`, `${name}.R`]);
const head = `scope: [front-rail]\nbase: [${listed.join(', ')}]`;
const saidOf = async (moved: (id: string) => Vec3) => {
  const analysis = (await analysed(
    { 'car.chassis.yaml': chassisText(), 'w.readings.yaml': jobOn(readingsText(moved, 0.2), headText(head)) },
    'w.readings.yaml',
  )) as JobAnalysis;
  const of = (name: string) =>
    analysis.findings.filter((each) => each.rule === name).map(({ message }) => message);
  return { list: of(rule), moved: of('base/moved'), stage: analysis.inspection!.stages[0] };
};
const left = (id: string): Vec3 => (isControl(id) && id.endsWith('.L') ? [0, 0, 6] : [0, 0, 0]);
const one = (id: string): Vec3 => (id === 'toe-board.L' ? [0, 0, 6] : [0, 0, 0]);

describe(rule, () => {
  it('names those that have moved together, and the list is kept: nothing is provisional', async () => {
    const { list, stage } = await saidOf(left);
    expect(list).toHaveLength(1);
    for (const name of controlNames) expect(list[0]).toContain(`${name}.L`);
    expect(list[0]).not.toContain('.R');
    expect(stage.provisional).toBe(false);
    expect(stage.alignment!.baseIds).toEqual(listed);
    expect(stage.alignment!.rotation).toEqual(stage.alignment!.base!.fit.rotation);
    expect(stage.alignment!.witnesses).toBeNull();
  });

  it('leaves a single point to base/moved, and is silent where all stand', async () => {
    const single = await saidOf(one);
    expect(single.list).toEqual([]);
    expect(single.moved.join()).toContain('toe-board.L');
    const sound = await saidOf(() => [0, 0, 0]);
    expect([sound.list, sound.moved]).toEqual([[], []]);
  });
});
