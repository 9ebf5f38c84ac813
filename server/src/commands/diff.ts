import type { DiffFile } from '@framewright/schemas';
import { fileDiff, notAsked, nothingRests, type Resting, type Sides, type Told } from '../diff/file-diff';
import { wholeDiff } from '../diff/whole';
import { faultIn } from '../findings/internal/fault';
import { decoded } from '../model/file-name';
import { printable } from '../text/printable';
import { type Files, fileKind } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
import { sharedReads } from '../workspace/shared-reads';
import { type Analysis, Workspace } from '../workspace/workspace';
import { linksOf, type Repository, restingOnChassis, restingOnSettings } from './diff-sides';
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
}

/** A file that differs; URIs null where a side has none. */
export interface Differing {
  readonly path: string;
  readonly was: string | null;
  readonly status: DiffFile['status'];
  readonly before: string | null;
  readonly after: string | null;
  readonly notes: readonly string[];
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
  const ours = files.filter((file) => fileKind(file.after ?? file.before ?? '') !== null || root === null);
  const sides: { readonly file: Differing; readonly sides: Sides }[] = [];
  for (const file of ours) sides.push({ file, sides: await sidesOf(file, was, now) });
  const resting = root === null ? null : await restingIn({ before: was, after: now, root }, ours);
  const told: Told[] = [];
  for (const { file, sides: each } of sides)
    told.push(fileDiff(each, (await resting?.(file, each)) ?? notAsked));
  return wholeDiff(before.name, after.name, told);
}

async function sidesOf(file: Differing, was: Workspace, now: Workspace): Promise<Sides> {
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
): Promise<(file: Differing, sides: Sides) => Promise<Resting>> {
  const isAsked = files.some((file) => fileKind(file.after ?? file.before ?? '') !== 'readings');
  if (!isAsked) return async () => nothingRests;
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
  const links = { before: await linksOf(before, root), after: await linksOf(after, root) };
  return async (file, sides) => {
    const uri = file.after ?? file.before;
    if (uri === null || fileKind(uri) === 'readings') return nothingRests;
    return fileKind(uri) === 'chassis'
      ? restingOnChassis(repository, links, uri, sides)
      : restingOnSettings(repository, links.after, uri);
  };
}
