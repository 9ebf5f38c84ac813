import { describe, expect, it } from 'vitest';
import { length, subtract } from '../../server/src/geometry/vector';
import { bodyPoints, chassis, controlPoints, scopePoints, toleranceMm } from './body';
import { trueCar } from './car';
import { cellAt, gridSize } from './grid';
import { simulatedJob } from './job';
import { jobRandom } from './random';

const seed = 7;
/** Every so manieth cell; prime to the grid's own steps, so that all of its values turn up. */
const some = Array.from({ length: 120 }, (_, i) => cellAt((i * 83) % gridSize));

describe('the grid', () => {
  it('holds 10,000 different cells', () => {
    expect(gridSize).toBe(10_000);
    const names = Array.from({ length: gridSize }, (_, i) => JSON.stringify({ ...cellAt(i), index: 0 }));
    // a car that was not hit has one cell for each of the others
    expect(new Set(names).size).toBe(gridSize);
  });

  it('reads 40 points or more, and judges 20', () => {
    expect(controlPoints(4).length + bodyPoints.length).toBeGreaterThanOrEqual(40);
    expect(scopePoints).toHaveLength(20);
    expect(chassis.points.size).toBe(53);
  });
});

describe('a true car', () => {
  const cars = some.map((cell) => ({ cell, car: trueCar(cell, jobRandom(seed, cell.index)) }));

  it('stands as far out at the end as its cell says', () => {
    const range = {
      sound: [-toleranceMm, 0],
      'out by 0–1': [0, 1],
      'out by 1–3': [1, 3],
      'out by 3–5': [3, 5],
      'out by > 5': [5, 15],
    };
    for (const { cell, car } of cars) {
      if (car.field === null || cell.controlState.endsWith('zone')) continue;
      const [least, most] = range[cell.outcome];
      expect(car.worstExcessMm, JSON.stringify(cell)).toBeGreaterThanOrEqual(least - 1e-6);
      expect(car.worstExcessMm, JSON.stringify(cell)).toBeLessThanOrEqual(most + 1e-6);
    }
  });

  it('is damaged by 4–60 mm at its worst place, give or take what two damages add up to', () => {
    for (const { cell, car } of cars) {
      if (cell.damage === null || cell.controlState.endsWith('zone')) continue;
      const worst = Math.max(
        ...bodyPoints.map(({ id, reference }) => length(subtract(car.received.get(id)!, reference))),
      );
      expect(worst, JSON.stringify(cell)).toBeGreaterThan(1.5);
      expect(worst, JSON.stringify(cell)).toBeLessThan(160);
    }
  });

  it('has moved as many control points as its cell says', () => {
    const moved = { none: 0, one: 1, two: 2 };
    for (const { cell, car } of cars) {
      const expected = moved[cell.controlState as keyof typeof moved] ?? cell.controlCount / 2;
      expect(car.movedControl.size, JSON.stringify(cell)).toBe(expected);
    }
  });

  it('is the same for the same seed and another for another', () => {
    const job = (of: number) => JSON.stringify(simulatedJob(cellAt(4321), of).job.timeline);
    expect(job(7)).toBe(job(7));
    expect(job(8)).not.toBe(job(7));
  });
});

describe('pulls', () => {
  it('end where the car stands at the end, and come back from their peaks', () => {
    for (const cell of some) {
      const { pulls, car } = simulatedJob(cell, seed);
      const last = [...pulls.values()].at(-1);
      if (last === undefined) continue;
      for (const [id, after] of last.after) {
        expect(length(subtract(after, car.final.get(id)!))).toBeLessThan(1e-9);
        const [before, peak] = [last.before.get(id)!, last.peak.get(id)!];
        expect(length(subtract(peak, before))).toBeGreaterThanOrEqual(length(subtract(after, before)) - 0.2);
      }
    }
  });
});
