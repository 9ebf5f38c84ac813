import { describe, expect, it } from 'vitest';
import { chassisHash } from '../../inspection/gate/chassis-hash';
import { twoBodies } from '../../testing/two-bodies';
import { memoryFiles } from '../../workspace/testing/memory-files';
import { Workspace } from '../../workspace/workspace';
import { WorkspaceQuery } from '../../workspace/workspace-query';
import type { Texts } from '../testing/asked';
import { edited, offsetOf, shopFolder, shopOf } from '../testing/shop';
import { renamableAt, renameAt } from './rename';

const job = 'jobs/w-1.readings.yaml';
const hatch = 'specs/hatch.chassis.yaml';

/** The repository afterwards, or the reason why not. */
async function renamed(texts: Texts, name: string, piece: string, newName: string): Promise<Texts | string> {
  const shop = shopOf(texts);
  const found = await renameAt(
    shop.workspaceQuery(),
    await shop.analysis(name),
    offsetOf(texts[name], piece) + 1,
    newName,
  );
  return 'refused' in found ? found.refused : edited(texts, found);
}

/** As if it had been typed: every id of that name, and nothing else that reads like it. */
const tipRenamed: Texts = {
  ...twoBodies,
  [hatch]: twoBodies[hatch]
    .replace('tip: ', 'nose: ')
    .replace('tip.L', 'nose.L')
    .replace('from: tip,', 'from: nose,'),
  'specs/van.chassis.yaml': twoBodies['specs/van.chassis.yaml'].replace('  tip:', '  nose:'),
  [job]: twoBodies[job].replaceAll('tip.', 'nose.').replace('[tip]', '[nose]'),
  'jobs/w-2.readings.yaml': twoBodies['jobs/w-2.readings.yaml'].replace('tip.L', 'nose.L'),
};

describe('a rename', () => {
  it.each([
    ['a reading', job, "tip.L'"],
    ['the other side', job, 'tip.R'],
    ['the chassis file', hatch, 'tip:'],
    ['the variant', 'specs/van.chassis.yaml', 'tip:'],
    ["the variant's job", 'jobs/w-2.readings.yaml', 'tip.L'],
  ])('of a point, asked at %s, changes both sides everywhere and no other body', async (_, name, piece) =>
    expect(await renamed(twoBodies, name, piece, 'nose')).toEqual(tipRenamed),
  );

  it('takes the side of the name that was asked about, and no other', async () => {
    expect(await renamed(twoBodies, job, 'tip.R', 'nose.R')).toEqual(tipRenamed);
    expect(await renamed(twoBodies, job, 'tip.R', 'nose.L')).toContain('both sides');
  });

  it('of what a variant takes away changes it where it is given', async () => {
    const after = (await renamed(twoBodies, 'specs/van.chassis.yaml', 'latch: ~', 'lock')) as Texts;
    expect(after['specs/van.chassis.yaml']).toContain('  lock: ~');
    expect(after).toEqual(await renamed(twoBodies, hatch, 'latch:', 'lock'));
  });

  it('of a part keeps sides, quotes and the rest of a summary line', async () => {
    const after = (await renamed(twoBodies, job, 'rail.L]', 'front-rail')) as Texts;
    expect(after[job]).toBe(twoBodies[job].replaceAll('rail.L', 'front-rail.L'));
    expect(after['specs/van.chassis.yaml']).toContain('part: "front-rail" }');
    expect(after[hatch]).toBe(
      twoBodies[hatch].replace('rail: {', 'front-rail: {').replace('part: rail ', 'part: front-rail '),
    );
  });

  it("of another body's point leaves this one", async () => {
    const after = (await renamed(twoBodies, 'specs/other.chassis.yaml', 'tip:', 'nose')) as Texts;
    expect(Object.keys(after).filter((name) => after[name] !== twoBodies[name])).toEqual([
      'specs/other.chassis.yaml',
      'jobs/w-3.readings.yaml',
    ]);
  });

  it('to the same name changes nothing', async () =>
    expect(await renamed(twoBodies, hatch, 'tip:', 'tip')).toEqual(twoBodies));

  it('finds jobs and files that stand in ignored folders', async () => {
    const texts = { ...twoBodies, '.framewright.yaml': 'framewright: settings/1\nignore: [jobs]\n' };
    expect(((await renamed(texts, hatch, 'tip:', 'nose')) as Texts)[job]).toBe(tipRenamed[job]);
  });

  it('writes a name out where an alias repeats another kind of it', async () => {
    const texts = {
      'm.chassis.yaml':
        'framewright: chassis/1\nvehicle: Marten\nparts:\n  latch: {}\npoints:\n  latch: { centre: [1, 2, 3], part: &name latch }\nspans:\n  - { from: *name, to: latch, distance: 9 }\n',
    };
    const after = (await renamed(texts, 'm.chassis.yaml', 'latch: {}', 'lock')) as Texts;
    expect(after['m.chassis.yaml']).toBe(
      texts['m.chassis.yaml']
        .replace('latch: {}', 'lock: {}')
        .replace('&name latch', '&name lock')
        .replace('*name', 'latch'),
    );
  });
});

