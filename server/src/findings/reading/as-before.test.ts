import { expect, it } from 'vitest';
import { signOffState } from '../../inspection/gate/sign-off';
import { bentFrom, job, jobFiles, measure, sound } from '../../testing/body';
import { analysed } from '../testing/analysed';
import { found, said, silent } from '../testing/kit';
import { signed } from '../testing/sign-off';

const name = 'reading/as-before';

it('a row without an earlier reading', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - measure: as received
    readings:
      rail-tip-lower.L: as-before
#     ^^^^^^^^^^^^^^^^ warning: reading/as-before no earlier measure has numbers for rail-tip-lower.L
      rail-tip-lower.R: unreachable
  - measure: finished
    readings:
      rail-tip-lower.R: as-before
#     ^^^^^^^^^^^^^^^^ warning: reading/as-before
`),
    ),
  );
});

const repaired = (end: string, between = '') =>
  job(
    `\n${measure('as received', sound)}\n${between}  - measure: finished\n    readings:\n      rail-tip-lower.L: as-before\n`,
    'scope: [front-rail]\n',
    end,
  );

it('the sign-off names the points that were not read again', async () => {
  await silent(name, jobFiles(repaired('')));
  expect(await said(name, jobFiles(repaired(signed())))).toEqual([
    expect.objectContaining({
      severity: 'information',
      message: expect.stringContaining('taken as before: rail-tip-lower.L'),
    }),
  ]);
});

it('counts as the earlier reading, and is never newer than work', async () => {
  const stateOf = async (text: string) => {
    const analysis = await analysed(jobFiles(text), 'job.readings.yaml');
    if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('no job');
    return signOffState(analysis.inspection, analysis.settings);
  };
  const untouched = await stateOf(repaired(''));
  expect(untouched.unmeasured).toEqual([]);
  expect(untouched.judged.find(({ judged }) => judged.id === 'rail-tip-lower.L')?.stage.name).toBe(
    'as received',
  );
  const pulled = await stateOf(repaired('', '  - pull: out\n    part: front-rail.L\n  - release: all\n'));
  expect(pulled.unmeasured.map(({ id, why }) => [id, why])).toContainEqual(['rail-tip-lower.L', 'outdated']);
  const bent = await stateOf(
    repaired('').replace(measure('as received', sound), measure('as received', bentFrom(1760))),
  );
  expect(bent.outside.map(({ judged }) => judged.id)).toContain('rail-tip-lower.L');
});
