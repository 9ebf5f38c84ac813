import { findingsOfChassis, findingsOfJob, findingsOfProblems } from '../findings/findings';
import type { Finding } from '../findings/finding';
import { type Inspection, inspected } from '../inspection/inspect';
import type { Chassis } from '../model/chassis';
import { type ChassisSheet, chassisSheet } from '../model/chassis-from-text';
import { chassisFrom } from '../model/chassis-merge';
import type { Job } from '../model/job';
import { jobFrom } from '../model/job-from-text';
import { jobNameProblems } from '../model/job-names';
import type { Problem } from '../model/problem';
import { type Settings, defaultSettings, settingsFrom } from '../model/settings';
import { parseText } from '../text/parse';
import type { Place, TextTree } from '../text/tree';
import { type FileKind, type Files, type ReadResult, fileKind } from './files';
import { fileName, folderOf, isInside, relativePath, resolvedUri } from './uris';

interface AnalysisBase {
  readonly uri: string;
  readonly text: string;
  readonly tree: TextTree;
  readonly findings: readonly Finding[];
  readonly settings: Settings;
  /** Files that this analysis was made from, besides its own. */
  readonly dependencies: readonly string[];
}

export interface JobAnalysis extends AnalysisBase {
  readonly kind: 'readings';
  readonly job: Job;
  /** Null where the chassis could not be read: then nothing is judged. */
  readonly chassis: Chassis | null;
  readonly inspection: Inspection | null;
}

export interface ChassisAnalysis extends AnalysisBase {
  readonly kind: 'chassis';
  readonly chassis: Chassis;
}

export interface SettingsAnalysis extends AnalysisBase {
  readonly kind: 'settings';
}

export type Analysis = JobAnalysis | ChassisAnalysis | SettingsAnalysis;

/** How deep a chain of `extends` may go. */
const deepestChain = 20;

/** The files that belong together: open ones as they are being typed, the rest as they stand. */
export class Workspace {
  private readonly open = new Map<string, { text: string; kind: FileKind | null }>();
  /** Settings that the editor adds to those of the repository. */
  overrides: Partial<Pick<Settings, 'severities' | 'decisionRule'>> = {};

  constructor(private readonly files: Files) {}

  /** An open document's text goes before the file's. `kind`: by language id, where the name says nothing. */
  setOpen(uri: string, text: string, kind: FileKind | null = null): void {
    this.open.set(uri, { text, kind });
  }

  setClosed(uri: string): void {
    this.open.delete(uri);
  }

  async read(uri: string): Promise<ReadResult> {
    const open = this.open.get(uri);
    return open ? { kind: 'text', text: open.text } : this.files.read(uri);
  }

  /** What a file is, by its name, else by what the editor says of it. */
  kindOf(uri: string): FileKind | null {
    return fileKind(uri) ?? this.open.get(uri)?.kind ?? null;
  }

  /** Reads and judges one file; a result that is no text says why. */
  async analysis(uri: string, kind: FileKind | null = this.kindOf(uri)): Promise<Analysis | Exclude<ReadResult, { kind: 'text' }>> {
    const read = await this.read(uri);
    if (read.kind !== 'text') return read;
    const settings = kind === 'settings' ? { settings: defaultSettings, uri: null } : await this.settingsFor(uri);
    const tree = parseText(read.text);
    const base = { uri, text: read.text, tree, settings: settings.settings };
    const dependencies = settings.uri === null ? [] : [settings.uri];
    if (kind === 'settings') {
      const { problems, settings: own } = settingsFrom(tree);
      return { ...base, kind, settings: own, dependencies, findings: findingsOfProblems(uri, read.text, problems, own) };
    }
    return kind === 'chassis' ? this.chassisAnalysis(base, dependencies) : this.jobAnalysis(base, dependencies);
  }

  private async chassisAnalysis(base: Pick<AnalysisBase, 'uri' | 'text' | 'tree' | 'settings'>, dependencies: string[]): Promise<ChassisAnalysis> {
    const { uri, text, settings } = base;
    const { sheets, problems } = await this.chain(chassisSheet(uri, base.tree));
    const merged = chassisFrom(sheets);
    const chassis = { ...merged, problems: [...merged.problems, ...problems] };
    const findings = findingsOfChassis(chassis, text, { chassis, settings }, settings);
    return { ...base, kind: 'chassis', chassis, findings, dependencies: [...dependencies, ...sheets.slice(1).map((sheet) => sheet.uri)] };
  }

