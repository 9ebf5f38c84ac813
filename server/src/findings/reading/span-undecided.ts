import { uncertaintyThatDecides } from '../../inspection/alignment/certainty-needed';
import type { JudgedSpan } from '../../inspection/alignment/spans';
import { beyond, coverage95 } from '../../inspection/alignment/verdict';
import type { Inspection } from '../../inspection/job/inspect';
import { newestSpans } from '../../inspection/job/newest';
import { lengthText } from '../../model/units';
import type { Rule } from '../rule/rule';
import { spanSentence } from './span-outside';

export const spanUndecided: Rule = {
  name: 'reading/span-undecided',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'closed',
  inGate: 'reading',
  inRecord: 'figures',
  page: {
    summary:
      'A distance between two points is so near its limit that the measurement cannot tell whether it is in tolerance.',
    why: 'A distance has an uncertainty of its own. Where that reaches across the limit, calling the distance good or bad would be a guess. Until it is decided nothing may be concluded from it: neither that the body is square nor that it is not. Only the newest reading that was not under load is judged.',
    example: `    spans:
      - [rail-tip-lower.L, strut-top.R, 1408.6]      # 3.2 mm short, limit 3, certain to 0.6`,
    exampleIn: { place: 'row' },
    mend: 'Read it again with a more accurate instrument; the message says how accurate it must be. Or read both its points in three numbers, which also tells which end is off. Repeats of a distance are averaged, but that does not make it more certain.',
    source:
      'JCGM 106:2012, Evaluation of measurement data: the role of measurement uncertainty in conformity assessment; ISO 14253-1.',
  },
  ofJob: ({ inspection }) =>
    [...newestSpans(inspection).values()]
      .filter(({ span }) => span.verdict === 'undecided')
      .map(({ span }) => ({ place: span.reading.place, message: messageOf(span, inspection) })),
};

function messageOf(span: JudgedSpan, inspection: Inspection): string {
  const needed = uncertaintyThatDecides(span);
  const off = spanSentence(span, inspection);
  const ends = 'read both its points in three numbers, which also tells which end is off';
  if (needed === null) return `${off} It stands on its limit, and no reading of it decides that: ${ends}.`;
  const side = beyond(span.deviationMm, span.limits) ? 'over' : 'inside';
  const instrument = `an instrument certain to ±${lengthText(coverage95 * needed, inspection.job.unit)} in distances`;
  return `${off} It is ${side} its limit, but not for certain: ${ends}, or read it again with ${instrument}.`;
}
