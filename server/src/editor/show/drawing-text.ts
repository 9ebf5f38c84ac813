import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import type { Chassis } from '../../model/chassis';
import { idsNamed } from '../../model/names';
import { offsetsOf, type Place } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';
import { namedAt } from '../mention-matching';
import { contains } from '../places';

/** The way between a text and its drawing, both ways. */

type Drawn = Exclude<Analysis, { kind: 'settings' }>;

/** The stage that an offset is in, counted from 0; null where it is in none. */
export const stageAt = ({ stages }: Inspection, offset: number): number | null => {
  const index = stages.findIndex(({ measure }) => contains(measure.place, offset));
  return index < 0 ? null : index;
};

/** The point whose name, reading or reference row is at an offset, or begins on its line; of a name that means both sides the left one. */
export function pointAt(analysis: Drawn, { stages, chassis }: Inspection, offset: number): string | null {
  const { text } = analysis;
  const lineStart = text.lastIndexOf('\n', offset - 1) + 1;
  const nextLine = text.indexOf('\n', offset);
  const lineEnd = nextLine < 0 ? text.length : nextLine;
  const rows = rowsAt(analysis, stages, chassis, offset);
  const row =
    rows.find(({ start, end }) => offset >= start && offset <= end) ??
    rows.find(({ start }) => start >= lineStart && start <= lineEnd);
  if (row !== undefined && chassis.points.has(row.id)) return row.id;
  const named = namedAt(analysis, offset);
  if (named?.kind !== 'point') return null;
  return idsNamed(named.id, chassis.points)[0] ?? null;
}

/** Rows of points near an offset: readings of the measure there, or the reference rows of a chassis file. */
function rowsAt(
  analysis: Drawn,
  stages: readonly Stage[],
  { points }: Chassis,
  offset: number,
): { readonly id: string; readonly start: number; readonly end: number }[] {
  const row = (id: string, from: Place, to: Place) => ({
    id,
    start: offsetsOf(from).start,
    end: offsetsOf(to).end,
  });
  if (analysis.kind === 'chassis')
    return [...points.values()].flatMap(({ id, origin, coordinates }) =>
      origin.uri === analysis.uri ? [row(id, origin.place, coordinates.place)] : [],
    );
  const measure = stages.find((stage) => contains(stage.measure.place, offset))?.measure;
  return (measure?.readings ?? []).map(({ id, key, value }) => row(id, key, value));
}

/**
 * Where the text says of a point what a stage shows: its reading there, else its newest, else its reference.
 * @param stage counted from 0; null for the body alone
 * @param to the other end, where the distance between the two is meant; where none was read, the point is
 */
export function drawnPlace(
  analysis: Analysis,
  stage: number | null,
  id: string,
  to: string | null = null,
): { readonly uri: string; readonly place: Place } | null {
  if (analysis.kind === 'settings' || analysis.chassis === null) return null;
  if (analysis.kind === 'readings' && analysis.inspection !== null) {
    const { stages } = analysis.inspection;
    const shown = stages[stage ?? -1];
    const newestFirst = [...(shown ? [shown] : []), ...[...stages].reverse()];
    for (const each of newestFirst) {
      const span = to === null ? undefined : each.spans.find((one) => one.from === id && one.to === to);
      if (span !== undefined) return { uri: analysis.uri, place: span.reading.place };
    }
    for (const each of newestFirst) {
      const reading = each.measure.readings.find((one) => one.id === id);
      if (reading !== undefined) return { uri: analysis.uri, place: reading.key };
    }
  }
  return referencePlace(analysis, id);
}

/** Where the chassis files state what a point is measured against. */
export function referencePlace(
  analysis: Analysis,
  id: string,
): { readonly uri: string; readonly place: Place } | null {
  if (analysis.kind === 'settings') return null;
  return analysis.chassis?.points.get(id)?.origin ?? null;
}
