import type { JudgingVersion } from '@framewright/schemas';
import type { Breach } from '../../inspection/gate/procedure';
import type { Inspection } from '../../inspection/job/inspect';
import type { Chassis } from '../../model/chassis';
import type { Related, Replacement } from '../../model/problem';
import type { Settings, Severity } from '../../model/read/settings';
import type { Place } from '../../text/tree';

/** Where the example of a page stands in a small file about the car that all pages speak of. Not printed. */
export interface ExampleIn {
  /**
   * Of a job: its head; an entry of its timeline; a row of a measure in which all control points stand where they belong. Of a chassis
   * file: the whole without its first line; one more point or span. Or of a settings file.
   */
  readonly place: 'head' | 'entry' | 'row' | 'chassis' | 'point' | 'span' | 'settings';
  /** Lines of the same file that it needs before it, and behind it; behind a head: the timeline. */
  readonly before?: string;
  readonly after?: string;
  /** Of the instrument, in mm; 0.2 unless it matters. */
  readonly uncertainty?: number;
  /** What is missing is reported, and no line of the example can show that: it is found without the example too. */
  readonly isAbsence?: true;
  /** Other files that it needs. */
  readonly files?: Readonly<Record<string, string>>;
}

/** What `framewright explain` prints and a rule's name links to; Markdown without a heading. */
interface RulePage {
  /** One line: what it reports. */
  readonly summary: string;
  /** What it means and why it matters in the trade. */
  readonly why: string;
  /** A few lines of a file that show it; a test runs them in their place. */
  readonly example: string;
  /** Where they stand, or why no test can run them. */
  readonly exampleIn: ExampleIn | { readonly notRun: string };
  /** How to mend it. */
  readonly mend: string;
  /** A publication, or "Common practice in the trade." */
  readonly source: string;
}

/** What a rule has to say at a place; the severity of its rule unless it says otherwise. */
export interface Draft {
  readonly place: Place;
  readonly message: string;
  readonly severity?: Severity;
  /** The first version that said it here, where that is not the version of the rule. */
  readonly since?: JudgingVersion;
  readonly related?: readonly Related[];
  readonly replacements?: readonly Replacement[];
}

/** What a rule about a job may look at. */
export interface JobContext {
  readonly inspection: Inspection;
  readonly settings: Settings;
}

export interface ChassisContext {
  readonly chassis: Chassis;
  readonly settings: Settings;
}

/**
 * Who raises a rule that has no check of its own: who reads the text, who looks up names, who reads ignore comments, who reads a
 * settings file, or the program where it fails.
 */
export type Raiser = 'text' | 'names' | 'ignores' | 'settings' | 'program';

/** One rule: its facts, its page and its check. One file a rule, and one line in `rule-list.ts`; nothing else lists rules by name. */
export interface Rule {
  /** `family/name`. */
  readonly name: string;
  readonly severity: Severity;
  /** The first version that has it. */
  readonly since: JudgingVersion;
  /** For a rule without `ofJob` and `ofChassis`, and for no other. */
  readonly raisedBy?: Raiser;
  /**
   * When an error of it makes `check` fail: always, because the file is malformed or contradicts itself, or only once the job is closed
   * (with `--open`, in an open job too).
   */
  readonly failsCheck: 'always' | 'closed';
  /** Where it is raised, nothing that this raiser finds in the file is told: it follows from the same cause. */
  readonly supersedes?: Raiser;
  /**
   * Where the gate of the job says the same, so that one cause is not counted twice: always, where it lists a breach of this kind, or
   * where it lists the reading or distance at which the finding stands.
   */
  readonly inGate?: 'always' | 'reading' | { readonly breach: Breach['kind'] };
  /** The part of a job's record that says it; without one it is listed with what else was found. */
  readonly inRecord?: 'standing' | 'stages' | 'figures';
  /** It speaks of the signature's own age: it holds for older signatures in full, where other newer rules only warn. */
  readonly aboutSignature?: true;
  /** What it marks has no use, and an editor may fade it. */
  readonly unneeded?: true;
  /** Neither settings nor an ignore comment can silence it: it guards work or sign-off. */
  readonly unchangeable?: true;
  /** Its one fix needs nobody's judgement: it changes no figure, and no point or part that one belongs to. */
  readonly safeFix?: true;
  /** Needs the whole job: held back while its text is broken. */
  readonly wholeJob?: true;
  readonly page: RulePage;
  readonly ofJob?: (context: JobContext) => Draft[];
  readonly ofChassis?: (context: ChassisContext) => Draft[];
}
