import type { Inspection } from '../../inspection/job/inspect';
import type { Chassis } from '../../model/chassis';
import type { Related, Replacement } from '../../model/problem';
import type { Settings, Severity } from '../../model/read/settings';
import type { Place } from '../../text/tree';

/** What `framewright explain` prints and a rule's name links to; Markdown without a heading. */
export interface RulePage {
  /** One line: what it reports. */
  readonly summary: string;
  /** What it means and why it matters in the trade. */
  readonly why: string;
  /** A few lines of a file that show it. */
  readonly example: string;
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

/** One rule: its page and its check. One file a rule, and one line in `rules.ts`. */
export interface Rule {
  /** `family/name`. */
  readonly name: string;
  readonly severity: Severity;
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
