import { faultIn } from '../../findings/internal/fault';
import type { Inspection } from '../../inspection/job/inspect';
import { recordPage } from './record';
import type { RecordedJob } from './record-input';
import type { Paper } from './record-styles';

/** Whatever a file turned out to be; a job's inspection is null where its chassis file cannot be read. */
type Recordable =
  | (Omit<RecordedJob, 'inspection'> & { readonly kind: 'readings'; readonly inspection: Inspection | null })
  | { readonly kind: 'chassis' | 'settings'; readonly uri: string };

/** Makes the page for a paper, null: whatever it is printed on; or says why there is none, in words for a person. */
type RecordMaker = { readonly pageFor: (paper: Paper | null) => string } | { readonly message: string };

export function recordMakerOf(analysis: Recordable): RecordMaker {
  if (analysis.kind !== 'readings') return { message: 'a report is made from a readings file' };
  const { inspection } = analysis;
  const fault = faultIn(analysis.findings);
  // a record that lacks what one rule would have said is none
  if (fault !== null) return { message: fault.message };
  if (inspection === null)
    return { message: 'its chassis file cannot be read, so there is nothing to report' };
  const recorded = { ...analysis, inspection };
  return { pageFor: (paper) => recordPage(recorded, paper) };
}