  private async jobAnalysis(base: Pick<AnalysisBase, 'uri' | 'text' | 'tree' | 'settings'>, dependencies: string[]): Promise<JobAnalysis> {
    const { uri, text, settings } = base;
    const job = jobFrom(uri, base.tree);
    const found = await this.chassisOf(job);
    const { chassis } = found;
    const problems = [...job.problems, ...found.problems, ...(chassis ? jobNameProblems(job, chassis) : [])];
    const inspection = chassis ? inspected(job, chassis) : null;
    const context = inspection ? { inspection, settings, text } : null;
    const findings = findingsOfJob(job, text, problems, context, settings);
    return { ...base, kind: 'readings', job, chassis, inspection, findings, dependencies: [...dependencies, ...found.uris] };
  }

  private async chassisOf(job: Job): Promise<{ chassis: Chassis | null; problems: Problem[]; uris: string[] }> {
    if (job.chassisPath === null || job.chassisPlace === null) return { chassis: null, problems: [], uris: [] };
    const uri = resolvedUri(job.uri, job.chassisPath);
    const found = await this.sheetAt(job.uri, uri, job.chassisPath, job.chassisPlace);
    if ('problem' in found) return { chassis: null, problems: [found.problem], uris: [uri] };
    const { sheets } = await this.chain(found.sheet);
    return { chassis: chassisFrom(sheets), problems: [], uris: sheets.map((sheet) => sheet.uri) };
  }

  /** A chassis file with its parents in order. A parent that cannot be had ends the chain with a problem at `extends`. */
  private async chain(first: ChassisSheet): Promise<{ sheets: ChassisSheet[]; problems: Problem[] }> {
    const sheets = [first];
    for (;;) {
      const last = sheets[sheets.length - 1];
      if (last.extendsPath === null || last.extendsPlace === null) return { sheets, problems: [] };
      const uri = resolvedUri(last.uri, last.extendsPath);
      const here = first.extendsPlace!;
      if (sheets.some((sheet) => sheet.uri === uri) || sheets.length >= deepestChain) {
        const names = [...sheets.map((sheet) => fileName(sheet.uri)), fileName(uri)];
        return {
          sheets,
          problems: [{ rule: 'name/extends-cycle', place: here, message: `these files extend each other in a circle: ${names.join(' → ')}` }],
        };
      }
      const found = await this.sheetAt(last.uri, uri, last.extendsPath, here);
      if ('problem' in found) return { sheets, problems: [found.problem] };
      sheets.push(found.sheet);
    }
  }

  private async sheetAt(fromUri: string, uri: string, path: string, place: Place): Promise<{ sheet: ChassisSheet } | { problem: Problem }> {
    const problem = (message: string): { problem: Problem } => ({ problem: { rule: 'name/file-not-found', place, message } });
    const root = await this.files.root(fromUri);
    if (root !== null && !isInside(uri, root))
      return problem(`${path} lies outside the repository: keep the chassis file inside it, so that the record is complete`);
    const read = await this.read(uri);
    if (read.kind === 'text') return { sheet: chassisSheet(uri, parseText(read.text)) };
    if (read.kind !== 'missing') return problem(`${path}: ${read.message}`);
    return problem(`there is no file ${path}${await this.suggestion(fromUri, uri, root)}`);
  }

  private async suggestion(fromUri: string, uri: string, root: string | null): Promise<string> {
    if (root === null) return '';
    const same = (await this.files.list(root, [])).filter((each) => fileName(each) === fileName(uri));
    return same.length === 0 ? '' : `; did you mean ${relativePath(fromUri, same[0])}?`;
  }

  /** The nearest settings file upwards, with the editor's own choices on top. */
  private async settingsFor(uri: string): Promise<{ settings: Settings; uri: string | null }> {
    const root = await this.files.root(uri);
    let folder = folderOf(uri);
    for (let depth = 0; depth < 40; depth++) {
      const candidate = `${folder}.framewright.yaml`;
      const read = await this.read(candidate);
      if (read.kind === 'text') return { settings: this.overridden(settingsFrom(parseText(read.text)).settings), uri: candidate };
      const parent = folderOf(folder);
      if (parent === folder || parent.length < 'file:///'.length || (root !== null && !isInside(parent, root))) break;
      folder = parent;
    }
    return { settings: this.overridden(defaultSettings), uri: null };
  }

  private overridden(settings: Settings): Settings {
    return {
      ...settings,
      severities: new Map([...settings.severities, ...(this.overrides.severities ?? [])]),
      decisionRule: this.overrides.decisionRule ?? settings.decisionRule,
    };
  }
}
