import { describe, expect, it } from 'vitest';
import { carChassis, inspectionOf, jobOn, measured } from '../../testing/car';

const chassis = (uncertainty: string) =>
  carChassis.replace(/( {2}latch: \{.*?) \}/, `$1, uncertainty: ${uncertainty} }`);
const job = jobOn(measured('      latch: [3050, 0, 780]'));
const latchOf = (uncertainty: string) => {
  const judged = inspectionOf(job, chassis(uncertainty)).stages[0].points.find(({ id }) => id === 'latch');
  if (judged === undefined) throw new Error('no latch');
  return judged;
};

describe('a reference that is known better along one axis', () => {
  it('judges each axis by its own, and takes the largest where one number is needed', () => {
    const own = latchOf('{ length: 0.4, width: 0, height: 1.2 }');
    expect(own.point.uncertaintyMm).toBe(1.2);
    expect(own.point.uncertaintyByAxisMm).toEqual([0.4, 0, 1.2]);
    const none = latchOf('0');
    expect(none.point.uncertaintyByAxisMm).toBeNull();
    const added = [0, 1, 2].map((k) =>
      Math.sqrt((own.uncertainty[k] ?? 0) ** 2 - (none.uncertainty[k] ?? 0) ** 2),
    );
    expect(added).toEqual([0.4, 0, 1.2].map((each) => expect.closeTo(each, 9)));
  });

  it.each(['{ length: 0.4 }', '{ length: 0.4, width: 0.4, height: -1 }', '{ width: 1, height: 1, up: 1 }'])(
    'is not guessed at: %s',
    (written) => {
      const inspection = inspectionOf(job, chassis(written));
      expect(inspection.chassis.points.has('latch')).toBe(false);
      expect(inspection.chassis.problems.map(({ message }) => message).join()).toMatch(
        /needs `|expected|at least 0|not below 0/,
      );
    },
  );
});
