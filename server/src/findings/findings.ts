import type { Chassis } from '../model/chassis';
import type { Job } from '../model/job';
import type { Problem } from '../model/problem';
import type { Settings, Severity } from '../model/settings';
import { offsetsOf } from '../text/tree';
import type { Finding } from './finding';
import { withIgnores } from './ignores';
import type { ChassisContext, Draft, JobContext, Rule } from './rule';
import { ruleNamed, rules } from './rules';

/** All that is said of a job file: problems of its text and names, and what its inspection shows. */
export function findingsOfJob(
  job: Job,
  text: string,
  nameProblems: readonly Problem[],
  context: JobContext | null,
  settings: Settings,
): Finding[] {
  const drafted = drafts((rule) => {
    if (context === null || rule.ofJob === undefined) return [];
    return rule.wholeJob && context.inspection.heldBack ? [] : rule.ofJob(context);
  });
  return finished(job.uri, text, [...ofProblems(nameProblems), ...drafted], settings);
}

/** All that is said of a chassis file itself; what its parents' files hold is said there. */
export function findingsOfChassis(
  chassis: Chassis,
  text: string,
  context: ChassisContext,
  settings: Settings,
): Finding[] {
  const drafted = drafts((rule) => rule.ofChassis?.(context) ?? []);
  return finished(chassis.uri, text, [...ofProblems(chassis.problems), ...drafted], settings);
}

/** All that is said of a settings file. */
export const findingsOfProblems = (
  uri: string,
  text: string,
  problems: readonly Problem[],
  settings: Settings,
): Finding[] => finished(uri, text, ofProblems(problems), settings);

type Drafted = { rule: Rule; draft: Draft };

const drafts = (of: (rule: Rule) => Draft[]): Drafted[] =>
  rules.flatMap((rule) => of(rule).map((draft) => ({ rule, draft })));

const ofProblems = (problems: readonly Problem[]): Drafted[] =>
  problems.map((problem) => ({ rule: ruleNamed(problem.rule)!, draft: problem }));

function finished(uri: string, text: string, drafted: readonly Drafted[], settings: Settings): Finding[] {
  const findings = drafted.flatMap(({ rule, draft }): Finding[] => {
    const chosen = rule.unchangeable ? undefined : settings.severities.get(rule.name);
    if (chosen === 'off') return [];
    return [
      {
        rule: rule.name,
        severity: severityOf(rule, draft, chosen),
        message: draft.message,
        range: offsetsOf(draft.place),
        related: (draft.related ?? []).map((related) => ({
          uri: related.uri ?? uri,
          message: related.message,
          range: offsetsOf(related.place),
        })),
        ignored: null,
        replacements: draft.replacements ?? [],
      },
    ];
  });
  return withIgnores(findings, text, isUnchangeable, isKnown).sort(inTextOrder);
}

/** What a rule itself lowers at a place (an earlier stage, a peak) stays lowered. */
function severityOf(rule: Rule, draft: Draft, chosen: Severity | undefined): Severity {
  const usual = chosen ?? rule.severity;
  return draft.severity === undefined || draft.severity === rule.severity ? usual : draft.severity;
}

const isUnchangeable = (name: string): boolean => ruleNamed(name)?.unchangeable === true;
const isKnown = (name: string): boolean => ruleNamed(name) !== undefined;

const inTextOrder = (a: Finding, b: Finding): number =>
  a.range.start - b.range.start || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0);
