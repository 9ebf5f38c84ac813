import { oncePer } from '../../memory/once';
import type { JudgedSpan } from '../alignment/spans';
import { lastWork } from '../gate/unmeasured';
import type { Inspection } from './inspect';
import { newestSpans } from './newest';
import type { Stage } from './stage';

/** A distance's newest reading off load, and the stage that it stands in. */
export interface CurrentSpan {
  readonly stage: Stage;
  readonly span: JudgedSpan;
}

/** The distances that still say how the car stands: nothing was worked on at either end since they were read. */
export const currentSpans = oncePer((inspection: Inspection): readonly CurrentSpan[] =>
  [...newestSpans(inspection).values()].filter(({ stage, span }) =>
    [span.from, span.to].every((id) => (lastWork(inspection, id)?.index ?? -1) < stage.index),
  ),
);

/** `floor-front.L to rail-tip.R`. */
export const spanName = ({ from, to }: Pick<JudgedSpan, 'from' | 'to'>): string => `${from} to ${to}`;
