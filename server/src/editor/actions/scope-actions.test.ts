import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../geometry/vector';
import { jobOn } from '../../testing/car';
import { chassisText, headText, readingsText } from '../../testing/read-car';
import { before, chosenAt, offeredAt } from '../testing/asked';

const low = (id: string): Vec3 => (id.startsWith('rear-rail') ? [0, 0, -9] : [0, 0, 0]);
const title = 'Add to the scope: rear-rail';
const path = 'w.readings.yaml';
const filesWith = (scope: string, moved = low) => ({
  'car.chassis.yaml': chassisText(),
  [path]: before(jobOn(readingsText(moved, 0.2), headText(scope)), 'measure'),
});

describe(title, () => {
  it('adds the part to a list in brackets', async () => {
    expect(await chosenAt(filesWith('scope: [front-rail]'), path, title)).toContain(
      'scope: [front-rail, rear-rail]\n',
    );
  });

  it('adds it below a list with dashes, whose comments stay', async () => {
    const scope = 'scope:\n  - front-rail # hit here';
    expect(await chosenAt(filesWith(scope), path, title)).toContain(`${scope}\n  - rear-rail\n`);
  });

  it('is not offered where nothing stands off', async () => {
    const offers = await offeredAt(
      filesWith('scope: [front-rail]', () => [0, 0, 0]),
      path,
    );
    expect(offers).not.toContain(title);
  });
});
