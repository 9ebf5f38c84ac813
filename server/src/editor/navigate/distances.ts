import type { Chassis } from '../../model/chassis';
import type { Job } from '../../model/job';
import type { Place } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';
import { contains } from '../places';
import { type Reference, referencesTo } from './reference-places';

/** Two points between which a distance is listed or read, whichever is written first. */
interface Ends {
  readonly from: string;
  readonly to: string;
}

/** The ends of the distance at an offset; of two distances where one line lists both sides. */
export function endsAt(analysis: Analysis, offset: number): readonly Ends[] {
  if (analysis.kind === 'settings') return [];
  if (analysis.kind === 'chassis')
    return analysis.chassis.spans.filter(
      ({ origin }) => origin.uri === analysis.uri && contains(origin.place, offset),
    );
  const measure = analysis.job.timeline.find(({ place }) => contains(place, offset));
  return measure?.kind === 'measure' ? measure.spans.filter(({ place }) => contains(place, offset)) : [];
}

/** Where distances are listed, by file. */
export function listedBetween({ spans }: Chassis, ends: readonly Ends[]): Map<string, Reference[]> {
  const places = new Map<string, Place[]>();
  for (const span of spans) {
    const { uri, place } = span.origin;
    if (isAmong(span, ends)) places.set(uri, [...(places.get(uri) ?? []), place]);
  }
  return new Map([...places].map(([uri, list]) => [uri, referencesTo(list, () => true)]));
}

/** Where a job has readings of distances. */
export function readBetween({ timeline }: Job, ends: readonly Ends[]): Reference[] {
  if (ends.length === 0) return [];
  const spans = timeline.flatMap((entry) => (entry.kind === 'measure' ? entry.spans : []));
  return referencesTo(
    spans.filter((span) => isAmong(span, ends)).map(({ place }) => place),
    () => false,
  );
}

const isAmong = (span: Ends, ends: readonly Ends[]): boolean =>
  ends.some(
    ({ from, to }) => (from === span.from && to === span.to) || (from === span.to && to === span.from),
  );
