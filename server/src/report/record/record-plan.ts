import { planPage } from '../../wording/job-plan/plan-page';
import { type Markup, markup, quoted } from '../markup';
import { list, type RecordContext, section, table } from './record-input';

/** What is still to be pulled or renewed, with the cautions once and first; nothing in a signed job, and where nothing is planned. */
export function planSection({ inspection, job }: RecordContext): Markup | null {
  const page = job.signOff === null ? planPage(inspection) : null;
  if (page === null) return null;
  return section(
    'plan',
    'Pull plan',
    list(
      page.signals.map(
        ({ word, texts }) =>
          markup`<b>${word}</b> ${texts.map((text, i) => markup`${i === 0 ? null : markup`<br>`}${quoted(text)}`)}`,
      ),
    ),
    markup`<p>${page.first}</p>`,
    markup`${page.steps.map(
      ({ title, lines }, i) =>
        markup`<h3>Step ${i + 1}: ${quoted(title)}</h3>${table(
          'plan',
          ['What', 'How'],
          lines.map(([label, text]) => [label, quoted(text)]),
        )}`,
    )}`,
    list(page.after.map((text) => quoted(text))),
  );
}
