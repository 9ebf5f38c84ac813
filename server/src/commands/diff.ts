import type { DiffFile } from '@framewright/schemas';
import { fileDiff, notAsked, nothingRests } from '../diff/file-diff';
import { type Passage, passageDiff } from '../diff/passage-diff';
import type { Resting, Sides, Told } from '../diff/told';
import { wholeDiff } from '../diff/whole';
import type { WayOf } from '../editor/dependents';
import { faultIn } from '../findings/internal/fault';
import { decoded } from '../model/file-name';
import { printable } from '../text/printable';
import { type Files, fileKind } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
import { sharedReads } from '../workspace/shared-reads';
import { type Analysis, Workspace } from '../workspace/workspace';
import { linksOf, type Repository, restingOnChassis, restingOnSettings, restingThrough } from './diff-sides';
import { diffMarkdown } from './formats/diff-markdown';
import { diffText } from './formats/diff-text';

/** Where it prints, and where it says what it could not do. */
export interface DiffOutput {
  print(line: string): void;
  complain(line: string): void;
}

export type DiffFormat = 'text' | 'markdown' | 'json';

/** One side: its files, and what it is called: a revision, `the work tree`, a path. */
export interface Side {
  readonly name: string;
  readonly files: Files;
  /** How links lead to a file, where there may be any. */
  readonly wayOf?: WayOf;
}

/** A file that differs; URIs null where a side has none. */
export interface Differing {
  readonly path: string;
  readonly was: string | null;
  readonly status: DiffFile['status'];
  readonly before: string | null;
  readonly after: string | null;
  readonly notes: readonly string[];
  /** A link or a submodule through which files are reached; null of a file. */
  readonly passage: Passage | null;
}

/** What is compared: two states, and the files that differ in them. */
export interface Comparing {
  readonly before: Side;
  readonly after: Side;
  readonly files: readonly Differing[];
  /** The top of the repository, where there is one: then what rests on a file is asked, too. Paths are from there. */
  readonly root: string | null;
}

/**
 * Prints what became of each file, in figures. Exit code 0 where the meaning is the same, 1 where it is another, 2 where a side cannot be
 * read or judged.
 */
export async function diff(
  comparing: Comparing,
  format: DiffFormat,
  output: DiffOutput,
  judges: Judges = ownJudges,
): Promise<number> {
  const { diff: found, told } = await compared(comparing, judges);
  const lines = {
    text: () => diffText(found.verdict, told),
    markdown: () => diffMarkdown(found.verdict, told),
    json: () => [JSON.stringify(found, null, 2)],
  }[format]();
  for (const line of lines) output.print(line);
  for (const { file } of told)
    if (file.meaning === 'unknown')
      output.complain(
        printable(
          `framewright: ${file.path}: ${file.verdict}${file.notes.map((note) => `; ${note}`).join('')}`,
        ),
      );
  return { same: 0, different: 1, unknown: 2 }[found.meaning];
}

export async function compared(
  { before, after, files, root }: Comparing,
  judges: Judges = ownJudges,
): Promise<ReturnType<typeof wholeDiff>> {
  const [was, now] = [before, after].map(
    ({ files: own }) => new Workspace(sharedReads(own, own.read), judges),
  );
  const ours = files.filter(
    (file) => file.passage !== null || root === null || fileKind(file.after ?? file.before ?? '') !== null,
  );
  const sides: { readonly file: Differing; readonly sides: Sides }[] = [];
  for (const file of ours) sides.push({ file, sides: await sidesOf(file, was, now) });
  const ways = { before: before.wayOf, after: after.wayOf };
  const resting = root === null ? null : await restingIn({ before: was, after: now, root }, ours, ways);
  const told: Told[] = [];
  for (const { file, sides: each } of sides) {
    const { unjudged, ...rests } = (await resting?.(file, each)) ?? { ...notAsked, unjudged: 0 };
    if (file.passage === null) told.push(fileDiff(each, rests));
    // most of them hold nothing that concerns a car
    else if (rests.touches.length + (rests.untouched ?? 0) > 0)
      told.push(passageDiff(file.path, file.passage, { ...rests, unjudged }));
  }
  return wholeDiff(before.name, after.name, told);
}

async function sidesOf(file: Differing, was: Workspace, now: Workspace): Promise<Sides> {
  if (file.passage !== null) return { ...file, before: null, after: null };
  const [before, after] = [await sideOf(was, file.before), await sideOf(now, file.after)];
  const notes = [
    ...file.notes,
    ...(before.note === null ? [] : [`before: ${before.note}`]),
    ...(after.note === null ? [] : [`now: ${after.note}`]),
  ];
  return { ...file, before: before.analysis, after: after.analysis, notes };
}

async function sideOf(
  workspace: Workspace,
  uri: string | null,
): Promise<{ analysis: Analysis | null; note: string | null }> {
  if (uri === null) return { analysis: null, note: null };
  const found = await workspace.analysis(uri);
  if (!('findings' in found)) return { analysis: null, note: found.message };
  return { analysis: found, note: faultIn(found.findings)?.message ?? null };
}

/** Asks what rests on a file; every file is read for that once. */
async function restingIn(
  { before, after, root }: Pick<Repository, 'before' | 'after' | 'root'>,
  files: readonly Differing[],
  ways: { readonly before?: WayOf; readonly after?: WayOf },
): Promise<(file: Differing, sides: Sides) => Promise<Resting & { readonly unjudged: number }>> {
  const none = { ...nothingRests, unjudged: 0 };
  const isAsked = files.some((file) => fileKind(file.after ?? file.before ?? '') !== 'readings');
  if (!isAsked) return async () => none;
  const repository: Repository = {
    before,
    after,
    root,
    wasCalled: new Map(
      files.flatMap((file) =>
        file.after !== null && file.before !== null && file.after !== file.before
          ? [[file.after, file.before]]
          : [],
      ),
    ),
    changedJobs: new Set(files.flatMap((file) => file.after ?? [])),
    pathOf: (uri) => decoded(uri.slice(root.length)),
  };
  const links = {
    before: await linksOf(before, root, ways.before),
    after: await linksOf(after, root, ways.after),
  };
  return async (file, sides) => {
    const uri = file.after ?? file.before;
    if (uri === null || fileKind(uri) === 'readings') return none;
    if (file.passage !== null) return restingThrough(repository, links, uri);
    const resting =
      fileKind(uri) === 'chassis'
        ? await restingOnChassis(repository, links, uri, sides)
        : await restingOnSettings(
            repository,
            links,
            [file.before, file.after].filter((each) => each !== null),
          );
    return { ...resting, unjudged: 0 };
  };
}
