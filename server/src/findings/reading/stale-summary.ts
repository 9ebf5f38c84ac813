import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import type { SummaryLine } from '../../model/job';
import { plainOrQuoted } from '../../text/edits';
import { summaryText } from '../../wording/summaries';
import type { Draft, Rule } from '../rule/rule';

export const staleSummary: Rule = {
  name: 'reading/stale-summary',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  safeFix: true,
  wholeJob: true,
  page: {
    summary: 'A line of a `summary` is not what the program would write now.',
    why: 'Whoever reads the file trusts the summary. When a reading, the chassis file or the base has changed since it was inserted, it describes a car that has changed.',
    example:
      '    summary:\n      front-rail.L twist: 2.3° ±0.4° top leans right at 3012 mm      # the readings now give 1.1°',
    exampleIn: {
      place: 'row',
      before: `      rail-tip-lower.L: [3012, 448, 210]
      rail-tip-upper.L: [3012, 449, 352]`,
    },
    mend: 'Take the offered fix, which writes the line again, or remove it.',
    source: 'A rule of the program itself.',
  },
  ofJob: ({ inspection }) =>
    inspection.stages.flatMap((stage) =>
      stage.measure.summary.flatMap((line) => draftOf(inspection, stage, line) ?? []),
    ),
};

function draftOf(
  inspection: Inspection,
  stage: Stage,
  { key, text, keyPlace, valuePlace }: SummaryLine,
): Draft | null {
  const now = summaryText(inspection, stage, key);
  if (now === null)
    return {
      place: keyPlace,
      message: `\`${key}\` cannot be told from this stage: a line is \`body\`, or a part that was read here followed by twist, sweep, bend or stretch`,
    };
  if (now === text.trim()) return null;
  return {
    place: valuePlace,
    message: `this summary is out of date; it would now be: ${now}`,
    replacements: [{ title: 'Refresh the summary', place: valuePlace, text: plainOrQuoted(now) }],
  };
}
