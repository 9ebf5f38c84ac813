import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../geometry/vector';
import { jobOn } from '../../testing/car';
import { chassisText, headText, readingsText } from '../../testing/read-car';
import { analysed } from '../testing/analysed';
import { silent } from '../testing/kit';

const rule = 'base/witness-off';
const rearLow =
  (mm: number) =>
  (id: string): Vec3 =>
    id.startsWith('rear-rail') ? [0, 0, -mm] : [0, 0, 0];
const files = (mm: number, head?: string, again = '') => ({
  'car.chassis.yaml': chassisText(),
  'w.readings.yaml': jobOn(readingsText(rearLow(mm), 0.2) + again, headText(head)),
});

describe(rule, () => {
  it('says how a part stands that the scope does not name, and asks', async () => {
    const { findings } = await analysed(files(9), 'w.readings.yaml');
    const said = findings.filter((each) => each.rule === rule).map(({ message }) => message);
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(
      /^the rear end \(rear-rail\) stands [89]\.\d mm low \(±\d\.\d\) by everything else and is not in the scope/,
    );
  });

  it('says it once of a job', async () => {
    const again = `\n${readingsText(rearLow(9), 0.2).replace('as received', 'again')}`;
    const { findings } = await analysed(files(9, undefined, again), 'w.readings.yaml');
    expect(findings.filter((each) => each.rule === rule)).toHaveLength(1);
  });

  it('is silent where it stands within its tolerance, where it is in the scope, and without a scope', async () => {
    await silent(rule, files(2));
    await silent(rule, files(9, 'scope: [front-rail, rear-rail]'));
    await silent(rule, files(9, ''));
  });
});
