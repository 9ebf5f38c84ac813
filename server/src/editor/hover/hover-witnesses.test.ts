import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../geometry/vector';
import { jobOn } from '../../testing/car';
import { chassisText, headText, readingsText } from '../../testing/read-car';
import { before, shownAt } from '../testing/asked';

const low = (id: string): Vec3 => (id.startsWith('rear-rail') ? [0, 0, -9] : [0, 0, 0]);
const job = jobOn(readingsText(low, 0.2), headText('scope: [front-rail]\nbase: auto'));
const shown = async (piece: string, text = job) =>
  (
    await shownAt(
      { 'car.chassis.yaml': chassisText(), 'w.readings.yaml': before(text, piece) },
      'w.readings.yaml',
    )
  )?.markdown.replaceAll('\\', '') ?? '';

describe('what is shown of who helps to align', () => {
  it.each(['measure: as', 'scope:', 'base:'])('stands at `%s`, with what is assumed', async (piece) => {
    const markdown = await shown(piece);
    expect(markdown).toMatch(
      /believed so far: centre-pillar \d+ %, the rear end 0 %: it stands [89]\.\d mm low/,
    );
    expect(markdown).toContain('points of sound cars scatter by 1.0 mm (standard, `build-elsewhere`');
  });

  it('stands at a point that does, and at no other', async () => {
    expect(await shown('sill-front.L')).toMatch(/helps to align the car and is believed to \d+ %/);
    expect(await shown(' rail-tip-lower.L')).not.toContain('helps to align');
    expect(await shown('rear-rail-extension.L')).toContain('but it stands off, and so does not help');
    expect(await shown('floor-front.L')).not.toContain('helps to align');
  });

  it('is nothing where all are in question', async () => {
    const all = job.replace('[front-rail]', '[front-rail, sill, centre-pillar, rear-rail]');
    for (const piece of ['scope:', 'base:', 'measure: as', 'sill-front.L'])
      expect(await shown(piece, all)).not.toMatch(/helps? to align|build-elsewhere/);
  });
});
