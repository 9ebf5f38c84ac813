import { standingOf } from '../../findings/standing';
import { markup, quoted, shortened } from '../markup';
import { printedPage } from './printed-page';
import {
  acceptedSection,
  cautionsSection,
  findingsSection,
  ruleSection,
  signaturesSection,
  unmeasuredSection,
} from './record-end';
import { factsSection } from './record-facts';
import { lineOfIn, type RecordContext, type RecordedJob } from './record-input';
import { logSection } from './record-log';
import { drawingsSection, historySection } from './record-pictures';
import { planSection } from './record-plan';
import { pointsSection } from './record-points';
import { stagesSection } from './record-stages';
import { openPointsSection, partsSection, standingSection } from './record-standing';
import { type Paper, recordStyles } from './record-styles';

/** What every record is called; its order comes after. */
export const recordTitle = 'Dimensional record';

/** Whether a page begins as a record does: one that some Framewright wrote. */
export const isReport = (start: string): boolean =>
  start.startsWith('<!doctype html>\n') && start.includes(`\n<title>${recordTitle} `);

/**
 * The dimensional record of a job as one HTML page that stands alone and prints (server/README.md, "Drawings and report"). The same
 * input gives the same bytes: no date of its own, no place of the machine.
 * @param paper null leaves the size of the page to who prints it
 */
export function recordPage(recorded: RecordedJob, paper: Paper | null = null): string {
  const { inspection, job, text } = recorded;
  const context: RecordContext = {
    ...recorded,
    chassis: inspection.chassis,
    unit: job.unit,
    state: standingOf(recorded),
    lineOf: lineOfIn(text),
  };
  const order = job.order ?? 'no order number';
  const body = markup`<main>
<h1>${recordTitle}</h1>
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
  planSection(context),
  unmeasuredSection(context),
  acceptedSection(context),
  findingsSection(context),
  ruleSection(context),
  cautionsSection(context),
  signaturesSection(context),
]}</main>
`;
  return printedPage(`${recordTitle} ${shortened(order, 80)}`, recordStyles(order, paper), body);
}
