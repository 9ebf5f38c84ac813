import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../geometry/vector';
import { defaultSheetAxes } from '../model/sheet-axes';
import { inspectionOf, jobOn } from '../testing/car';
import {
  chassisText,
  headText,
  isControl,
  placeOfId,
  plain,
  readingsText,
  type View,
  views,
} from '../testing/read-car';
import { floorPhrase } from './story-words';

const usual = { axes: defaultSheetAxes };

/** The floor bends from −350 on, and sills go along with it. */
const beyond = (id: string): number =>
  isControl(id) || id.startsWith('sill') ? Math.max(0, (placeOfId(id)[0] + 350) / 1000) : 0;
const sideways = (id: string): Vec3 => [0, 6 * beyond(id), 0];
const upwards = (id: string): Vec3 => [0, 0, 4 * beyond(id)];

function phrases(moved: (id: string) => Vec3, view: View = plain): string[] {
  const text = jobOn(readingsText(moved, 0, view), headText(undefined, view));
  const { alternatives } = inspectionOf(text, chassisText(view)).stages[0].alignment!;
  return alternatives.flatMap((each) => floorPhrase(each, usual, view.mmPerUnit === 1 ? 'mm' : 'inch') ?? []);
}

describe('a floor that leans', () => {
  it('is told with its direction and where it starts', () => {
    expect(phrases(sideways)).toContain('the floor leans to the left ahead of -350 mm');
    expect(phrases(upwards)).toContain('the floor bends up ahead of -350 mm');
  });

  it.each([
    ['mirrored', 'the floor leans to the right ahead of -350 mm'],
    ['end for end', 'the floor leans to the right behind 350 mm'],
    ['with other names', 'the floor leans to the left ahead of -350 mm'],
    ['in inches', 'the floor leans to the left ahead of -13.8 in'],
  ])('is told alike of the car %s', (what, phrase) => {
    expect(phrases(sideways, views[what])).toContain(phrase);
  });

  it('that is twisted is told by the side that is up', () => {
    const growth = { to: 'rear', beyondMm: 300, perMetre: [4] } as const;
    expect(floorPhrase({ kind: 'turn', growth }, usual, 'mm')).toBe(
      'the floor is twisted behind 300 mm, its left side up',
    );
    expect(floorPhrase({ kind: 'turn', growth: { ...growth, perMetre: [-4] } }, usual, 'mm')).toContain(
      'right side up',
    );
    const rearward = { axes: ['rearward', 'outboard', 'up'] } as const;
    expect(floorPhrase({ kind: 'turn', growth }, rearward, 'mm')).toContain(
      'behind -300 mm (forward of zero)',
    );
    expect(floorPhrase({ kind: 'shift' }, usual, 'mm')).toBeNull();
  });
});
