import { type Failure, faultFinding } from '../findings/internal/fault';
import type { Finding } from '../findings/rule/finding';
import { ruleNameProblems } from '../findings/rule-names';
import { RuleRunner } from '../findings/rule-runner';
import type { Inspection } from '../inspection/job/inspect';
import { MostRecent } from '../memory/most-recent';
import type { Chassis } from '../model/chassis';
import type { ChassisSheet } from '../model/chassis-sheet';
import type { Job } from '../model/job';
import { jobFrom } from '../model/read/job-from-text';
import { nestedSettings } from '../model/read/nested-settings';
import { defaultSettings, type Settings, settingsFrom } from '../model/read/settings';
import { jobNameProblems } from '../model/resolve/job-names';
import { placedJob } from '../model/resolve/job-places';
import { errorWords } from '../text/error-words';
import type { TextTree } from '../text/tree';
import { ChassisChains } from './chassis-chain';
import { type FileKind, type Files, fileKind, type Listing, type ReadResult } from './files';
import { ignoreProblems } from './ignore-problems';
import { filesLookedFor, type LookedFor, settingsPlaces } from './ignored';
import { type Judges, ownJudges } from './judges';
import { liesOutside } from './outside';
import { canonicalUri } from './uris';

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
  /** Null where it could not be read: then nothing is judged. */
  readonly chassis: Chassis | null;
  /** Null where nothing is judged: without a chassis, or where the program failed, as a finding says. */
  readonly inspection: Inspection | null;
}

export interface ChassisAnalysis extends AnalysisBase {
  readonly kind: 'chassis';
  readonly chassis: Chassis;
}

interface SettingsAnalysis extends AnalysisBase {
  readonly kind: 'settings';
}

export type Analysis = JobAnalysis | ChassisAnalysis | SettingsAnalysis;

/** The program failed before there was anything to show of a file: nothing of it is judged. */
export interface Fault {
  readonly kind: 'fault';
  readonly uri: string;
  readonly text: string;
  /** What the finding says. */
  readonly message: string;
  readonly finding: Finding;
}

export const faultOf = (uri: string, text: string, at: string, error: unknown): Fault => {
  const finding = faultFinding(uri, text, { at, rules: [], error });
  return { kind: 'fault', uri, text, message: finding.message, finding };
};

/** A file that is no text, and why. */
type Unread = Exclude<ReadResult, { kind: 'text' }>;

/** Where the look at a file has come to: what a throw is the fault of. */
type Steps = { at: Failure['at'] };

/** A text and the name under which its tree is kept for the next one. */
interface Kept {
  readonly text: string;
  readonly key: string;
}

/** A file as read, not judged. */
export type Unjudged = { readonly uri: string; readonly text: string; readonly tree: TextTree } & (
  | { readonly kind: 'readings'; readonly job: Job }
  | { readonly kind: 'chassis'; readonly sheet: ChassisSheet }
  | { readonly kind: 'settings' }
);

/** So many settings files are kept as they were last read. */
const mostSettings = 50;

/** The files that belong together: open ones as they are being typed, the rest as they stand. */
export class Workspace {
  private readonly open = new Map<string, { uri: string; text: string; kind: FileKind | null }>();
  /** Severities that the editor's user chose, by rule name. */
  editorSeverities: Settings['severities'] = new Map();
  /** Told what was thrown at a file, for a log; a finding says it too. */
  failed: (uri: string, error: unknown) => void = () => {};

  private readonly chains: ChassisChains;
  /** Of open documents, as they were last read. */
  private readonly trees = new Map<string, TextTree>();

  /** As they were last read: the files of a folder have them in common. */
  private readonly settingsRead = new MostRecent<string, { text: string; settings: Settings }>(mostSettings);

  private readonly findings: RuleRunner;

  constructor(
    private readonly files: Files,
    readonly judges: Judges = ownJudges,
  ) {
    this.chains = new ChassisChains(files, (uri) => this.read(uri), judges.parse);
    this.findings = new RuleRunner(judges.rules, (uri, error) => this.failed(uri, error));
  }

  /** An open document's text goes before the file's. `kind`: by language id, where the name says nothing. */
  setOpen(uri: string, text: string, kind: FileKind | null = null): void {
    this.open.set(canonicalUri(uri), { uri, text, kind });
  }

  setClosed(uri: string): void {
    this.open.delete(canonicalUri(uri));
    this.trees.delete(canonicalUri(uri));
    this.trees.delete(insteadKey(uri));
  }

  async read(uri: string): Promise<ReadResult> {
    const open = this.open.get(canonicalUri(uri));
    if (open) return { kind: 'text', text: open.text };
    try {
      return await this.files.read(uri);
    } catch (error) {
      // an editor that is asked for a file may refuse
      return { kind: 'unreadable', message: `it cannot be read (${errorWords(error)})` };
    }
  }

  /** A file that an analysis was just made from, as it was read for that. */
  async readAlready(uri: string): Promise<ReadResult> {
    const text = this.chains.textOf(uri);
    return text === null ? this.read(uri) : { kind: 'text', text };
  }

