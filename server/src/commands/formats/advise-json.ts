import type { AdviseChassis, AdviseJob, AdviseLeft } from '@framewright/schemas';
import { type Left, type MeasuringAdvice, mostMm } from '../../inspection/advice/answer';
import type { NoAdvice } from '../../inspection/advice/job-question';
import type { Stage } from '../../inspection/job/stage';
import type { Unit } from '../../model/units';
import { noAdviceText, noFrameText } from '../../wording/advice-words';
import { axisNames } from '../../wording/wording';
import type { PartAnswer } from './part-answer';

/** What `advise --format json` prints, `advise/1`: described by `schemas/json/advise.schema.json`. */

export interface JobAnswer {
  readonly path: string;
  readonly unit: Unit;
  /** The measure that rows go into; null: a new one. */
  readonly stage: Stage | null;
  readonly advice: MeasuringAdvice | NoAdvice;
}

export interface ChassisAnswer {
  readonly path: string;
  readonly unit: Unit;
  readonly uncertaintyMm: number;
  readonly parts: readonly PartAnswer[];
}

const leftJson = (left: Left | null): AdviseLeft =>
  left && {
    point: left.point.id,
    axis: axisNames[left.axis],
    uncertainty: left.uncertaintyMm,
    most: mostMm(left),
  };

export function jobAdviceJson({ path, stage, advice }: JobAnswer): AdviseJob {
  const about = {
    framewright: 'advise/1' as const,
    path,
    measure: stage?.name ?? null,
    provisional: stage?.provisional ?? false,
  };
  if (typeof advice === 'string')
    return {
      ...about,
      none: noAdviceText[advice],
      uncertainty: null,
      now: null,
      steps: [],
      reached: false,
      coarse: null,
    };
  return {
    ...about,
    none: null,
    uncertainty: advice.uncertaintyMm,
    now: leftJson(advice.now),
    steps: advice.steps.map(({ ids, isControl, checks, left }) => ({
      points: [...ids],
      control: isControl,
      checks,
      left: leftJson(left),
    })),
    reached: advice.reached,
    coarse: leftJson(advice.coarse),
  };
}

export const chassisAdviceJson = ({ path, uncertaintyMm, parts }: ChassisAnswer): AdviseChassis => ({
  framewright: 'advise/1',
  path,
  none: parts.length === 0 ? noFrameText : null,
  uncertainty: uncertaintyMm,
  parts: parts.map(({ name, isDecidable, worst, coarse, mostUncertaintyMm, marks }) => ({
    name,
    decidable: isDecidable,
    worst: leftJson(worst),
    coarse: leftJson(coarse),
    mostUncertainty: mostUncertaintyMm,
    mark: marks.map(({ ids }) => [...ids]),
  })),
});
