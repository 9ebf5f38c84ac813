import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { type Body, inventedBody } from './body';
import { inventedJob, type Job } from './job';

/** Of all readings, those that are out of tolerance in a file that has findings. */
export const outsideShare = 0.05;

const chassisName = (body: number): string => `body-${String(body).padStart(2, '0')}.chassis.yaml`;

/**
 * How many points are read how often for so many readings: 100 are one measure of a small body, more are measures of a
 * body of 200 points.
 */
export function shapeOf(readings: number): { points: number; measures: number } {
  const points = readings < 400 ? Math.min(readings, 200) : 200;
  const measures = readings / points;
  if (!Number.isInteger(measures)) throw new Error(`${readings} readings are no whole number of measures`);
  return { points, measures };
}

/** A job of so many readings and its body. */
export function jobOf(readings: number, share: number): { body: Body; job: Job; chassisName: string } {
  const { points, measures } = shapeOf(readings);
  const body = inventedBody(points);
  const job = inventedJob(body, {
    measures,
    outsideShare: share,
    chassisPath: `./${chassisName(0)}`,
    seed: readings,
  });
  return { body, job, chassisName: chassisName(0) };
}

/**
 * Bodies and jobs of a shop, written into a folder: `specs/`, and jobs in as many folders `jobs/0`, `jobs/1`, … as asked.
 * Every second job has readings out of tolerance.
 */
export function writeShop(
  folder: string,
  wanted: { bodies: number; folders: number; jobsInEach: number; readings: number },
  textOf: (job: Job) => string,
): { specs: string; jobs: string[] } {
  const { points, measures } = shapeOf(wanted.readings);
  const specs = path.join(folder, 'specs');
  mkdirSync(specs, { recursive: true });
  const bodies = Array.from({ length: wanted.bodies }, (_, seed) => inventedBody(points, seed));
  bodies.forEach((body, index) => {
    writeFileSync(path.join(specs, chassisName(index)), body.chassis);
  });
  const jobs = Array.from({ length: wanted.folders }, (_, index) => path.join(folder, 'jobs', String(index)));
  jobs.forEach((each, folderIndex) => {
    mkdirSync(each, { recursive: true });
    for (let index = 0; index < wanted.jobsInEach; index++) {
      const seed = folderIndex * wanted.jobsInEach + index;
      const body = seed % wanted.bodies;
      const job = inventedJob(bodies[body], {
        measures,
        outsideShare: seed % 2 === 0 ? 0 : outsideShare,
        chassisPath: `../../specs/${chassisName(body)}`,
        seed,
      });
      writeFileSync(path.join(each, `w-${3000 + seed}.readings.yaml`), textOf(job));
    }
  });
  return { specs, jobs };
}
