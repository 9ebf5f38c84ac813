import { type JudgedPoint, judgementsOf } from '../../inspection/alignment/points';
import { coverage95, type Verdict, verdictOf } from '../../inspection/alignment/verdict';
import type { Inspection } from '../../inspection/job/inspect';
import { type Axis, axes, type Limits, type Point } from '../../model/chassis';

/** A point through the stages of a job, axis by axis, for a row of small charts. */
export interface PointHistory {
  readonly id: string;
  readonly point: Point;
  readonly axes: readonly AxisHistory[];
  /** What the charts of this point span each way, mm: the same on its three axes. */
  readonly rangeMm: number;
}

export interface AxisHistory {
  readonly axis: Axis;
  readonly limits: Limits;
  readonly readings: readonly AxisReading[];
}

export interface AxisReading {
  /** Number of the stage, from 1. */
  readonly stage: number;
  readonly mm: number;
  /** 95 %, each way. */
  readonly certainMm: number;
  /** Of this axis alone. */
  readonly verdict: Verdict;
  /** Read under load: a peak. */
  readonly peak: boolean;
  /** The base of its stage is not settled. */
  readonly provisional: boolean;
}

/** What one axis of a point says by itself. */
export const axisVerdict = (judged: JudgedPoint, axis: Axis): Verdict =>
  verdictOf([judgementsOf(judged)[axis]]);

/** Of every point that was read, in the order of the chassis; what could not be judged is left out. */
export function pointHistories({ stages, chassis }: Inspection): PointHistory[] {
  const found = stages.map((stage) => new Map(stage.points.map((judged) => [judged.id, judged])));
  return [...chassis.points.values()].flatMap((point): PointHistory[] => {
    const told = axes.map((axis): AxisHistory => {
      const readings = found.flatMap((points, i): AxisReading[] => {
        const judged = points.get(point.id);
        const [mm, u] = [judged?.deviation[axis] ?? null, judged?.uncertainty[axis] ?? null];
        if (judged === undefined || mm === null || u === null) return [];
        return [
          {
            stage: i + 1,
            mm,
            certainMm: coverage95 * u,
            verdict: axisVerdict(judged, axis),
            peak: stages[i].underTension,
            provisional: stages[i].provisional,
          },
        ];
      });
      return { axis, limits: point.limits[axis], readings };
    });
    if (told.every(({ readings }) => readings.length === 0)) return [];
    const reach = told.flatMap(({ limits, readings }) => [
      -limits[0],
      limits[1],
      ...readings.map(({ mm, certainMm }) => Math.abs(mm) + certainMm),
    ]);
    return [{ id: point.id, point, axes: told, rangeMm: 1.15 * Math.max(...reach) }];
  });
}

/** Points worth a chart: read more than once, and at least once not as part of the base or not within. */
export function changingPoints(inspection: Inspection): PointHistory[] {
  const notable = new Set(
    inspection.stages.flatMap(({ points }) =>
      points.filter(({ inBase, verdict }) => !inBase || verdict !== 'within').map(({ id }) => id),
    ),
  );
  return pointHistories(inspection).filter(
    ({ id, axes: told }) => notable.has(id) && told.some(({ readings }) => readings.length > 1),
  );
}
