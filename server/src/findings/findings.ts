import type { Chassis } from '../model/chassis';
import type { Job } from '../model/job';
import type { Problem } from '../model/problem';
import type { Settings, Severity } from '../model/read/settings';
import { linesOf } from '../text/lines';
import { offsetsOf } from '../text/tree';
import { withIgnores } from './ignores';
import type { Finding } from './rule/finding';
import type { ChassisContext, Draft, JobContext, Rule } from './rule/rule';
import { ruleNamed, rules } from './rules';
import { type Unheard, unheardBeside, unheardInChassis, unheardInJob } from './unheard';

/** All that is said of a job file: problems of its text and names, and what its inspection shows. */
export const findingsOfJob = (
  job: Job,
  text: string,
  nameProblems: readonly Problem[],
  context: JobContext | null,
  settings: Settings,
): Finding[] =>
  finished(
    { uri: job.uri, text, settings },
    nameProblems,
    (rule) => {
      if (context === null || rule.ofJob === undefined) return [];
      return rule.wholeJob && context.inspection.heldBack ? [] : rule.ofJob(context);
    },
    unheardInJob(job, context?.inspection ?? null, linesOf(text)),
  );

/** All that is said of a chassis file itself; what its parents' files hold is said there. */
export const findingsOfChassis = (
  chassis: Chassis,
  text: string,
  context: ChassisContext,
  settings: Settings,
): Finding[] =>
  finished(
    { uri: chassis.uri, text, settings },
    chassis.problems,
    (rule) => rule.ofChassis?.(context) ?? [],
    unheardInChassis(chassis),
  );

/** All that is said of a settings file. */
export const findingsOfProblems = (
  uri: string,
  text: string,
  problems: readonly Problem[],
  settings: Settings,
): Finding[] =>
  finished(
    { uri, text, settings },
    problems,
    () => [],
    () => false,
  );

/** The findings of a file in the order of its text: its problems, and what each rule has to say. */
function finished(
  { uri, text, settings }: { uri: string; text: string; settings: Settings },
  problems: readonly Problem[],
  draftsOf: (rule: Rule) => readonly Draft[],
  isUnheard: Unheard,
): Finding[] {
  const findings: Finding[] = [];
  const switchedOff: Finding[] = [];
  const add = (rule: Rule, draft: Draft): void => {
    const chosen = rule.unchangeable ? undefined : settings.severities.get(rule.name);
    if (chosen === 'off') switchedOff.push(findingOf(rule, draft, undefined, uri));
    else findings.push(findingOf(rule, draft, chosen, uri));
  };
  for (const problem of problems) add(ruleNamed(problem.rule)!, problem);
  for (const rule of rules) for (const draft of draftsOf(rule)) add(rule, draft);
  const isBeside = unheardBeside(findings, linesOf(text));
  return withIgnores(findings, text, {
    isKnown,
    isUnchangeable,
    isUnheard: (rule, line) => isBeside(rule, line) || isUnheard(rule, line),
    switchedOff,
  }).sort(inTextOrder);
}

const findingOf = (rule: Rule, draft: Draft, chosen: Severity | undefined, uri: string): Finding => ({
  rule: rule.name,
  severity: severityOf(rule, draft, chosen),
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

const isUnchangeable = (name: string): boolean => ruleNamed(name)?.unchangeable === true;
const isKnown = (name: string): boolean => ruleNamed(name) !== undefined;

const inTextOrder = (a: Finding, b: Finding): number =>
  a.range.start - b.range.start || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0);