  /** What a file is, by its name, else by what the editor says of it, else by what it says itself while it is open. */
  kindOf(uri: string): FileKind | null {
    const open = this.open.get(canonicalUri(uri));
    return fileKind(uri) ?? open?.kind ?? (open ? kindWritten(open.text) : null);
  }

  /** Open documents, as the editor spells their URIs. */
  openUris(): string[] {
    return [...this.open.values()].map(({ uri }) => uri);
  }

  isOpen(uri: string): boolean {
    return this.open.has(canonicalUri(uri));
  }

  /** Every file of ours below a folder, as it stands there; `whole`: in the folders that settings ignore too. */
  async filesIn(folderUri: string, whole: boolean): Promise<Listing> {
    return whole ? this.files.list(folderUri, []) : this.lookedFor(folderUri, false);
  }

  /** The files that a folder's name stands for; `isTold`: on the command line, where `.gitignore` counts and all that is left out is named. */
  lookedFor(folderUri: string, isTold: boolean): Promise<LookedFor> {
    const { list, root } = this.files;
    return filesLookedFor({ list, root, read: (uri) => this.read(uri) }, folderUri, isTold);
  }

  /** What a settings file says itself; null where there is none. */
  private async settingsAt(uri: string): Promise<Settings | null> {
    const read = await this.read(uri);
    return read.kind === 'text' ? this.settingsIn(uri, read.text) : null;
  }

  /** The folder of everything that belongs together with a file; null where there is none. */
  rootOf(uri: string): Promise<string | null> {
    return this.files.root(uri);
  }

  /** Whether what a path in a file leads to does not belong together with that file, and is not read for it. */
  async isOutside(uri: string, fromUri: string): Promise<boolean> {
    return liesOutside(this.files, uri, fromUri, await this.rootOf(fromUri));
  }

  /** Reads one file without judging it: for questions about many. Nothing of a closed job is kept. */
  async unjudged(uri: string, kind: FileKind | null = this.kindOf(uri)): Promise<Unjudged | Unread> {
    const read = await this.read(uri);
    if (read.kind !== 'text') return read;
    const { text } = read;
    if (kind === 'chassis') return { kind, uri, text, ...this.chains.sheetFrom(uri, text) };
    const tree = this.treeOf(uri, { text, key: canonicalUri(uri) });
    return kind === 'readings'
      ? { kind, uri, text, tree, job: jobFrom(uri, tree) }
      : { kind: 'settings', uri, text, tree };
  }

  /**
   * Reads and judges one file; a result that is no analysis says why. Whatever the program throws at the file stays with the file.
   * @param pause lets others go between the steps of a job, where nobody waits for this one; texts are those at the start
   */
  async analysis(
    uri: string,
    kind: FileKind | null = this.kindOf(uri),
    pause: (() => Promise<void>) | null = null,
  ): Promise<Analysis | Fault | Unread> {
    const read = await this.read(uri);
    if (read.kind !== 'text') return read;
    return this.judgedOrFault(uri, { text: read.text, key: canonicalUri(uri) }, kind, pause);
  }

  /** The same of an open document with another text in its place: nothing that decides may be asked of that. */
  analysisInstead(uri: string, text: string): Promise<Analysis | Fault> {
    return this.judgedOrFault(uri, { text, key: insteadKey(uri) }, this.kindOf(uri), null);
  }

  /** One file with another text, among the rest as it stands now, judged apart: what is answered holds while this one's files are edited. */
  analysisApart(uri: string, text: string): Promise<Analysis | Fault | Unread> {
    const { files } = this;
    const read = async (each: string): Promise<ReadResult> =>
      canonicalUri(each) === canonicalUri(uri) ? { kind: 'text', text } : this.read(each);
    const apart = new Workspace({ ...files, read }, this.judges);
    apart.editorSeverities = this.editorSeverities;
    return apart.analysis(uri, this.kindOf(uri));
  }

  private async judgedOrFault(
    uri: string,
    kept: Kept,
    kind: FileKind | null,
    pause: (() => Promise<void>) | null,
  ): Promise<Analysis | Fault> {
    const steps: Steps = { at: 'its settings' };
    try {
      return await this.judged(uri, kept, kind, pause, steps);
    } catch (error) {
      // the next text is read anew
      this.trees.delete(kept.key);
      this.failed(uri, error);
      return faultOf(uri, kept.text, steps.at, error);
    }
  }

