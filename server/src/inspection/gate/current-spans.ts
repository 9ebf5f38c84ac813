import { derived } from '../../memory/derived';
import type { JudgedSpan } from '../alignment/spans';
import type { Inspection } from '../job/inspect';
import { newestSpans } from '../job/newest';
import type { Stage } from '../job/stage';
import { lastWork } from './unmeasured';

/** A distance's newest reading off load, and the stage that it stands in. */
export interface CurrentSpan {
  readonly stage: Stage;
  readonly span: JudgedSpan;
}

/** The distances that still say how the car stands: nothing was worked on at either end since they were read. */
export const currentSpans = derived((inspection: Inspection): readonly CurrentSpan[] =>
  [...newestSpans(inspection).values()].filter(({ stage, span }) =>
    [span.from, span.to].every((id) => (lastWork(inspection, id)?.index ?? -1) < stage.index),
  ),
);

/** `floor-front.L to rail-tip.R`. */
export const spanName = ({ from, to }: Pick<JudgedSpan, 'from' | 'to'>): string => `${from} to ${to}`;
