import { describe, expect, it } from 'vitest';
import { twoBodies } from '../../testing/two-bodies';
import { offsetOf, shopFolder, shopOf } from '../testing/shop';
import { definitionAt } from './definition';

const job = 'jobs/w-1.readings.yaml';
const hatch = 'specs/hatch.chassis.yaml';

/** `file: text` of each target, from a piece of a file on; `into` characters past its start. */
async function targetsFrom(name: string, piece: string, into = 1): Promise<string[] | null> {
  const shop = shopOf(twoBodies);
  const found = await definitionAt(
    shop.workspaceQuery(),
    await shop.analysis(name),
    offsetOf(twoBodies[name], piece) + into,
  );
  if (!found) return null;
  return found.targets.map(({ uri, range }) => {
    const target = uri.slice(shopFolder.length);
    return `${target}: ${range ? twoBodies[target].slice(range.start, range.end) : 'the file'}`;
  });
}

describe('the definition', () => {
  it.each([
    ['of a reading', job, "'tip.L':", [`${hatch}: tip`]],
    ['of a bare name', job, 'tip]', [`${hatch}: tip`]],
    ['of a part', job, 'rail.L]', [`${hatch}: rail`]],
    ['of the part of a summary', job, 'rail.L twist', [`${hatch}: rail`]],
    ['of a hook', job, 'tip.L, direction', [`${hatch}: tip`]],
    ['of the end of a span', hatch, 'latch, distance', [`${hatch}: latch`]],
    ['of the part of a point', hatch, 'rail }', [`${hatch}: rail`]],
    ['of a point that is overridden', 'jobs/w-2.readings.yaml', 'tip.L', ['specs/van.chassis.yaml: tip']],
    ['of what overrides: the overridden', 'specs/van.chassis.yaml', 'tip:', [`${hatch}: tip`]],
    ['of what is removed', 'specs/van.chassis.yaml', 'latch: ~', [`${hatch}: latch`]],
    ['of an inherited part', 'specs/van.chassis.yaml', '"rail"', [`${hatch}: rail`]],
    ['itself', hatch, 'latch: {', [`${hatch}: latch`]],
    ['the chassis file', job, '../specs', [`${hatch}: the file`]],
    ['the file that is extended', 'specs/van.chassis.yaml', './hatch', [`${hatch}: the file`]],
    ["of a reading's numbers", job, '[3000', [`${hatch}: [3012, 448, 210]`]],
    ['of a distance', job, '720', [`${hatch}: { from: tip.L, to: latch, distance: 726 }`]],
  ])('%s', async (_, name, piece, expected) => expect(await targetsFrom(name, piece)).toEqual(expected));

  it.each([
    ['a free word', job, 'as received'],
    ['a comment', job, 'tip of the right'],
    ['a number', hatch, '1816'],
  ])('of %s is nowhere', async (_, name, piece) => expect(await targetsFrom(name, piece)).toBeNull());

  it('never leads out of the workspace by another protocol', async () => {
    const shop = shopOf({
      'w.readings.yaml':
        'framewright: readings/1\nchassis: https://pinefield.example/m.chassis.yaml\ntimeline: []\n',
    });
    expect(await definitionAt(shop.workspaceQuery(), await shop.analysis('w.readings.yaml'), 40)).toBeNull();
  });
});
