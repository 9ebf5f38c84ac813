import { describe, expect, it } from 'vitest';
import { chassisText, controlIds, jobText, measureText, railIds } from '../testing/pulled-rail';
import { memoryFiles } from '../workspace/testing/memory-files';
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
  it('prints one page for all that is out, or the detail of the part that is asked for', async () => {
    expect(await planned('w-1.readings.yaml')).toMatchObject({
      code: 0,
      complained: '',
      printed: expect.stringMatching(/^Pull plan of W-1 .*: one step[\s\S]*^Step 1: pull front-rail\.L$/m),
    });
    expect((await planned('w-1.readings.yaml')).printed).not.toContain('front-rail.R');
    expect((await planned('w-1.readings.yaml', 'front-rail')).printed).toMatch(
      /front-rail\.L: pull plan[\s\S]*front-rail\.R: nothing to pull/,
    );
    expect((await planned('w-2.readings.yaml')).printed).toContain('Nothing to pull');
  });

  it('names the fewest control points that the next measure must read, and how certainly', async () => {
    const text = (await planned('w-1.readings.yaml', 'front-rail.L')).printed.replace(/\s+/g, ' ');
    expect(text).toMatch(
      /With every reading off load read .+, both sides: the fewest control points that decide front-rail\.L \(none moved, read to ±\d\.\d mm\)\. Only a reading off load counts\./,
    );
    expect(text).not.toContain('u = ');
    expect((await planned('w-2.readings.yaml')).printed).not.toContain('fewest');
  });

  const sound = measureText('as received', ids, () => [0, 0, 0]);
  const withSpans = (spans: string) => sound.replace('    readings:', `    spans: [${spans}]\n    readings:`);
  const saidOf = async (...timeline: string[]) => {
    const shop = memoryFiles(
      { [`${folder}marten.chassis.yaml`]: chassisText(), [`${folder}w.readings.yaml`]: jobText(timeline) },
      folder,
    );
    const printed: string[] = [];
    const output = { print: (line: string) => printed.push(line), complain: () => {} };
    await plan(shop, { uri: `${folder}w.readings.yaml`, path: 'w' }, undefined, output);
    return printed.join('\n');
  };

  it('says that there is nothing to pull only where nothing is off or open', async () => {
    expect(await saidOf(sound)).toMatch(/^Nothing to pull/);
    const off = await saidOf(
      withSpans('[tip-lower.L, tip-lower.R, 889], [floor-front.L, floor-front.R, 846]'),
    );
    expect(off).not.toContain('Nothing to pull');
    expect(off).toContain(
      '2 distances are outside: tip-lower.L to tip-lower.R and floor-front.L to floor-front.R',
    );
    expect(off).toContain('does not tell which of its ends is off');
    expect(await saidOf(withSpans('[tip-lower.L, tip-lower.R, 883.1]'))).toMatch(
      /Not decided: tip-lower\.L to tip-lower\.R: what to read stands at each reading/,
    );
    expect(await saidOf('  - note: waiting\n')).toContain('nothing was read off load yet');
    const mirrored = sound.replace(/\[(-?[\d.]+), (-?[\d.]+), /g, (_, x, y) => `[${x}, ${-y}, `);
    expect(await saidOf(mirrored)).toContain('cannot be understood');
  });

  it('names what is outside besides the planned parts', async () => {
    const spans = 'spans: [[tip-lower.L, tip-lower.R, 889], [floor-front.L, floor-front.R, 846]]';
    const said = await saidOf(off.replace('    readings:', `    ${spans}\n    readings:`));
    expect(said).toContain('Step 1: pull front-rail.L');
    expect(said).toContain('Besides: A distance is outside: floor-front.L to floor-front.R.');
    expect(await saidOf(off)).not.toContain('Besides');
  });

  it('says so of one part that a distance outside ends at', async () => {
    const shop = memoryFiles(
      {
        [`${folder}marten.chassis.yaml`]: chassisText(),
        [`${folder}w.readings.yaml`]: jobText([withSpans('[tip-lower.L, tip-lower.R, 889]')]),
      },
      folder,
    );
    const printed: string[] = [];
    const output = { print: (line: string) => printed.push(line), complain: () => {} };
    await plan(shop, { uri: `${folder}w.readings.yaml`, path: 'w' }, 'front-rail.L', output);
    expect(printed.join('\n')).toBe(
      'front-rail.L: no plan; no point of it is out in “as received”, but the distance tip-lower.L to tip-lower.R is: read both ends again before anything is pulled',
    );
  });

  it('exits 1 where the file has errors, and says which file and how many', async () => {
    const shop = memoryFiles(
      {
        [`${folder}marten.chassis.yaml`]: chassisText(),
        [`${folder}w.readings.yaml`]: jobText([sound, '  - measure: [\n']),
      },
      folder,
    );
    const said: string[] = [];
    const output = { print: (line: string) => said.push(line), complain: (line: string) => said.push(line) };
    expect(await plan(shop, { uri: `${folder}w.readings.yaml`, path: 'w' }, undefined, output)).toBe(1);
    expect(said.join('\n')).toMatch(
      /^framewright: w: no plan: it has (one error|\d errors): `framewright check` names/,
    );
  });

  it('does not say that nothing is to be pulled where parts of the scope were not read', async () => {
    const control = measureText('as received', controlIds, () => [0, 0, 0]);
    const shop = memoryFiles(
      {
        [`${folder}marten.chassis.yaml`]: chassisText(),
        [`${folder}w.readings.yaml`]: jobText([control]).replace(
          'timeline:',
          'scope: [front-rail]\ntimeline:',
        ),
      },
      folder,
    );
    const said: string[] = [];
    const output = { print: (line: string) => said.push(line), complain: () => {} };
    await plan(shop, { uri: `${folder}w.readings.yaml`, path: 'w' }, undefined, output);
    expect(said.join(' ')).toBe('No plan: front-rail (both sides) were not read. What was read is within.');
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
