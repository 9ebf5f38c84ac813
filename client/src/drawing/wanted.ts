import type { DrawingAnswer, DrawingSection } from '@framewright/schemas/wire';

/** What is to be shown; made anew with every wish, so that an answer is known to be to an older one. */
export interface Wanted {
  readonly section: DrawingSection;
  /** Null: the newest. */
  readonly stage: number | null;
  readonly over: number | null;
  readonly selected: string | null;
  /** The stage that the cursor was in. */
  readonly cursorStage: number | null;
  readonly width: number;
}

export const firstWanted: Wanted = {
  section: 'drawing',
  stage: null,
  over: null,
  selected: null,
  cursorStage: null,
  width: 640,
};

export const ofAnotherFile = (wanted: Wanted): Wanted => ({
  ...wanted,
  stage: null,
  over: null,
  selected: null,
  cursorStage: null,
});

/**
 * What came out goes into what is wanted next, but not over a newer wish.
 * @param now what is wanted by now
 * @param asked what the answer is to
 */
export function afterAnswer(
  now: Wanted,
  asked: Wanted,
  {
    stage,
    stages,
    over,
    selected,
    cursorStage,
  }: Pick<DrawingAnswer, 'stage' | 'stages' | 'over' | 'selected' | 'cursorStage'>,
): Wanted {
  const entered = { cursorStage: cursorStage ?? asked.cursorStage };
  if (asked !== now) return { ...now, ...entered };
  // the newest stays the newest when another is added
  const staysNewest = asked.stage === null && stage === stages.length - 1;
  return { ...asked, ...entered, stage: staysNewest ? null : stage, over, selected };
}
