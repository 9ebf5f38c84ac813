import type { DiffFile } from '@framewright/schemas';
import { chassisChanges } from '../diff/chassis-changes';
import { variantChange } from '../diff/file-diff';
import { standing, touched } from '../diff/standing';
import type { Resting } from '../diff/told';
import { chassisLink } from '../editor/chassis-link';
import type { WayOf } from '../editor/dependents';
import { parseText } from '../text/yaml/parse';
import { fileKind } from '../workspace/files';
import { jobHead } from '../workspace/job-head';
import { canonicalUri, folderOf, isInside } from '../workspace/uris';
import type { Analysis, ChassisAnalysis, JobAnalysis, Workspace } from '../workspace/workspace';

/** Two states of a repository, asked for what rests on a file. */
export interface Repository {
  readonly before: Workspace;
  readonly after: Workspace;
  /** Its top, with the closing slash. */
  readonly root: string;
  /** A file's URI as it was, by its URI now; only of renamed files. */
  readonly wasCalled: ReadonlyMap<string, string>;
  /** The URIs of jobs that are in the diff themselves. */
  readonly changedJobs: ReadonlySet<string>;
  readonly pathOf: (uri: string) => string;
}

/** Which chassis files each file of one state rests on. */
interface Links {
  /** By canonical URI: the file itself, then what it rests on, as far as that can be had. */
  readonly chains: ReadonlyMap<string, { readonly uri: string; readonly chain: readonly string[] }>;
}

/** So deep may `extends` go. */
const deepest = 20;

/** Reads no more of a job than its head. */
export async function linksOf(
  workspace: Workspace,
  root: string,
  wayOf: WayOf = async (uri) => [canonicalUri(uri)],
): Promise<Links> {
  const parents = new Map<string, { readonly way: readonly string[]; readonly uri: string }>();
  const { uris } = await workspace.lookedFor(root, false);
  const known = new Set(uris.map(canonicalUri));
  const due = [...uris];
  for (let uri = due.pop(); uri !== undefined; uri = due.pop()) {
    const kind = fileKind(uri);
    if (kind === null || kind === 'settings') continue;
    const read = await workspace.read(uri);
    if (read.kind !== 'text') continue;
    const tree = kind === 'readings' ? (jobHead(read.text) ?? parseText(read.text)) : parseText(read.text);
    const link = chassisLink(kind, uri, tree);
    if (link === null) continue;
    const key = canonicalUri(link.uri);
    parents.set(canonicalUri(uri), { uri: key, way: [key, ...(await wayOf(link.uri))] });
    // what a link leads to, or what lies in a submodule, is not listed
    if (!known.has(key)) due.push(link.uri);
    known.add(key);
  }
  const chainOf = (uri: string): string[] => {
    const passed: string[] = [];
    const chain = [canonicalUri(uri)];
    for (let next = parents.get(chain[0]); next !== undefined && passed.length < deepest; ) {
      chain.push(...next.way);
      passed.push(next.uri);
      const further = parents.get(next.uri);
      next = further === undefined || passed.includes(further.uri) ? undefined : further;
    }
    return chain;
  };
  return { chains: new Map(uris.map((uri) => [canonicalUri(uri), { uri, chain: chainOf(uri) }])) };
}

const restingOn = ({ chains }: Links, uri: string): string[] =>
  [...chains.values()]
    .filter(({ uri: other, chain }) => {
      const isIt = (each: string): boolean => each === canonicalUri(uri) || isInside(each, uri);
      return canonicalUri(other) !== canonicalUri(uri) && chain.some(isIt);
    })
    .map(({ uri: other }) => other);

/** The jobs that rest on what is reached through a link or a submodule; `unjudged`: of them those that a side cannot judge. */
export async function restingThrough(
  repository: Repository,
  links: { readonly before: Links; readonly after: Links },
  uri: string,
): Promise<Resting & { readonly unjudged: number }> {
  const uris = [...new Set([...restingOn(links.after, uri), ...restingOn(links.before, uri)])];
  let unjudged = 0;
  for (const each of uris.filter((other) => fileKind(other) === 'readings')) {
    const { before, after } = await bothSides(repository, each);
    if ([before, after].some((side) => isJob(side) && standing(side) === null)) unjudged++;
  }
  return { variants: [], ...(await jobsAmong(repository, uris)), unjudged };
}

/** What rests on a chassis file, and what its change does to it. */
export async function restingOnChassis(
  repository: Repository,
  links: { readonly before: Links; readonly after: Links },
  uri: string,
  sides: { readonly before: Analysis | null; readonly after: Analysis | null },
): Promise<Resting> {
  const was = repository.wasCalled.get(uri) ?? uri;
  const uris = [...new Set([...restingOn(links.after, uri), ...restingOn(links.before, was)])];
  const { before, after } = sides;
  const ofParent =
    before?.kind === 'chassis' && after?.kind === 'chassis'
      ? chassisChanges(before.chassis, after.chassis)
      : null;
  const variants: DiffFile['variants'] = [];
  for (const each of ofParent === null ? [] : uris.filter((other) => fileKind(other) === 'chassis')) {
    const pair = await bothSides(repository, each);
    if (isBody(pair.before) && isBody(pair.after) && ofParent !== null)
      variants.push(variantChange(repository.pathOf(each), ofParent, pair.before, pair.after));
  }
  return { variants, ...(await jobsAmong(repository, uris)) };
}

/** The jobs that a settings file is about, by the names that it had and has. */
export async function restingOnSettings(
  repository: Repository,
  links: { readonly before: Links; readonly after: Links },
  settings: readonly string[],
): Promise<Resting> {
  const uris = [...links.after.chains.values(), ...links.before.chains.values()]
    .map(({ uri }) => uri)
    .filter((uri) => fileKind(uri) === 'readings' && settings.some((each) => isInside(uri, folderOf(each))));
  return { variants: [], ...(await jobsAmong(repository, [...new Set(uris)], settings)) };
}

/** @param settings where only jobs count that this file was used for */
async function jobsAmong(
  repository: Repository,
  uris: readonly string[],
  settings: readonly string[] | null = null,
): Promise<Pick<Resting, 'touches' | 'untouched'>> {
  const touches: Resting['touches'] = [];
  let untouched = 0;
  for (const uri of uris) {
    if (fileKind(uri) !== 'readings') continue;
    const { before, after } = await bothSides(repository, uri);
    // a job that only one side has is told by itself
    if (!isJob(before) || !isJob(after)) continue;
    const isUsed = ({ dependencies }: JobAnalysis) =>
      settings === null || settings.some((each) => dependencies.includes(each));
    if (!isUsed(before) && !isUsed(after)) continue;
    const job = touched(repository.pathOf(uri), before, after, repository.changedJobs.has(uri));
    if (job === null) untouched++;
    else touches.push(job);
  }
  return { touches, untouched };
}

const isBody = (analysis: Analysis | null): analysis is ChassisAnalysis => analysis?.kind === 'chassis';
const isJob = (analysis: Analysis | null): analysis is JobAnalysis => analysis?.kind === 'readings';

async function bothSides(
  { before, after, wasCalled }: Repository,
  uri: string,
): Promise<{ before: Analysis | null; after: Analysis | null }> {
  const of = async (workspace: Workspace, each: string): Promise<Analysis | null> => {
    const found = await workspace.analysis(each);
    return 'findings' in found ? found : null;
  };
  return { before: await of(before, wasCalled.get(uri) ?? uri), after: await of(after, uri) };
}
