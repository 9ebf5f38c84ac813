import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, describe, expect, it } from 'vitest';
import { baselineText, type KnownInFile } from '../../server/src/commands/baseline';
import { reportingHere } from '../../server/src/commands/check';
import { checkSelected } from '../../server/src/commands/check-selected';
import { recorded, shopOf, target } from '../../server/src/commands/recorded.fixture';
import { baselinesFor, baselineWritten, heldAgainst } from '../../server/src/node/baseline-file';
import type { BaselineUse } from '../../server/src/node/baseline-place';
import { memoryFiles } from '../../server/src/workspace/testing/memory-files';

const old = (point: string, up = ''): string =>
  `framewright: readings/1\nchassis: ${up}car.chassis.yaml\ntimeline:\n  - measure: as received\n    readings:\n      ${point}: [1, 2, 3]\n`;
const knows = (file: string, point: string): string =>
  baselineText(
    new Map([
      [
        file,
        new Map([
          [
            JSON.stringify(['name/unknown-point', 'error', `timeline > as received > readings > ${point}`]),
            1,
          ],
        ]),
      ],
    ]),
  );
/** A baseline of the shop and one of a folder in it; each knows one of two points of the same file. */
const nested = {
  'sub/a.readings.yaml': old('old', '../'),
  'sub/.framewright-baseline.json': knows('a.readings.yaml', 'old'),
  'b.readings.yaml': old('old'),
  '.framewright-baseline.json': knows('b.readings.yaml', 'old'),
};

async function shown(texts: Record<string, string>, asked: readonly string[], use: BaselineUse = 'hold') {
  const files = shopOf(texts);
  const targets = Object.keys(texts)
    .filter((name) => name.endsWith('.readings.yaml') && asked.some((each) => name.startsWith(each)))
    .map(target);
  const baselines = await baselinesFor(files, target(asked[0] || '.').uri, targets);
  if (typeof baselines === 'string') return baselines;
  const met = new Map<string, KnownInFile>();
  const reporting = heldAgainst(reportingHere(files), baselines, use, met);
  const options = {
    open: true,
    summaries: false,
    verbose: false,
    format: 'concise',
    coloured: false,
  } as const;
  const { printed } = await recorded((output) =>
    checkSelected({ targets, complaints: [], leftOut: [] }, options, output, reporting),
  );
  return { unknown: printed.split('\n').filter((line) => line.includes('name/unknown-point')), met };
}

describe('a baseline beside another', () => {
  it('is there for a fault', async () => {
    const { 'sub/.framewright-baseline.json': _, '.framewright-baseline.json': __, ...bare } = nested;
    expect(await shown(bare, [''])).toMatchObject({ unknown: [expect.any(String), expect.any(String)] });
  });

  it.each([
    ['the shop', ['']],
    ['the folder', ['sub/']],
    ['a file of each', ['b.readings.yaml', 'sub/']],
    ['the other first', ['sub/', 'b.readings.yaml']],
  ])('is the nearest above each file, asked about %s', async (_, asked) => {
    expect(await shown(nested, asked)).toMatchObject({ unknown: [] });
  });

  it('knows nothing of files of the other', async () => {
    const texts = { ...nested, '.framewright-baseline.json': knows('sub/a.readings.yaml', 'new') };
    texts['sub/a.readings.yaml'] = old('new', '../');
    const found = await shown(texts, ['']);
    expect(found).toMatchObject({
      unknown: [expect.stringMatching(/^sub\/a\./), expect.stringMatching(/^b\./)],
    });
  });

  it('is not written for files of the other', async () => {
    const texts = { ...nested, 'sub/a.readings.yaml': old('new', '../') };
    const found = await shown(texts, [''], 'write');
    if (typeof found === 'string') throw new Error(found);
    expect([...found.met.keys()]).toEqual(['b.readings.yaml']);
    expect(found.unknown).toEqual([expect.stringContaining('sub/a.readings.yaml')]);
  });

  it('that is damaged is said, whatever is asked about first', async () => {
    const texts = { ...nested, 'sub/.framewright-baseline.json': '{' };
    expect(await shown(texts, [''])).toMatch(/sub\/\.framewright-baseline\.json: the baseline is damaged/);
    expect(await shown(texts, ['b.readings.yaml'])).toMatchObject({ unknown: [] });
  });
});

describe('on a disk', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'framewright-baseline-'));
  const uri = `${pathToFileURL(folder).href}/`;
  afterEach(() => rmSync(folder, { recursive: true, force: true }));
  const known = (about: string): KnownInFile =>
    new Map([[JSON.stringify(['name/unknown-point', 'error', about]), 1]]);

  it('one that could not be read again is not written', async () => {
    const met = new Map(
      Array.from({ length: 30_000 }, (_, i) => [`jobs/${i}.readings.yaml`, known('n'.repeat(299))]),
    );
    const files = memoryFiles({}, uri);
    const { said, isWritten } = await baselineWritten(files, { known: null, folder: uri }, 'write', met);
    expect([said.endsWith('it would be larger than 8 MB'), isWritten]).toEqual([true, false]);
  });
});
