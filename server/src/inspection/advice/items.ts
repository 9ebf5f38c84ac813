import type { FramePoint } from '../frame/frame-points';

/** Where something is to be decided. */
export interface ScopePlace extends Pick<FramePoint, 'place' | 'half'> {
  /** The variance of a point that is in the base itself: it is judged by the others. */
  readonly inBase?: number;
}

/** What is read together: both sides of a name, or one point in the middle. */
export interface AdviceItem {
  readonly name: string;
  readonly points: readonly FramePoint[];
  readonly isControl: boolean;
  /** Of a possible witness, the part's name; null: none. */
  readonly partName: string | null;
}
