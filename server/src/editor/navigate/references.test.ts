import { describe, expect, it, vi } from 'vitest';
import { twoBodies } from '../../testing/two-bodies';
import { offsetOf, shopFolder, shopOf } from '../testing/shop';
import { highlightsAt, referencesAt } from './references';

const job = 'jobs/w-1.readings.yaml';
const hatch = 'specs/hatch.chassis.yaml';

/** Per file, the texts that name it; a definition with a star. */
async function namedFrom(name: string, piece: string, texts = twoBodies): Promise<Record<string, string[]>> {
  const shop = shopOf(texts);
  const found: Record<string, string[]> = {};
  for await (const { uri, text, references } of referencesAt(
    shop.workspaceQuery(),
    await shop.analysis(name),
    offsetOf(texts[name], piece) + 1,
  ))
    found[uri.slice(shopFolder.length)] = references.map(
      ({ range, isDefinition }) => text.slice(range.start, range.end) + (isDefinition ? '*' : ''),
    );
  return found;
}

describe('references', () => {
  it('of a point with its side: that side and the bare name, in the body and its variants', async () => {
    expect(await namedFrom(job, 'tip.L, latch')).toEqual({
      [job]: ['tip', "'tip.L'", 'tip.L', 'tip.L', 'tip.L'],
      'jobs/w-2.readings.yaml': ['tip.L'],
      [hatch]: ['tip*', 'tip.L', 'tip'],
      'specs/van.chassis.yaml': ['tip*'],
    });
  });

  it('of a point in the chassis file: both sides', async () => {
    expect((await namedFrom(hatch, 'tip:'))[job]).toEqual([
      'tip',
      "'tip.L'",
      'tip.R',
      'tip.L',
      'tip.L',
      'tip.L',
    ]);
  });

  it('of a part: its points, and the work on it', async () => {
    expect(await namedFrom(hatch, 'rail:')).toEqual({
      [job]: ['rail.L', 'rail.L', 'rail.L', 'rail.L'],
      [hatch]: ['rail*', 'rail'],
      'specs/van.chassis.yaml': ['"rail"'],
    });
  });

  it("of another body's point of the same name: its own alone", async () => {
    expect(await namedFrom('specs/other.chassis.yaml', 'tip:')).toEqual({
      'jobs/w-3.readings.yaml': ['tip.L'],
      'specs/other.chassis.yaml': ['tip*'],
    });
  });

  it.each([
    ['its reading', job, '720'],
    ['the list', hatch, 'distance: 726'],
  ])('of a distance, asked at %s: where it is listed and read', async (_, name, piece) => {
    expect(await namedFrom(name, piece)).toEqual({
      [hatch]: ['{ from: tip.L, to: latch, distance: 726 }*'],
      [job]: ['[tip.L, latch, 720]'],
    });
  });

  it('of a distance listed for both sides at once, read with its ends exchanged', async () => {
    const texts = {
      ...twoBodies,
      [job]: twoBodies[job].replace('[tip.L, latch, 720]', '[floor-front.R, tip.R, 1810]'),
    };
    expect(await namedFrom(hatch, '1816', texts)).toEqual({
      [hatch]: ['{ from: tip, to: floor-front, distance: 1816, pairs: straight }*'],
      [job]: ['[floor-front.R, tip.R, 1810]'],
    });
  });

  it('of a name that nobody knows: its own file', async () => {
    const text = twoBodies[job].replace('[tip.L, latch, 720]', '[nose.L, nose.R, 720]');
    const shop = shopOf({ ...twoBodies, [job]: text });
    const all = [];
    for await (const file of referencesAt(
      shop.workspaceQuery(),
      await shop.analysis(job),
      offsetOf(text, 'nose.L'),
    ))
      all.push(...file.references.map(() => file.uri));
    expect(all).toEqual([shopFolder + job]);
  });

  it('read no job of another body whole: there may be thousands', async () => {
    const shop = shopOf(twoBodies);
    const read = vi.spyOn(shop.workspace, 'unjudged');
    const asked = referencesAt(
      shop.workspaceQuery(),
      await shop.analysis(hatch),
      offsetOf(twoBodies[hatch], 'tip:'),
    );
    for await (const { uri } of asked) expect(uri).not.toContain('w-3');
    const uris = read.mock.calls.map(([uri]) => uri);
    expect(uris).toContain(shopFolder + job);
    expect(uris).not.toContain(`${shopFolder}jobs/w-3.readings.yaml`);
  });

  it('take an open document as it is being typed', async () => {
    const shop = shopOf(twoBodies);
    shop.workspace.setOpen(
      `${shopFolder}jobs/w-2.readings.yaml`,
      twoBodies['jobs/w-2.readings.yaml'].replace('tip.L', 'floor-front.L'),
    );
    const uris = [];
    for await (const { uri } of referencesAt(
      shop.workspaceQuery(),
      await shop.analysis(hatch),
      offsetOf(twoBodies[hatch], 'tip:'),
    ))
      uris.push(uri);
    expect(uris).toContain(shopFolder + job);
    expect(uris).not.toContain(`${shopFolder}jobs/w-2.readings.yaml`);
  });
});

it('highlights one file alone', async () => {
  const analysis = await shopOf(twoBodies).analysis(hatch);
  const found = highlightsAt(analysis, offsetOf(twoBodies[hatch], 'latch:'));
  expect(
    found.map(({ range, isDefinition }) => [analysis.text.slice(range.start, range.end), isDefinition]),
  ).toEqual([
    ['latch', true],
    ['latch', false],
  ]);
  expect(highlightsAt(analysis, offsetOf(twoBodies[hatch], 'Marten'))).toEqual([]);
  expect(highlightsAt(analysis, offsetOf(twoBodies[hatch], '1816'))).toHaveLength(1);
});