  private async judged(
    uri: string,
    kept: Kept,
    kind: FileKind | null,
    pause: (() => Promise<void>) | null,
    steps: Steps,
  ): Promise<Analysis> {
    const { text } = kept;
    const settings =
      kind === 'settings' ? { settings: defaultSettings, uris: [] } : await this.settingsFor(uri);
    steps.at = 'reading its text';
    const tree = kind === 'chassis' ? this.chains.sheetFrom(uri, text).tree : this.treeOf(uri, kept);
    const is = kind ?? kindWritten(text) ?? 'readings';
    const base = { uri, text, tree, settings: settings.settings };
    const dependencies = [...settings.uris];
    if (kind === 'settings') {
      const { problems, settings: own } = settingsFrom(tree, uri);
      const ignores = await ignoreProblems(this.files, uri, tree);
      const all = [...problems, ...ruleNameProblems(tree), ...ignores];
      const findings = this.findings.ofProblems(uri, text, all, own);
      return { ...base, kind, settings: own, dependencies, findings };
    }
    return is === 'chassis'
      ? this.chassisAnalysis(base, dependencies, steps)
      : this.jobAnalysis(base, dependencies, pause, steps);
  }

  /** An open document's tree takes over from its last one what an edit left alone. */
  private treeOf(uri: string, { text, key }: Kept): TextTree {
    const tree = this.judges.parse(text, this.trees.get(key));
    if (this.isOpen(uri)) this.trees.set(key, tree);
    return tree;
  }

  private async chassisAnalysis(
    base: Pick<AnalysisBase, 'uri' | 'text' | 'tree' | 'settings'>,
    dependencies: string[],
    steps: Steps,
  ): Promise<ChassisAnalysis> {
    const { uri, text, settings } = base;
    steps.at = 'its chassis files';
    const { chassis, uris } = await this.chains.bodyOf(this.chains.sheetFrom(uri, text).sheet);
    steps.at = 'its findings';
    const findings = this.findings.ofChassis(chassis, text, { chassis, settings }, settings);
    return { ...base, kind: 'chassis', chassis, findings, dependencies: [...dependencies, ...uris] };
  }

  private async jobAnalysis(
    base: Pick<AnalysisBase, 'uri' | 'text' | 'tree' | 'settings'>,
    dependencies: string[],
    pause: (() => Promise<void>) | null,
    steps: Steps,
  ): Promise<JobAnalysis> {
    const { uri, text, settings } = base;
    const asWritten = jobFrom(uri, base.tree);
    steps.at = 'its chassis files';
    const found = await this.chains.ofJob(asWritten);
    const { chassis } = found;
    const job = chassis ? placedJob(asWritten, chassis) : asWritten;
    if (pause) await pause();
    const problems = [...job.problems, ...found.problems, ...(chassis ? jobNameProblems(job, chassis) : [])];
    const { inspection, fault } = chassis
      ? this.inspection(job, chassis, text)
      : { inspection: null, fault: [] };
    if (pause) await pause();
    const context = inspection ? { inspection, settings } : null;
    steps.at = 'its findings';
    const findings = [...fault, ...this.findings.ofJob(job, text, problems, context, settings)];
    return {
      ...base,
      kind: 'readings',
      job,
      chassis,
      inspection,
      findings,
      dependencies: [...dependencies, ...found.uris],
    };
  }

  /** What is wrong in text and names is told even where the inspection fails. */
  private inspection(
    job: Job,
    chassis: Chassis,
    text: string,
  ): { inspection: Inspection | null; fault: readonly Finding[] } {
    try {
      return { inspection: this.judges.inspect(job, chassis), fault: [] };
    } catch (error) {
      this.failed(job.uri, error);
      const finding = faultFinding(job.uri, text, { at: 'the inspection', rules: [], error });
      return { inspection: null, fault: [finding] };
    }
  }

  /** What the settings files above a file say together, with the editor's own choices below them. */
  private async settingsFor(uri: string): Promise<{ settings: Settings; uris: readonly string[] }> {
    const root = await this.files.root(uri);
    const found: Settings[] = [];
    const uris: string[] = [];
    for (const candidate of await settingsPlaces(this.files, uri)) {
      const settings = await this.settingsAt(candidate);
      // what a link brings in from elsewhere is no more part of the record than a chassis file from there
      if (settings === null || (root !== null && (await this.files.leadsOut(candidate, root)))) continue;
      found.push(settings);
      uris.push(candidate);
    }
    return { settings: this.overridden(nestedSettings(found)), uris };
  }

  private settingsIn(uri: string, text: string): Settings {
    const known = this.settingsRead.get(uri);
    if (known?.text === text) return known.settings;
    const { settings } = settingsFrom(this.judges.parse(text), uri);
    this.settingsRead.set(uri, { text, settings });
    return settings;
  }

  /** A repository's own choice goes before the editor's. */
  private overridden(settings: Settings): Settings {
    return { ...settings, severities: new Map([...this.editorSeverities, ...settings.severities]) };
  }
}

/** No URI begins so. */
const insteadKey = (uri: string): string => `instead of ${canonicalUri(uri)}`;

/** What a file says that it is, where its name does not. */
function kindWritten(text: string): FileKind | null {
  const word = /^\uFEFF?framewright[ \t]*:[ \t]*["']?(chassis|readings)\//m.exec(text)?.[1];
  return word === 'chassis' || word === 'readings' ? word : null;
}
