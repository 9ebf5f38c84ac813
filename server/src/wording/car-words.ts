import type { Donor } from '../inspection/cars/references';
import { readBeforeWork, wasWorkedOn } from '../inspection/cars/sound-stages';
import { listPhrase } from '../text/lists';

/** What is to be known of a car that references are taken from. */
export const carLines = ({ name, car }: Donor): string[] => [
  ...(wasWorkedOn(car.inspection)
    ? [
        `${name}: it was worked on, so what counts was read before the repair: ${listPhrase(readBeforeWork(car.inspection).map((stage) => `“${stage.name}”`))}`,
      ]
    : []),
  ...(car.unchecked
    ? [`${name}: its control points lie in one plane, or are three: little contradicts one that has moved`]
    : []),
  ...car.contradictory.map((id) => `${name}: ${id} is left out, its repeats contradict each other`),
];
