import type { JudgingVersion } from '@framewright/schemas';
import { Slot } from '../memory/slot';
import type { Chassis } from '../model/chassis';
import type { Job } from '../model/job';
import type { Problem } from '../model/problem';
import type { Settings, Severity } from '../model/read/settings';
import { isOlder } from '../model/resolve/judging';
import { errorWords } from '../text/error-words';
import { linesOf } from '../text/lines';
import { offsetsOf, type Place } from '../text/tree';
import { withIgnores } from './ignores';
import { faultFinding } from './internal/fault';
import type { Finding, TextRange } from './rule/finding';
import type { ChassisContext, Draft, JobContext, Rule } from './rule/rule';
import { ruleNamed } from './rule-list';
import { emptyReason } from './settings/empty-reason';
import { type Unheard, unheardBeside, unheardInChassis, unheardInJob } from './unheard';

interface LookedAt {
  readonly uri: string;
  readonly text: string;
  readonly settings: Settings;
  /** Of a closed job: the version of its signature. */
  readonly signedUnder: JudgingVersion | null;
}

/** Called with what a rule threw. */
type Failed = (uri: string, error: unknown) => void;

/**
 * All that is said of files by these rules. A rule that throws costs what it would have said of that file, and is named in a finding of
 * its own; what the others say is the same as without it.
 */
export class RuleRunner {
  constructor(
    private readonly rules: readonly Rule[],
    private readonly failed: Failed,
  ) {}

  /** All that is said of a job file: problems of its text and names, and what its inspection shows. */
  ofJob(
    job: Job,
    text: string,
    nameProblems: readonly Problem[],
    context: JobContext | null,
    settings: Settings,
  ): Finding[] {
    return this.finished(
      { uri: job.uri, text, settings, signedUnder: job.signOff?.judgedBy ?? null },
      nameProblems,
      (rule) => {
        if (context === null || rule.ofJob === undefined) return [];
        return rule.wholeJob && context.inspection.heldBack ? [] : rule.ofJob(context);
      },
      unheardInJob(job, context?.inspection ?? null, linesOf(text)),
    );
  }

  /** All that is said of a chassis file itself; what its parents' files hold is said there. */
  ofChassis(chassis: Chassis, text: string, context: ChassisContext, settings: Settings): Finding[] {
    return this.finished(
      { uri: chassis.uri, text, settings, signedUnder: null },
      chassis.problems,
      (rule) => rule.ofChassis?.(context) ?? [],
      unheardInChassis(chassis),
    );
  }

  /** All that is said of a settings file. */
  ofProblems(uri: string, text: string, problems: readonly Problem[], settings: Settings): Finding[] {
    return this.finished(
      { uri, text, settings, signedUnder: null },
      problems,
      () => [],
      () => false,
    );
  }

  /** The findings of a file in the order of its text: its problems, and what each rule has to say. */
  private finished(
    { uri, text, settings, signedUnder }: LookedAt,
    problems: readonly Problem[],
    draftsOf: (rule: Rule) => readonly Draft[],
    isUnheard: Unheard,
  ): Finding[] {
    const findings: Finding[] = [];
    const switchedOff: Finding[] = [];
    const add = (rule: Rule, drafts: readonly Draft[]): void => {
      const chosen = rule.unchangeable ? undefined : settings.severities.get(rule.name);
      for (const draft of drafts)
        if (chosen === 'off') switchedOff.push(findingOf(rule, draft, undefined, uri));
        else findings.push(asSigned(rule, draft, findingOf(rule, draft, chosen, uri), signedUnder));
    };
    for (const problem of problems) add(ruleNamed(problem.rule)!, [problem]);
    const failures: { rule: string; error: unknown }[] = [];
    for (const rule of this.rules) {
      try {
        add(rule, draftsOf(rule));
      } catch (error) {
        this.failed(uri, error);
        failures.push({ rule: rule.name, error });
      }
    }
    findings.push(...faults(uri, text, failures));
    const isBeside = unheardBeside(findings, linesOf(text));
    const failed = new Set(failures.map(({ rule }) => rule));
    const all = withIgnores(findings, text, {
      isKnown,
      isUnchangeable,
      isUnheard: (rule, line) => failed.has(rule) || isBeside(rule, line) || isUnheard(rule, line),
      switchedOff,
      needsWords: signedUnder !== null && !isOlder(signedUnder, emptyReason.since),
    });
    // an edit comes here with hundreds of findings, of which hardly ever one is of this rule
    const chosen = all.some(({ rule }) => rule === emptyReason.name)
      ? all.flatMap((finding) =>
          finding.rule === emptyReason.name ? chosenFor(finding, settings, signedUnder) : [finding],
        )
      : all;
    return chosen.sort(inTextOrder);
  }
}

