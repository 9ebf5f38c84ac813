import { coverage95 } from '../inspection/alignment/verdict';
import type { Inspection } from '../inspection/job/inspect';
import { observedPulls } from '../inspection/pulls/observed-pulls';
import { type SpringBackRow, springBack } from '../inspection/pulls/spring-back';
import { figure } from '../model/units';
import { lengthRangeText } from './wording';

/**
 * One line for a summary: `relieved: 6.2 mm back on release (5.1 to 7.3 mm), 31 % ±8 % of the move, 2 pulls`. Null where no pull of the
 * part showed any.
 */
export function springBackSummary(inspection: Inspection, partId: string): string | null {
  const rows = springBack(inspection).filter((row) => row.part === partId && row.pulls > 0);
  if (rows.length === 0) return null;
  const text = rows.map((row) => rowText(row, inspection)).join('; ');
  const carried = observedPulls(inspection).some((pull) => pull.partId === partId && pull.carried);
  return carried ? `${text}; by the alignment from before the pull` : text;
}

function rowText(
  { relieved, recovery, recoveryRange, ratio, ratioUncertainty, pulls }: SpringBackRow,
  { job }: Inspection,
): string {
  if (recovery === null || recoveryRange === null || ratio === null || ratioUncertainty === null) return '';
  const percent = (share: number) => `${figure(100 * share, 0)} %`;
  const range = pulls > 1 ? ` (${lengthRangeText(recoveryRange[0], recoveryRange[1], job.unit)})` : '';
  const share = `${percent(ratio)} ±${percent(coverage95 * ratioUncertainty)} of the move`;
  return `${relieved ? 'relieved' : 'not relieved'} ${lengthRangeText(recovery, recovery, job.unit)} back on release${range}, ${share}, ${pullsText(pulls)}`;
}

export const pullsText = (pulls: number): string => `${pulls} pull${pulls === 1 ? '' : 's'}`;
