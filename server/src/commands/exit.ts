import type { Finding } from '../findings/rule/finding';
import { standingOf } from '../findings/standing';
import type { Analysis } from '../workspace/workspace';

/** Rules that say a file is malformed or contradicts itself, whatever the job's state. */
const malformed = (finding: Finding): boolean => /^(text|name|chassis|settings)\//.test(finding.rule);

/** Whether a file alone makes `check` fail: it is malformed, or a closed job fails its gate; with `open`, an open job's errors count too. */
export function failsCheck(analysis: Analysis, open: boolean): boolean {
  const errors = analysis.findings.filter(
    (finding) => finding.severity === 'error' && finding.ignored === null,
  );
  if (analysis.kind !== 'readings') return errors.length > 0;
  if (errors.some(malformed)) return true;
  if (analysis.job.signOff === null) return open && errors.length > 0;
  const { inspection, settings, findings } = analysis;
  return inspection === null || standingOf({ inspection, settings, findings }).passes !== true;
}
