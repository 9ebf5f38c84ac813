import type { Finding } from '../findings/rule/finding';
import { ruleNamed } from '../findings/rule-list';
import { standingOf } from '../findings/standing';
import type { Analysis } from '../workspace/workspace';

/** Whether it says that a file is malformed or contradicts itself, whatever the job's state. */
const alwaysFails = ({ rule }: Finding): boolean => ruleNamed(rule)?.failsCheck === 'always';

/** Whether a file alone makes `check` fail: it is malformed, or a closed job fails its gate; with `open`, an open job's errors count too. */
export function failsCheck(analysis: Analysis, open: boolean): boolean {
  const errors = analysis.findings.filter(
    (finding) => finding.severity === 'error' && finding.ignored === null,
  );
  if (analysis.kind !== 'readings' || analysis.job.signOff === null)
    return errors.some((finding) => failsAlone(finding, analysis, open));
  if (errors.some(alwaysFails)) return true;
  const { inspection, settings, findings } = analysis;
  return inspection === null || standingOf({ inspection, settings, findings }).passes !== true;
}

/** Whether a finding by itself makes `check` fail, whatever else is found. */
export function failsAlone(finding: Finding, analysis: Analysis, open: boolean): boolean {
  if (finding.severity !== 'error' || finding.ignored !== null) return false;
  return analysis.kind !== 'readings' || open || analysis.job.signOff !== null || alwaysFails(finding);
}
