import type { Vec3 } from '../../geometry/vector';

/**
 * An alignment that was taken over across work: chains slide a car on the bench, and nothing in the stage itself says so
 * (server/README.md, "Alignment"). What the stage reads away from the work may confirm that car and instrument stand as they stood.
 */
export interface Carried {
  /** The stage that the alignment was last known to be right in. */
  readonly from: string;
  /** What lies between: `pull` where metal was pulled or released, else other `work`; null where there was none. */
  readonly across: 'pull' | 'work' | null;
  /** Points off the worked parts that stand where the alignment has them; far enough apart they confirm it. */
  readonly agreeing: readonly string[];
  /** Points off the worked parts that stood elsewhere when they were read before. */
  readonly disagreeing: readonly string[];
  readonly confirmed: boolean;
  /** Control points that are off together: the car moved, or the instrument. */
  readonly movedTogether: readonly { readonly id: string; readonly offMm: Vec3 }[];
  /** Only that it was carried stands against the stage: plan and spring-back may go by it. */
  readonly otherwiseSettled: boolean;
}

/** Whether the figures of a stage wait until the alignment that it took over is confirmed; peaks do not. */
export const waitsForConfirmation = (carried: Carried, underTension: boolean): boolean =>
  carried.movedTogether.length > 0 || (carried.across !== null && !carried.confirmed && !underTension);

/** By which alignment it is, in the words of a summary: `by the alignment from before the pull`. */
export const carriedPhrase = ({ across }: Carried): string =>
  `by the alignment from before the ${across ?? 'work'}`;
