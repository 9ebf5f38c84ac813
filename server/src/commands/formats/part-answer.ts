import {
  marksFor,
  mostUncertainty,
  type PartDoubt,
  type PartName,
  partDoubt,
} from '../../inspection/advice/chassis-advice';
import type { Chassis } from '../../model/chassis';

/** What is said of the parts of one name. */
export interface PartAnswer extends PartDoubt {
  readonly name: string;
  readonly mostUncertaintyMm: number | null;
  /** What would do if it were marked as control points; empty where nothing is needed, or nothing would do. */
  readonly marks: readonly { readonly ids: readonly string[] }[];
}

export function partAnswer(chassis: Chassis, part: PartName, uncertaintyMm: number): PartAnswer {
  const doubt = partDoubt(chassis, part, uncertaintyMm);
  const marks = doubt.isDecidable || doubt.coarse !== null ? null : marksFor(chassis, part, uncertaintyMm);
  return {
    ...doubt,
    name: part.name,
    mostUncertaintyMm: mostUncertainty(chassis, part),
    marks: marks?.reached && marks.coarse === null ? marks.steps : [],
  };
}
