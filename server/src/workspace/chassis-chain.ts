import { raiserOf, ruleNamed } from '../findings/rule-list';
import { derived } from '../memory/derived';
import { MostRecent } from '../memory/most-recent';
import type { Chassis } from '../model/chassis';
import type { ChassisSheet } from '../model/chassis-sheet';
import { fileName } from '../model/file-name';
import type { Job } from '../model/job';
import { nearest } from '../model/names';
import type { Problem, Replacement } from '../model/problem';
import { chassisSheet } from '../model/read/chassis-from-text';
import { chassisFrom } from '../model/resolve/chassis-merge';
import type { Place, TextTree } from '../text/tree';
import type { parseText } from '../text/yaml/parse';
import { type Files, fileKind, type ReadResult } from './files';
import { liesOutside } from './outside';
import { hasFolder, relativePath, resolvedUri, schemeOf } from './uris';

/** How deep a chain of `extends` may go. */
const deepestChain = 20;

/** A chassis file with its parents in order, as far as they could be read. */
interface Chain {
  readonly sheets: readonly ChassisSheet[];
  /** Every file looked for, found or not. */
  readonly uris: readonly string[];
  /** Why the chain ends before its end, at the first file's `extends`; null where it is whole. */
  readonly problem: Problem | null;
}

/** So many chassis files are kept as they were last read; the ones used longest ago go first. */
const mostKept = 100;

/** Finds and reads the chassis files that a job or another chassis file names. */
export class ChassisChains {
  private readonly kept = new MostRecent<string, { tree: TextTree; sheet: ChassisSheet }>(mostKept);
  /** The body of the same sheets is the same body. */
  private readonly body = derived((_: ChassisSheet, ...sheets: readonly ChassisSheet[]) =>
    chassisFrom(sheets),
  );

  constructor(
    private readonly files: Files,
    private readonly read: (uri: string) => Promise<ReadResult>,
    private readonly parse: typeof parseText,
  ) {}

  /** A chassis file as read; the same text gives the same sheet, so that what was concluded from it still holds. */
  sheetFrom(uri: string, text: string): { tree: TextTree; sheet: ChassisSheet } {
    const last = this.kept.get(uri);
    const tree = this.parse(text, last?.tree);
    const now = last?.tree === tree ? last : { tree, sheet: chassisSheet(uri, tree) };
    this.kept.set(uri, now);
    return now;
  }

  /** A chassis file's text as it was last read; null where it was not, or long ago. */
  textOf(uri: string): string | null {
    return this.kept.get(uri)?.tree.text ?? null;
  }

  /** The body of a chassis file with what is wrong in it, its names and its chain. Other files: those that it was made from. */
  async bodyOf(first: ChassisSheet): Promise<{ chassis: Chassis; uris: readonly string[] }> {
    const chain = await this.chainFrom(first);
    const merged = this.body(chain.sheets[0], ...chain.sheets);
    if (chain.problem === null) return { chassis: merged, uris: chain.uris };
    // names may stand in the file that could not be had: one cause, one finding
    const follows = ruleNamed(chain.problem.rule)?.supersedes;
    const own = merged.problems.filter(({ rule }) => follows === undefined || raiserOf(rule) !== follows);
    const problems = [...own, chain.problem];
    return { chassis: { ...merged, problems, broken: true }, uris: chain.uris };
  }

  /** The body that a job is judged by; null where it could not be had whole. */
  async ofJob(
    job: Job,
  ): Promise<{ chassis: Chassis | null; problems: readonly Problem[]; uris: readonly string[] }> {
    const { chassisPath: path, chassisPlace: place } = job;
    if (path === null || place === null) return { chassis: null, problems: [], uris: [] };
    const uri = resolvedUri(job.uri, path);
    const found = await this.sheetAt(job.uri, uri, path, place);
    if ('problem' in found) return { chassis: null, problems: [found.problem], uris: [uri] };
    const { sheets, uris: parents, problem } = await this.chainFrom(found.sheet);
    const uris = [uri, ...parents];
    if (problem !== null) {
      const message = `${fileName(uri)} cannot be used: ${problem.message}`;
      const related = [{ uri, place: problem.place, message: 'named here' }];
      return { chassis: null, problems: [{ rule: problem.rule, place, message, related }], uris };
    }
    return { chassis: this.body(sheets[0], ...sheets), problems: [], uris };
  }

