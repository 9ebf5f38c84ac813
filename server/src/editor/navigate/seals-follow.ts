import { changedSince, sealsOf } from '../../inspection/gate/seal';
import { applyEdits } from '../../text/edits';
import { offsetsOf, type Place } from '../../text/tree';
import type { Files } from '../../workspace/files';
import { canonicalUri } from '../../workspace/uris';
import { type JobAnalysis, type Unjudged, Workspace } from '../../workspace/workspace';
import type { WorkspaceQuery } from '../../workspace/workspace-query';
import { type FileEdits, type PlacedEdit, placed } from './file-edits';

/** A sealed job in which, or in whose chassis, names are about to change. */
export type SealedJob = Extract<Unjudged, { kind: 'readings' }>;

/**
 * The edits with those of seals among them. A name is part of what is sealed, and what it names stays the same: where a seal agrees with the
 * files as they stand, it follows. Where it does not, the job keeps saying so.
 * @param jobs as they stand
 */
export async function withSeals(
  query: WorkspaceQuery,
  all: readonly FileEdits[],
  jobs: readonly SealedJob[],
): Promise<FileEdits[]> {
  if (jobs.length === 0) return [...all];
  const changed = new Map<string, string>();
  for (const { uri, edits } of all) {
    const read = await query.text(uri);
    if (read.kind === 'text') changed.set(canonicalUri(uri), applyEdits(read.text, edits));
  }
  const result = [...all];
  for (const job of jobs) {
    const edits = await sealEdits(query, job, changed);
    if (edits.length === 0) continue;
    const at = result.findIndex(({ uri }) => canonicalUri(uri) === canonicalUri(job.uri));
    if (at < 0) result.push({ uri: job.uri, edits });
    else
      result[at] = {
        uri: result[at].uri,
        edits: [...result[at].edits, ...edits].sort((a, b) => a.start - b.start),
      };
  }
  return result;
}

async function sealEdits(
  query: WorkspaceQuery,
  { uri, text }: SealedJob,
  changed: ReadonlyMap<string, string>,
): Promise<PlacedEdit[]> {
  const now = await judgedWith(query, uri, new Map());
  const then = await judgedWith(query, uri, changed);
  if (!now?.inspection || !then?.inspection || now.job.signOff === null || then.job.signOff === null)
    return [];
  const { decisionRule } = now.settings;
  const stale = changedSince(now.job, now.inspection.chassis, decisionRule);
  const seals = sealsOf(then.job, then.inspection.chassis, then.job.signOff, decisionRule);
  const { readings, readingsPlace, chassis, chassisPlace } = now.job.signOff;
  const edit = (which: 'readings' | 'chassis', written: string | null, place: Place | null): PlacedEdit[] => {
    if (written === null || place === null || stale.includes(which) || written === seals[which]) return [];
    const { start, end } = offsetsOf(place);
    const at = text.indexOf(written, start);
    return at < start || at + written.length > end
      ? []
      : placed(text, [{ start: at, end: at + written.length, text: seals[which] }], true);
  };
  return [...edit('readings', readings, readingsPlace), ...edit('chassis', chassis, chassisPlace)].sort(
    (a, b) => a.start - b.start,
  );
}

/** A job judged with some files as they will be. */
async function judgedWith(
  { workspace }: WorkspaceQuery,
  uri: string,
  texts: ReadonlyMap<string, string>,
): Promise<JobAnalysis | null> {
  const files: Files = {
    read: (asked) => {
      const text = texts.get(canonicalUri(asked));
      return text === undefined ? workspace.read(asked) : Promise.resolve({ kind: 'text', text });
    },
    list: () => Promise.resolve({ uris: [], unread: [] }),
    root: (asked) => workspace.rootOf(asked),
    leadsOut: () => Promise.resolve(false),
  };
  const analysis = await new Workspace(files).analysis(uri);
  return 'findings' in analysis && analysis.kind === 'readings' ? analysis : null;
}
