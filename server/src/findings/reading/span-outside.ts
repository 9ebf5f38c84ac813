import type { JudgedSpan } from '../../inspection/alignment/spans';
import type { Inspection } from '../../inspection/job/inspect';
import { newestSpans, spanKey } from '../../inspection/job/newest';
import type { Unit } from '../../model/units';
import { lengthFigure, lengthText } from '../../model/units';
import { certaintyText } from '../../wording/wording';
import type { Draft, Rule } from '../rule/rule';

export const spanOutside: Rule = {
  name: 'reading/span-outside',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'reading',
  inRecord: 'figures',
  page: {
    summary: 'A distance between two points is out of tolerance, by more than its uncertainty can explain.',
    why: 'A distance needs no bench and no alignment, so it is the plainest check there is: diagonals that differ mean a body out of square. It does not tell which of its two ends is wrong. In the newest reading that was not under load it is an error; before that, information.',
    example: '    spans:\n      - [rail-tip-lower.L, strut-top.R, 1399.7]      # listed as 1411.8',
    exampleIn: { place: 'row' },
    mend: 'See which of the two points is out, from its three numbers or from other distances to it, and put that right.',
    source:
      'JCGM 106:2012, Evaluation of measurement data: the role of measurement uncertainty in conformity assessment. Comparing diagonals is common practice in the trade.',
  },
  ofJob: ({ inspection }) => {
    const newest = newestSpans(inspection);
    return inspection.stages.flatMap((stage) =>
      stage.spans
        .filter((span) => span.verdict === 'outside')
        .map((span): Draft => {
          const last = newest.get(spanKey(span));
          const isNewest = last?.span === span;
          const history = stage.underTension
            ? 'It was under load then.'
            : `It was measured again in “${last?.stage.name}”.`;
          return {
            place: span.reading.place,
            severity: isNewest ? 'error' : 'information',
            message: `${spanSentence(span, inspection)}${isNewest ? '' : ` ${history}`}`,
          };
        }),
    );
  },
};

/** By how much a distance is off, against what, its limit and how certain that is. */
export function spanSentence(span: JudgedSpan, { job: { unit } }: Inspection): string {
  const { from, to, deviationMm, measuredMm, referenceMm, uncertaintyMm, listed } = span;
  const off = `${lengthText(Math.abs(deviationMm), unit)} too ${deviationMm < 0 ? 'short' : 'long'}`;
  const against = `${lengthText(measuredMm, unit)} against ${lengthText(referenceMm, unit)} ${listed ? 'in the chassis file' : 'between their reference positions'}`;
  return `${from} to ${to} is ${off}: ${against}; ${limitOf(span, unit)}, certain to ${certaintyText(uncertaintyMm, unit)} (95 %).`;
}

const limitOf = ({ limits: [low, high] }: JudgedSpan, unit: Unit): string =>
  -low === high
    ? `limit ±${lengthFigure(high, unit)}`
    : `limits ${lengthText(-low, unit)} shorter and ${lengthText(high, unit)} longer`;
