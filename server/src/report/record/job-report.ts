import { standingOf } from '../../findings/standing';
import { markup, quoted, shortened } from '../markup';
import {
  acceptedSection,
  cautionsSection,
  findingsSection,
  ruleSection,
  signaturesSection,
  unmeasuredSection,
} from './job-report-end';
import { factsSection } from './job-report-facts';
import { lineOfIn, type ReportContext, type ReportedJob } from './job-report-input';
import { logSection } from './job-report-log';
import { drawingsSection, historySection } from './job-report-pictures';
import { pointsSection } from './job-report-points';
import { stagesSection } from './job-report-stages';
import { openPointsSection, partsSection, standingSection } from './job-report-standing';
import { jobReportStyles, type Paper } from './job-report-styles';
import { printedPage } from './printed-page';

/** What every record is called; its order comes after. */
export const reportTitle = 'Dimensional record';

/** Whether a page begins as a record does: one that some Framewright wrote. */
export const isReport = (start: string): boolean =>
  start.startsWith('<!doctype html>\n') && start.includes(`\n<title>${reportTitle} `);

/**
 * The dimensional record of a job as one HTML page that stands alone and prints (server/README.md, "Drawings and report"). The same
 * input gives the same bytes: no date of its own, no place of the machine.
 * @param paper null leaves the size of the page to who prints it
 */
export function jobReport(reported: ReportedJob, paper: Paper | null = null): string {
  const { inspection, job, text } = reported;
  const context: ReportContext = {
    ...reported,
    chassis: inspection.chassis,
    unit: job.unit,
    state: standingOf(reported),
    lineOf: lineOfIn(text),
  };
  const order = job.order ?? 'no order number';
  const body = markup`<main>
<h1>${reportTitle}</h1>
<p class="lead">${quoted(shortened(order, 80))} · ${quoted(shortened(context.chassis.vehicle || 'vehicle not stated', 120))}</p>
${[
  standingSection(context),
  factsSection(context),
  openPointsSection(context),
  stagesSection(context),
  drawingsSection(context),
  partsSection(context),
  historySection(context),
  pointsSection(context),
  logSection(context),
  unmeasuredSection(context),
  acceptedSection(context),
  findingsSection(context),
  ruleSection(context),
  cautionsSection(context),
  signaturesSection(context),
]}</main>
`;
  return printedPage(`${reportTitle} ${shortened(order, 80)}`, jobReportStyles(order, paper), body);
}
