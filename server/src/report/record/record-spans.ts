import { lengthFigure } from '../../model/units';
import { deviationOfSpan, limitsOfSpan } from '../../wording/deviation-words';
import { certaintyText } from '../../wording/wording';
import { type Markup, markup, quoted, shortened } from '../markup';
import { verdictMark } from './record-figures';
import { type Cell, plural, type RecordContext, table } from './record-input';

/** Every distance that was read point to point; null where there is none. */
export function spansTable({ inspection, unit }: RecordContext): Markup | null {
  const rows = inspection.stages.flatMap((stage, i) =>
    stage.spans.map((span): Cell[] => [
      quoted(`${span.from} to ${span.to}`),
      markup`${i + 1} ${quoted(shortened(stage.name, 40))}${stage.underTension ? ' (under load)' : null}`,
      lengthFigure(span.referenceMm, unit),
      lengthFigure(span.measuredMm, unit),
      markup`<span class="${span.verdict}">${deviationOfSpan(span, unit)} ${certaintyText(span.uncertaintyMm, unit)}</span>`,
      limitsOfSpan(span, unit),
      verdictMark(span.verdict, span.verdict),
    ]),
  );
  if (rows.length === 0) return null;
  const head = ['Distance', 'Stage', 'Reference', 'Measured', 'Off by', 'Limit', 'Verdict'];
  return markup`<h3>${plural(rows.length, 'distance')} read, point to point</h3>${table('spans', head, rows)}`;
}
