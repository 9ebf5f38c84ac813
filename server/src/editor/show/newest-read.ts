import type { Stage } from '../../inspection/job/stage';

/** The newest stage with a reading or a distance: what is known stays beside the text while the next measure is begun. */
export const newestRead = (stages: readonly Stage[]): Stage | undefined =>
  stages.findLast(({ points, spans }) => points.length + spans.length > 0);
