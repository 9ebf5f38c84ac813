import { describe, expect, it } from 'vitest';
import { chassisText, controlIds, jobText, measureText, railIds } from '../inspection/testing/pulled-rail';
import { memoryFiles } from '../workspace/memory-files';
import { plan } from './plan';

const folder = 'file:///shop/';
const ids = [...controlIds, ...railIds('L'), ...railIds('R')];
const off = measureText('as received', ids, (id) => [0, railIds('L').includes(id) ? 9 : 0, 0]);
const files = memoryFiles(
  {
    [`${folder}marten.chassis.yaml`]: chassisText(),
    [`${folder}w-1.readings.yaml`]: jobText([off]),
    [`${folder}w-2.readings.yaml`]: jobText([measureText('as received', ids, () => [0, 0, 0])]),
    [`${folder}w-3.readings.yaml`]: jobText([off]).replace('marten', 'teal'),
  },
  folder,
);

async function planned(path: string, part?: string) {
  const printed: string[] = [];
  const complained: string[] = [];
  const output = {
    print: (line: string) => printed.push(line),
    complain: (line: string) => complained.push(line),
  };
  const code = await plan(files, { uri: folder + path, path }, part, output);
  return { code, printed: printed.join('\n'), complained: complained.join('\n') };
}

describe('framewright plan', () => {
  it('prints the plan of every part that is out, or of the one that is asked for', async () => {
    expect(await planned('w-1.readings.yaml')).toMatchObject({
      code: 0,
      complained: '',
      printed: expect.stringMatching(/^front-rail\.L: pull plan/),
    });
    expect((await planned('w-1.readings.yaml')).printed).not.toContain('front-rail.R');
    expect((await planned('w-1.readings.yaml', 'front-rail')).printed).toMatch(
      /front-rail\.L: pull plan[\s\S]*front-rail\.R: nothing to pull/,
    );
    expect((await planned('w-2.readings.yaml')).printed).toContain('Nothing to pull');
  });

  it('exits 2 where there is nothing to plan from', async () => {
    expect(await planned('w-1.readings.yaml', 'front-rial.L')).toMatchObject({
      code: 2,
      complained: expect.stringContaining('did you mean front-rail.L?'),
    });
    expect(await planned('marten.chassis.yaml')).toMatchObject({
      code: 2,
      complained: expect.stringContaining('readings file'),
    });
    expect(await planned('w-3.readings.yaml')).toMatchObject({
      code: 2,
      complained: expect.stringContaining('chassis file cannot be read'),
    });
    expect((await planned('none.readings.yaml')).code).toBe(2);
  });
});
