import type { JudgedPoint } from '../../inspection/alignment/points';
import { mapAxes } from '../../inspection/alignment/points';
import { grossReadings } from '../../inspection/job/gross';
import type { Inspection } from '../../inspection/job/inspect';
import { provisionalNote } from '../../inspection/job/provisional';
import type { MovedControl, Stage } from '../../inspection/job/stage';
import { certaintyText, listPhrase, movesPhrase } from '../../wording/wording';
import type { Draft, Rule } from '../rule/rule';
import { faultsOf } from './stage-faults';

export const moved: Rule = {
  name: 'base/moved',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary: 'A control point is not where the others say it belongs.',
    why: 'A control point in bent metal drags the whole alignment with it, and then sound points look wrong and bent ones right. The largest set of control points that agree with each other is taken as the base; one that does not fit has moved, or was misread. One that `base:` lists stays in the base, because the file says so.',
    example: '      floor-rear.R:     [-340.9, -462.6, 98.8]      # the floor around this hole is buckled',
    exampleIn: { place: 'row' },
    mend: 'Look at the metal around the point, and read it once more. If it has moved, leave it out of `base:` and treat it as damage; it is judged like any other point.',
    source:
      'Belsley, Kuh & Welsch 1980, Regression Diagnostics (deleted residuals); Fischler & Bolles 1981 (consensus).',
  },
  ofJob: ({ inspection }) => [...ofAligned(inspection), ...ofTies(inspection), ...ofTrams(inspection)],
};

const ofAligned = (inspection: Inspection): Draft[] =>
  faultsOf(inspection, 'moved').flatMap(({ stage, fault }) => {
    const gross = grossReadings(inspection, stage);
    const points = stage.points.filter((judged) => fault.ids.includes(judged.id) && !gross.has(judged.id));
    if (points.length === 0) return [];
    return [
      {
        place: stage.measure.keyPlace,
        message: messageOf(inspection, stage, points, fault.kept),
        related: points.map((judged) => ({
          place: judged.reading.key,
          message: `${judged.id}: ${offPhrase(judged, inspection)}`,
        })),
      },
    ];
  });

/** One of several has moved, and it does not matter which: none is accused. */
const ofTies = (inspection: Inspection): Draft[] =>
  faultsOf(inspection, 'one-of').map(({ stage, fault: { ids } }) => ({
    place: stage.measure.keyPlace,
    message: `one of the control points ${listPhrase(ids, 'or')} is off: the others agree without it, whichever it is, and no figure of the scope hangs on it. None of these is in the base.`,
    related: stage.points
      .filter(({ id }) => ids.includes(id))
      .map((judged) => ({
        place: judged.reading.key,
        message: `${judged.id}: ${offPhrase(judged, inspection)}`,
      })),
  }));

/** Distances alone: the control points that they have elsewhere. */
const ofTrams = (inspection: Inspection): Draft[] =>
  inspection.stages.flatMap((stage) => {
    const moved = stage.network?.moved ?? [];
    if (moved.length === 0) return [];
    const ids = new Set(moved.map(({ id }) => id));
    return [
      {
        place: stage.measure.keyPlace,
        message: `by the distances ${listPhrase(moved.map((each) => movedByDistances(inspection, stage, each)))}.${provisionalNote(inspection, stage)}`,
        related: stage.spans
          .filter(({ from, to }) => ids.has(from) || ids.has(to))
          .map(({ from, to, reading }) => ({
            place: reading.place,
            message: `${from} to ${to} was measured here`,
          })),
      },
    ];
  });

function movedByDistances(
  inspection: Inspection,
  stage: Stage,
  { id, shift, shiftUncertainty, orElse, kept }: MovedControl,
): string {
  const { job, chassis } = inspection;
  if (orElse.length > 0)
    return `one of the control points ${listPhrase([id, ...orElse], 'or')} has moved, but the distances do not tell which: all stay in the base, so every figure is less certain. Measure these points from more other points`;
  // left free it was judged like any other point, and that is the better figure
  const judged = stage.points.find((each) => each.id === id);
  if (!kept && judged)
    return `the control point ${id} has moved and is left out of the base: it stands ${offPhrase(judged, inspection)}`;
  const certain = mapAxes((k) => (Math.abs(shift[k]) > 2 * shiftUncertainty[k] ? shift[k] : 0));
  const said = certain.some((mm) => mm !== 0) ? certain : shift;
  const off = `${movesPhrase(said, chassis.points.get(id)?.side ?? null, job.unit)} from its place (${certaintyText(Math.max(...shiftUncertainty), job.unit)})`;
  const why = job.base.kind === 'ids' ? '`base:` lists it' : 'too few others were measured';
  return `the control point ${id} has moved: it stands ${off}, and stays in the base because ${why}`;
}

function messageOf(
  inspection: Inspection,
  stage: Stage,
  points: readonly JudgedPoint[],
  kept: boolean,
): string {
  const one = points.length === 1;
  const listed = points.map((judged) => `${judged.id} is ${offPhrase(judged, inspection)}`).join('; ');
  const note = provisionalNote(inspection, stage);
  if (kept)
    return `${listed}, judged by the rest of the base. ${one ? 'It stays' : 'They stay'} in the base because \`base:\` lists ${one ? 'it' : 'them'}, and everything else is judged with ${one ? 'it' : 'them'}: take ${one ? 'it' : 'them'} out of the list if the metal there is not sound.${note}`;
  return `${one ? 'a control point has' : `${points.length} control points have`} moved or ${one ? 'was' : 'were'} misread, and ${one ? 'is' : 'are'} left out of the base: ${listed}, judged by the base.${note}`;
}

/** How far and which way: the axes on which it is certainly off, else the largest. */
function offPhrase({ deviation, uncertainty, point }: JudgedPoint, { job }: Inspection): string {
  const d = mapAxes((k) => deviation[k] ?? 0);
  const certain = mapAxes((k) => (Math.abs(d[k]) > 2 * (uncertainty[k] ?? 0) ? d[k] : 0));
  const largest = Math.max(...d.map(Math.abs));
  const said = certain.some((x) => x !== 0)
    ? certain
    : mapAxes((k) => (Math.abs(d[k]) === largest ? d[k] : 0));
  const u = Math.max(...uncertainty.map((each) => each ?? 0));
  return `${movesPhrase(said, point.side, job.unit)} from its place (${certaintyText(u, job.unit)})`;
}