  private async chainFrom(first: ChassisSheet): Promise<Chain> {
    const sheets = [first];
    const uris: string[] = [];
    for (;;) {
      const last = sheets[sheets.length - 1];
      const { extendsPath, extendsPlace } = last;
      if (extendsPath === null || extendsPlace === null) return { sheets, uris, problem: null };
      const uri = resolvedUri(last.uri, extendsPath);
      // what is wrong further up is told at the file's own `extends`, which leads there
      const place = first.extendsPlace ?? extendsPlace;
      const circle = sheets.findIndex((sheet) => sheet.uri === uri);
      if (circle >= 0 || sheets.length >= deepestChain) {
        const names = [...sheets.slice(Math.max(circle, 0)), { uri }].map((sheet) => fileName(sheet.uri));
        const message =
          circle >= 0
            ? `${names.length === 2 ? 'this file extends itself' : 'these files extend each other in a circle'}: ${names.join(' → ')}`
            : `more than ${deepestChain} files extend each other here`;
        return { sheets, uris, problem: { rule: 'name/extends-cycle', place, message } };
      }
      uris.push(uri);
      const found = await this.sheetAt(
        last.uri,
        uri,
        extendsPath,
        place,
        new Set(sheets.map((sheet) => sheet.uri)),
      );
      if ('problem' in found) {
        const { problem } = found;
        const isOwn = last === first;
        return {
          sheets,
          uris,
          problem: isOwn
            ? problem
            : { ...problem, message: `${fileName(last.uri)}: ${problem.message}`, replacements: undefined },
        };
      }
      sheets.push(found.sheet);
    }
  }

  private async sheetAt(
    fromUri: string,
    uri: string,
    path: string,
    place: Place,
    notMeant: ReadonlySet<string> = new Set(),
  ): Promise<{ sheet: ChassisSheet } | { problem: Problem }> {
    const problem = (message: string, replacements?: readonly Replacement[]): { problem: Problem } => ({
      problem: { rule: 'name/file-not-found', place, message, replacements },
    });
    if (!hasFolder(fromUri)) return problem(unsaved);
    const root = await this.files.root(fromUri);
    if (await liesOutside(this.files, uri, fromUri, root))
      return problem(
        `${path} lies outside the repository: keep the chassis file inside it, so that the record is complete`,
      );
    const read = await this.read(uri);
    if (read.kind === 'missing') {
      if (schemeOf(fromUri) === 'untitled') return problem(unsaved);
      const meant = await this.pathMeant(fromUri, uri, root, notMeant);
      if (meant === null) return problem(`there is no file ${path}`);
      return problem(`there is no file ${path}; did you mean ${meant}?`, [
        { title: `Change to ${meant}`, place, text: asScalar(meant) },
      ]);
    }
    if (read.kind !== 'text') return problem(`${path}: ${read.message}`);
    const { tree, sheet } = this.sheetFrom(uri, read.text);
    if (tree.root === null) return problem(`${path}: ${tree.problems[0]?.message ?? 'the file is empty'}`);
    return sheet.isChassis
      ? { sheet }
      : problem(`${path} is not a chassis file: its first line does not say \`framewright: chassis/1\``);
  }

  /** The chassis file elsewhere that has the same name, else one whose name is near. */
  private async pathMeant(
    fromUri: string,
    uri: string,
    root: string | null,
    notMeant: ReadonlySet<string>,
  ): Promise<string | null> {
    if (root === null) return null;
    const others = (await this.files.list(root, [])).uris.filter(
      (each) => fileKind(each) === 'chassis' && !notMeant.has(each),
    );
    const byStem = new Map(others.map((each) => [stemOf(fileName(each)), each]));
    const stem = stemOf(fileName(uri));
    const near = byStem.get(stem) ?? byStem.get(nearest(stem, byStem.keys()) ?? '');
    return near === undefined ? null : relativePath(fromUri, near);
  }
}

const unsaved = 'a path starts from the folder of its own file: save this file first';

const stemOf = (name: string): string => name.replace(/(\.chassis)?(\.ya?ml)?$/, '');

const asScalar = (path: string): string => (/^[\w./][\w./-]*$/.test(path) ? path : JSON.stringify(path));
