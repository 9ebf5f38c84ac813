import type { TextRange } from '../../findings/rule/finding';
import type { Origin } from '../../model/chassis';
import { idsNamed } from '../../model/names';
import { offsetsOf } from '../../text/tree';
import type { Analysis, JobAnalysis } from '../../workspace/workspace';
import type { WorkspaceQuery } from '../../workspace/workspace-query';
import { chassisLink } from '../chassis-link';
import { isEntry, namedAt, sameName } from '../mention-matching';
import { mentionsOf } from '../mentions';
import { contains } from '../places';
import { listedBetween } from './distances';

/** Where a thing is defined. `range`: in that file's text as it stands now; null means the file itself. */
interface Target {
  readonly uri: string;
  readonly range: TextRange | null;
}

interface Definition {
  /** What was asked about, in the file that was asked. */
  readonly about: TextRange;
  readonly targets: readonly Target[];
}

/**
 * Where what stands at an offset is defined: a name's point or part, a path's file, a reading's or distance's reference. On a
 * definition that overrides another, the one that it overrides. Null where nothing leads anywhere.
 */
export async function definitionAt(
  query: WorkspaceQuery,
  analysis: Analysis,
  offset: number,
): Promise<Definition | null> {
  if (analysis.kind === 'settings') return null;
  return (
    linkAt(analysis, offset) ??
    (await nameAt(query, analysis, offset)) ??
    (analysis.kind === 'readings' ? referenceAt(analysis, offset) : null)
  );
}

function linkAt({ kind, uri, tree }: Analysis, offset: number): Definition | null {
  const link = chassisLink(kind, uri, tree);
  if (link === null || !contains(link.place, offset)) return null;
  return { about: offsetsOf(link.place), targets: [{ uri: link.uri, range: null }] };
}

async function nameAt(
  query: WorkspaceQuery,
  analysis: Exclude<Analysis, { kind: 'settings' }>,
  offset: number,
): Promise<Definition | null> {
  const named = namedAt(analysis, offset);
  const { chassis } = analysis;
  if (named === null || chassis === null) return null;
  const about = offsetsOf(named.place);
  const known: ReadonlyMap<string, { origin: Origin }> =
    named.kind === 'point' ? chassis.points : chassis.parts;
  const targets = uniqueTargets(idsNamed(named.id, known).map((id) => targetOf(known.get(id)!.origin)));
  const isItself = targets.some(
    (target) => target.uri === analysis.uri && target.range?.start === about.start,
  );
  if (targets.length > 0 && !isItself) return { about, targets };
  // it stands on the definition, or takes a parent's away
  const parents = analysis.kind === 'chassis' ? (await query.chainOf(analysis.uri)).slice(1) : [];
  for (const uri of parents) {
    const file = await query.read(uri, 'chassis');
    if (file.kind !== 'chassis') break;
    const key = mentionsOf(file).find((each) => sameName(each, named) && isEntry(each, file.tree));
    if (key) return { about, targets: [{ uri, range: offsetsOf(key.place) }] };
  }
  return targets.length === 0 ? null : { about, targets };
}

/** Of a reading's numbers, the reference position; of a distance, the listed one. */
function referenceAt({ job, chassis }: JobAnalysis, offset: number): Definition | null {
  if (chassis === null) return null;
  for (const entry of job.timeline) {
    if (entry.kind !== 'measure' || !contains(entry.place, offset)) continue;
    const reading = entry.readings.find(({ value }) => contains(value, offset));
    const point = reading && chassis.points.get(reading.id);
    if (point) return { about: offsetsOf(reading.value), targets: [targetOf(point.coordinates)] };
    const read = entry.spans.find(({ place }) => contains(place, offset));
    if (!read) continue;
    const targets = [...listedBetween(chassis, [read])].flatMap(([uri, references]) =>
      references.map(({ range }) => ({ uri, range })),
    );
    if (targets.length > 0) return { about: offsetsOf(read.place), targets };
  }
  return null;
}

const targetOf = ({ uri, place }: Origin): Target => ({ uri, range: offsetsOf(place) });

const uniqueTargets = (targets: readonly Target[]): Target[] =>
  targets.filter(
    (each, i) =>
      targets.findIndex((other) => other.uri === each.uri && other.range?.start === each.range?.start) === i,
  );