/** What several rules build on fails in each of them: one cause, one finding. */
function faults(uri: string, text: string, failures: readonly { rule: string; error: unknown }[]): Finding[] {
  const causes = new Map<string, { rules: string[]; error: unknown }>();
  for (const { rule, error } of failures) {
    const words = errorWords(error);
    const cause = causes.get(words);
    if (cause) cause.rules.push(rule);
    else causes.set(words, { rules: [rule], error });
  }
  return [...causes.values()].map(({ rules, error }) =>
    faultFinding(uri, text, {
      at: rules.length === 1 ? 'that rule' : 'what these rules build on',
      rules,
      error,
    }),
  );
}

/**
 * Of a draft that points nowhere else, the finding that was made of it last: of hundreds an edit changes a few, and what is made of a finding can
 * be kept with it.
 */
const plainFindings = new Slot<Draft, Finding>();

function findingOf(rule: Rule, draft: Draft, chosen: Severity | undefined, uri: string): Finding {
  const severity = severityOf(rule, draft, chosen);
  const isPlain =
    (draft.related === undefined || draft.related.length === 0) && draft.replacements === undefined;
  if (!isPlain) return findingFrom(rule, draft, severity, uri);
  const known = plainFindings.get(draft);
  if (known?.rule === rule.name && known.severity === severity && standsAt(known.range, draft.place))
    return known;
  const finding = findingFrom(rule, draft, severity, uri);
  plainFindings.set(draft, finding);
  return finding;
}

const standsAt = ({ start, end }: TextRange, { block, endBlock, start: from, end: to }: Place): boolean =>
  start === block.start + from && end === (endBlock ?? block).start + to;

const findingFrom = (rule: Rule, draft: Draft, severity: Severity, uri: string): Finding => ({
  rule: rule.name,
  severity,
  message: draft.message,
  range: offsetsOf(draft.place),
  related:
    draft.related?.map((related) => ({
      uri: related.uri ?? uri,
      message: related.message,
      range: offsetsOf(related.place),
    })) ?? [],
  ignored: null,
  replacements: draft.replacements ?? [],
});

/** What a rule itself lowers at a place (an earlier stage, a peak) stays lowered. */
function severityOf(rule: Rule, draft: Draft, chosen: Severity | undefined): Severity {
  const usual = chosen ?? rule.severity;
  return draft.severity === undefined || draft.severity === rule.severity ? usual : draft.severity;
}

/** What is said of a reason, as the settings and the age of the signature have it. */
function chosenFor(finding: Finding, settings: Settings, signedUnder: JudgingVersion | null): Finding[] {
  const chosen = settings.severities.get(emptyReason.name) ?? finding.severity;
  return chosen === 'off' ? [] : [asSigned(emptyReason, {}, { ...finding, severity: chosen }, signedUnder)];
}

/** What was signed stays signed: a rule that came later warns, and says why it does no more. */
function asSigned(
  rule: Rule,
  { since = rule.since }: Pick<Draft, 'since'>,
  finding: Finding,
  signedUnder: JudgingVersion | null,
): Finding {
  const isNewer = signedUnder !== null && !rule.aboutSignature && isOlder(signedUnder, since);
  if (!isNewer || finding.severity === 'information') return finding;
  return { ...finding, severity: 'warning', message: `${finding.message} (newer than this signature)` };
}

const isUnchangeable = (name: string): boolean => ruleNamed(name)?.unchangeable === true;
const isKnown = (name: string): boolean => ruleNamed(name) !== undefined;

const inTextOrder = (a: Finding, b: Finding): number =>
  a.range.start - b.range.start || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0);