describe('a rename is refused', () => {
  it.each([
    ['latch', 'latch already: hatch.chassis.yaml, line 9'],
    ['Nose', 'lower-case words'],
    ['nose_tip', 'lower-case words'],
    ['', 'lower-case words'],
    ['12', 'number'],
    ['true', 'YAML'],
  ])('to “%s”', async (newName, reason) =>
    expect(await renamed(twoBodies, hatch, 'tip:', newName)).toContain(reason),
  );

  it('where a part would be called all', async () =>
    expect(await renamed(twoBodies, hatch, 'rail:', 'all')).toContain('every part'));

  it('where a parent has the name, or a job is waiting for it', async () => {
    const own = twoBodies['specs/van.chassis.yaml'].replace('latch: ~', 'hook: { centre: [1, 2, 3] }');
    const texts = { ...twoBodies, 'specs/van.chassis.yaml': own };
    expect(await renamed(texts, 'specs/van.chassis.yaml', 'hook:', 'latch')).toContain(
      'hatch.chassis.yaml, line 9',
    );
    const waiting = {
      ...twoBodies,
      'jobs/w-2.readings.yaml': twoBodies['jobs/w-2.readings.yaml'].replace('tip.L', 'nose.L'),
    };
    expect(await renamed(waiting, hatch, 'tip:', 'nose')).toContain('w-2.readings.yaml, line 6');
  });

  it('of a name that the chassis does not have, and of what is no name', async () => {
    const texts = { ...twoBodies, [job]: twoBodies[job].replace('hook: tip.L', 'hook: tipp.L') };
    expect(await renamed(texts, job, 'tipp.L', 'nose')).toBe('the chassis file has no point tipp.L');
    expect(await renamed(twoBodies, job, 'as received', 'nose')).toContain('no point or part');
  });

  it.each([
    [
      'a second key of the name',
      '      tip.R: [3012, -448, 210] ',
      '      tip.R: [1, 2, 3]\n      tip.R: [3012, -448, 210] ',
    ],
    ['a row below a mistyped key', 'readings:\n', 'readngs:\n'],
    ['a word where a list belongs', 'scope: [rail.L]', 'scope: { rail: tip.L }'],
  ])('where %s would be left behind', async (_, sound, faulty) => {
    const text = twoBodies[job].replace(sound, faulty);
    expect(text).not.toBe(twoBodies[job]);
    expect(await renamed({ ...twoBodies, [job]: text }, hatch, 'tip:', 'nose')).toMatch(
      /w-1\.readings\.yaml, line \d+: tip is where the text has an error/,
    );
  });

  it('where the files stand in no folder that could be searched', async () => {
    const files = memoryFiles({ [`${shopFolder}m.chassis.yaml`]: twoBodies[hatch] });
    const workspace = new Workspace(files);
    const analysis = await workspace.analysis(`${shopFolder}m.chassis.yaml`);
    if (!('findings' in analysis)) throw new Error(analysis.message);
    const offset = offsetOf(twoBodies[hatch], 'tip:');
    expect(await renameAt(new WorkspaceQuery(workspace, []), analysis, offset, 'nose')).toEqual({
      refused: expect.stringContaining('m.chassis.yaml is in no open folder'),
    });
  });

  it('where a file cannot be read, and nothing is changed', async () => {
    const files = memoryFiles(
      Object.fromEntries(Object.entries(twoBodies).map(([name, text]) => [shopFolder + name, text])),
      shopFolder,
    );
    const blocked = new Workspace({
      ...files,
      read: async (uri) =>
        uri.endsWith('w-3.readings.yaml')
          ? { kind: 'unreadable', message: 'it may not be read' }
          : files.read(uri),
    });
    const analysis = await blocked.analysis(shopFolder + hatch);
    if (!('findings' in analysis)) throw new Error(analysis.message);
    const found = await renameAt(
      new WorkspaceQuery(blocked, [shopFolder]),
      analysis,
      offsetOf(twoBodies[hatch], 'tip:'),
      'nose',
    );
    expect(found).toEqual({
      refused: 'w-3.readings.yaml cannot be read, and may use the name: it may not be read',
    });
  });
});

it('a rename is prepared with the name alone, without side and quotes', async () => {
  const analysis = await shopOf(twoBodies).analysis(job);
  const found = renamableAt(analysis, offsetOf(analysis.text, "tip.L'"));
  const { range, name } = found as Extract<typeof found, { name: string }>;
  expect([name, analysis.text.slice(range.start - 1, range.end + 3)]).toEqual(['tip', "'tip.L'"]);
  expect(renamableAt(analysis, offsetOf(analysis.text, 'release'))).toBeNull();
});

describe('the hash of a sign-off', () => {
  const hashOf = (texts: Texts, ...names: string[]) =>
    chassisHash({ chain: names.map((uri) => ({ uri, text: texts[uri] })) });
  const signed = (hash: string): Texts => ({
    ...twoBodies,
    [job]: twoBodies[job].replace('  by: rk', `  by: rk\n  chassis: ${hash}`),
  });

  it('follows where it was right, to as many digits, and the edit is marked as one of a signed job', async () => {
    const texts = signed(hashOf(twoBodies, hatch).slice(0, 23));
    const after = (await renamed(texts, hatch, 'latch:', 'lock')) as Texts;
    expect(after[hatch]).not.toBe(texts[hatch]);
    expect(after[job]).toContain(`chassis: ${hashOf(after, hatch).slice(0, 23)}\n`);
    const shop = shopOf(texts);
    const edits = await renameAt(
      shop.workspaceQuery(),
      await shop.analysis(hatch),
      offsetOf(texts[hatch], 'latch:'),
      'lock',
    );
    const marked = Array.isArray(edits)
      ? edits.flatMap((file) => file.edits.filter((edit) => edit.ofSignOff))
      : [];
    expect(marked.map(({ text }) => text)).toEqual([hashOf(after, hatch).slice(0, 23)]);
  });

  it('stays where it was wrong already: that is still to be seen', async () => {
    const texts = signed('sha256-0123456789abcdef');
    expect(((await renamed(texts, hatch, 'latch:', 'lock')) as Texts)[job]).toContain(
      'sha256-0123456789abcdef',
    );
  });
});
