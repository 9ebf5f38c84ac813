import type { KnownBend } from '../inspection/job/known-bend';
import type { Stage } from '../inspection/job/stage';
import { listPhrase } from './wording';

/** `in "as received" and "after the pull"`: the measures that a bend was told from. */
export const seenInNames = (stages: readonly Stage[]): string =>
  `in ${listPhrase(stages.map(({ name }) => `"${name}"`))}`;

/** The same, and that they do not agree where they do not. */
export const seenInPhrase = ({ stages, contradictory }: KnownBend): string =>
  `${seenInNames(stages)}${contradictory ? ', which do not agree on the place' : ''}`;
