import { expect, it } from 'vitest';
import { signOffState } from '../../inspection/gate/sign-off';
import { analysed } from '../testing/analysed';
import { bentFrom, job, jobFiles, measure, rule, sound } from '../testing/body';
import { found, silent } from '../testing/kit';
import { signed } from '../testing/sign-off';

const name = 'reading/as-before';

it('a row without an earlier reading', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - measure: as received
    readings:
      rail-6.L: as-before
#     ^^^^^^^^ warning: reading/as-before no earlier measure has numbers for rail-6.L
      rail-6.R: unreachable
  - measure: finished
    readings:
      rail-6.R: as-before
#     ^^^^^^^^ warning: reading/as-before
`),
    ),
  );
});

const repaired = (end: string, between = '') =>
  job(
    `\n${measure('as received', sound)}\n${between}  - measure: finished\n    readings:\n      rail-6.L: as-before\n`,
    'scope: [rail]\n',
    end,
  );

it('the sign-off names the points that were not read again', async () => {
  await silent(name, jobFiles(repaired('')));
  const { found: seen } = await rule(name, repaired(signed()));
  expect(seen).toEqual([
    expect.objectContaining({
      severity: 'information',
      message: expect.stringContaining('taken as before: rail-6.L'),
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
  expect(untouched.judged.find(({ judged }) => judged.id === 'rail-6.L')?.stage.name).toBe('as received');
  const pulled = await stateOf(repaired('', '  - pull: out\n    part: rail.L\n  - release: all\n'));
  expect(pulled.unmeasured.map(({ id, why }) => [id, why])).toContainEqual(['rail-6.L', 'outdated']);
  const bent = await stateOf(
    repaired('').replace(measure('as received', sound), measure('as received', bentFrom(1000))),
  );
  expect(bent.outside.map(({ judged }) => judged.id)).toContain('rail-6.L');
});
