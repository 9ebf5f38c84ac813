import { describe, expect, it, vi } from 'vitest';
import { chassisHash } from '../../inspection/gate/chassis-hash';
import { twoBodies } from '../../testing/two-bodies';
import type { Texts } from '../testing/asked';
import { edited, shopFolder, shopOf } from '../testing/shop';
import { editsForMoves } from './file-moves';

/** What the changed files say after the moves, by their old names: the line with the path. */
async function pathsAfter(texts: Texts, moves: Record<string, string>): Promise<Record<string, string>> {
  const list = Object.entries(moves).map(([from, to]) => ({ from: shopFolder + from, to: shopFolder + to }));
  const after = edited(texts, await editsForMoves(shopOf(texts).workspaceQuery(), list));
  return Object.fromEntries(
    Object.keys(after)
      .filter((name) => after[name] !== texts[name])
      .map((name) => [name, /^(?:chassis|extends): *(.*)$/m.exec(after[name])![1]]),
  );
}

describe('paths follow', () => {
  it('a chassis file under another name', async () => {
    expect(
      await pathsAfter(twoBodies, { 'specs/hatch.chassis.yaml': 'specs/five-door.chassis.yaml' }),
    ).toEqual({
      'jobs/w-1.readings.yaml': '../specs/five-door.chassis.yaml',
      'specs/van.chassis.yaml': './five-door.chassis.yaml',
    });
  });

  it('a chassis file into another folder, its own path too', async () => {
    expect(
      await pathsAfter(twoBodies, { 'specs/van.chassis.yaml': 'specs/vans/van 2.chassis.yaml' }),
    ).toEqual({
      'jobs/w-2.readings.yaml': '../specs/vans/van 2.chassis.yaml',
      'specs/van.chassis.yaml': '../hatch.chassis.yaml',
    });
  });

  it('a job into another folder', async () => {
    expect(
      await pathsAfter(twoBodies, { 'jobs/w-1.readings.yaml': 'archive/2026/w-1.readings.yaml' }),
    ).toEqual({
      'jobs/w-1.readings.yaml': '../../specs/hatch.chassis.yaml',
    });
  });

  it('a folder, but not inside of it', async () => {
    expect(await pathsAfter(twoBodies, { specs: 'sheets/bodies' })).toEqual({
      'jobs/w-1.readings.yaml': '../sheets/bodies/hatch.chassis.yaml',
      'jobs/w-2.readings.yaml': '../sheets/bodies/van.chassis.yaml',
      'jobs/w-3.readings.yaml': '../sheets/bodies/other.chassis.yaml',
    });
  });

  it('two moves at once', async () => {
    expect(
      await pathsAfter(twoBodies, {
        specs: 'a/specs',
        'jobs/w-1.readings.yaml': 'a/w-1.readings.yaml',
        'jobs/w-2.readings.yaml': 'a/b/w-2.readings.yaml',
        'jobs/w-3.readings.yaml': 'a/jobs/w-3.readings.yaml',
      }),
    ).toEqual({
      'jobs/w-1.readings.yaml': 'specs/hatch.chassis.yaml',
    });
  });

  it('in the quotes that stood there, and nothing where nothing moved', async () => {
    const texts = {
      ...twoBodies,
      'jobs/w-3.readings.yaml': twoBodies['jobs/w-3.readings.yaml'].replace(
        '../specs/other.chassis.yaml',
        "'../specs/other.chassis.yaml'",
      ),
    };
    expect(
      await pathsAfter(texts, {
        'specs/other.chassis.yaml': "specs/o'brien #2.chassis.yaml".replace('#', '%23'),
      }),
    ).toEqual({
      'jobs/w-3.readings.yaml': "'../specs/o''brien #2.chassis.yaml'",
    });
    expect(await pathsAfter(texts, { 'readme.md': 'read-me.md' })).toEqual({});
  });
});

it('no job is read whole for a path at its top', async () => {
  const shop = shopOf(twoBodies);
  const read = vi.spyOn(shop.workspace, 'unjudged');
  const moves = [{ from: `${shopFolder}specs`, to: `${shopFolder}sheets/bodies` }];
  expect(await editsForMoves(shop.workspaceQuery(), moves)).toHaveLength(3);
  expect(read.mock.calls.filter(([uri]) => uri.endsWith('.readings.yaml'))).toEqual([]);
});

it('a sign-off stays good when the path in the chassis file changes', async () => {
  const job = 'jobs/w-2.readings.yaml';
  const [van, hatch] = ['specs/van.chassis.yaml', 'specs/hatch.chassis.yaml'];
  const hashOf = (texts: Texts) =>
    chassisHash({ chain: [van, hatch].map((uri) => ({ uri, text: texts[uri] })) });
  const texts = {
    ...twoBodies,
    [job]: `${twoBodies[job]}sign-off:\n  by: rk\n  chassis: ${hashOf(twoBodies)}\n`,
  };
  const after = edited(
    texts,
    await editsForMoves(shopOf(texts).workspaceQuery(), [
      { from: shopFolder + hatch, to: `${shopFolder}specs/h.chassis.yaml` },
    ]),
  );
  expect(after[van]).toContain('extends: ./h.chassis.yaml');
  expect(after[job]).toContain(`chassis: ${hashOf(after)}`);
  expect(hashOf(after)).not.toBe(hashOf(texts));
});
