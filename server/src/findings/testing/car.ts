import { carChassis } from '../../inspection/car.fixture';

export { carChassis, jobOn, measured, soundBase } from '../../inspection/car.fixture';

/** A job on that car, or on another. */
export const filesOf = (job: string, chassis = carChassis): Record<string, string> => ({
  'car.chassis.yaml': chassis,
  'w.readings.yaml': job,
});
