import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import type { Vec3 } from '../../geometry/vector';
import { inspectionOf, jobOn } from '../../testing/car';
import { chassisText, headText, idIn, plain, readingsText, type View, views } from '../../testing/read-car';

/** Six control points; one of the two at the rear left is off, and either would explain the other. */
const unread = new Set(['toe-board.L', 'floor-front.L']);
const moved = (id: string): Vec3 => (id === 'rear-frame.L' ? [0, 0, 4] : [0, 0, 0]);
const text = (head?: string, view: View = plain, away: Iterable<string> = unread): string => {
  const gone = new Set([...away].map((id) => idIn(view, id)));
  const lines = readingsText(moved, 0, view).split('\n');
  return jobOn(lines.filter((line) => !gone.has(line.trim().split(':')[0])).join('\n'), headText(head, view));
};
const alignmentOf = (head?: string, view: View = plain, away: Iterable<string> = unread) =>
  inspectionOf(text(head, view, away), chassisText(view)).stages[0].alignment!;
const ids = ['floor-rear.L', 'rear-frame.L'];

describe('a tie between control points', () => {
  it('is no doubt about the stage where the witnesses place the scope alike: neither is in the base, neither accused', () => {
    const alignment = alignmentOf();
    expect(alignment.provisional).toBe(false);
    expect(alignment.faults).toContainEqual({ kind: 'one-of', ids });
    expect(alignment.movedIds).toEqual([]);
    expect(alignment.alternatives).toEqual([]);
    expect(alignment.baseIds).toEqual(['floor-front.R', 'floor-rear.R', 'rear-frame.R', 'toe-board.R']);
  });

  it('leaves the stage ambiguous without witnesses', () => {
    const alignment = alignmentOf('scope: [front-rail, sill, centre-pillar, rear-rail]');
    expect(alignment.faults.map(({ kind }) => kind)).toContain('ambiguous');
    expect(alignment.provisional).toBe(true);
  });

  it('leaves it so where three would be left: any three fit', () => {
    const alignment = alignmentOf(undefined, plain, [...unread, 'toe-board.R']);
    expect(alignment.faults.map(({ kind }) => kind)).toContain('ambiguous');
    expect(alignment.provisional).toBe(true);
  });

  it('judges both fairly: by a frame in which neither has a say', () => {
    const points = inspectionOf(text(), chassisText()).stages[0].points;
    const up = (id: string) => points.find((judged) => judged.id === id)!.deviation[2]!;
    expect(up('rear-frame.L')).toBeCloseTo(4, 2);
    expect(up('floor-rear.L')).toBeCloseTo(0, 2);
  });

  for (const [what, view] of Object.entries(views))
    it(`is the same for the car ${what}`, () => {
      expect(alignmentOf(undefined, view).faults).toContainEqual({
        kind: 'one-of',
        ids: ids.map((id) => idIn(view, id)).sort(),
      });
    });

  it('is said of both, and calls neither moved', async () => {
    const { findings } = await analysed(
      { 'car.chassis.yaml': chassisText(), 'w.readings.yaml': text() },
      'w.readings.yaml',
    );
    const said = findings.filter(({ rule }) => rule === 'base/moved').map(({ message }) => message);
    expect(said).toEqual([
      'one of the control points floor-rear.L or rear-frame.L is off: the others agree without it, whichever it is, and no figure of the scope hangs on it. None of these is in the base.',
    ]);
  });
});
