import { describe, expect, it } from 'vitest';
import type { JobAnalysis } from '../../workspace/workspace';
import { analysed } from '../testing/analysed';
import { exampleFiles } from '../testing/examples';
import { silent } from '../testing/kit';
import { doubted } from './doubted';

const { example, exampleIn } = doubted.page;
if ('notRun' in exampleIn) throw new Error('its example is a file');
const { files, name } = exampleFiles(example, exampleIn);
const withJob = (change: (job: string) => string) => {
  const { [name]: job, ...others } = files;
  return { ...others, [name]: change(job) };
};

describe(doubted.name, () => {
  it('says how each group stands, makes the stage provisional and judges by the control points alone', async () => {
    const { findings, inspection } = (await analysed(files, name)) as JobAnalysis;
    const { message } = findings.find(({ rule }) => rule === doubted.name)!;
    expect(message).toContain('centre-pillar 6.0 mm too far right');
    expect(message).toContain('the front end 6.0 mm high');
    expect(message).toContain('the rear end 6.0 mm too far forward');
    expect(inspection!.stages[0].provisional).toBe(true);
    expect(inspection!.stages[0].alignment!.witnesses).toBeNull();
  });

  it('is silent where one of them stands, without a scope, and with six control points', async () => {
    await silent(
      doubted.name,
      withJob((job) => job.replace(', 735, 868]', ', 741, 868]').replace(', -747, 868]', ', -741, 868]')),
    );
    await silent(
      doubted.name,
      withJob((job) => job.replace(/^scope: .*\n/m, '')),
    );
    await silent(
      doubted.name,
      withJob((job) => `${job}\n      cowl-hole.L: [1480, 612, 905]\n      cowl-hole.R: [1480, -612, 905]`),
    );
  });
});
