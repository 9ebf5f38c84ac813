import type { InspectJob, InspectOutput } from '@framewright/schemas';
import { describe, expect, it } from 'vitest';
import { inspect } from './inspect';
import { recorded, sampleTexts, shopOf, target } from './recorded.fixture';

/** The samples that show what stands around the control points. */
async function jobOf(name: string, change: (text: string) => string = (text) => text): Promise<InspectJob> {
  const path = `jobs/${name}.readings.yaml`;
  const texts = { ...sampleTexts, [path]: change(sampleTexts[path]) };
  const { printed } = await recorded((output) => inspect(shopOf(texts), [target(path)], output));
  return (JSON.parse(printed) as InspectOutput).files[0] as InspectJob;
}
const rulesOf = ({ findings }: InspectJob) => findings.map(({ rule }) => rule);

describe('the samples of witnesses', () => {
  it('tell that a side moved as one, which its control points do not show', async () => {
    const job = await jobOf('w-1214-side-moved');
    const [stage] = job.stages;
    expect(stage.provisional).toBe(true);
    expect(stage.alignment!.moved).toEqual([]);
    const left = ['floor-front.L', 'floor-rear.L', 'rear-floor.L', 'rear-rail-root-lower.L'];
    expect(stage.alignment!.alternatives[0]).toMatchObject({ moved: left, kind: 'shift' });
    const { findings } = job;
    expect(findings.find(({ rule }) => rule === 'base/ambiguous')!.message).toContain(
      'which leaves too few to align on',
    );
  });

  it('are decided by four control points with the help of others, and not without', async () => {
    const job = await jobOf('w-1215-few-control-points');
    expect(job.signOff!.remaining).toEqual([]);
    expect(job.stages[0].alignment!.base).toHaveLength(4);
    expect(job.stages[0].alignment!.witnesses!.groups.length).toBeGreaterThan(2);
    const alone = await jobOf('w-1215-few-control-points', (text) =>
      text.replace(
        /^scope: .*/m,
        'scope: [front-rail, sill, apron, radiator-support, centre-pillar, rear-rail, rear-panel, tailgate-opening]',
      ),
    );
    const rails = (of: InspectJob) => of.stages[0].points.filter(({ id }) => id.startsWith('rail-'));
    expect(rails(job).every(({ verdict }) => verdict === 'within')).toBe(true);
    expect(rails(alone).some(({ verdict }) => verdict === 'undecided')).toBe(true);
  });

  it('ask about rear rails that hang, and sound parts help all the same', async () => {
    const job = await jobOf('w-1216-undeclared-rear');
    expect(rulesOf(job)).toContain('base/witness-off');
    expect(job.stages[0].provisional).toBe(false);
    const weights = new Map(
      job.stages[0].alignment!.witnesses!.groups.map(({ name, weight }) => [name, weight]),
    );
    expect(weights.get('rear end')).toBeLessThan(0.3);
    expect(weights.get('sill')).toBeGreaterThan(0.7);
  });
});
