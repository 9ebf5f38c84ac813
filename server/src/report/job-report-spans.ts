import { certaintyText } from '../inspection/wording';
import type { Limits } from '../model/chassis';
import { lengthFigure, type Unit } from '../model/units';
import { verdictMark } from './job-report-figures';
import { type Cell, plural, type ReportContext, table } from './job-report-input';
import { type Markup, markup, quoted, shortened } from './markup';

/** Every distance that was read point to point; null where there is none. */
export function spansTable({ inspection, unit }: ReportContext): Markup | null {
  const rows = inspection.stages.flatMap((stage, i) =>
    stage.spans.map((span): Cell[] => [
      quoted(`${span.from} to ${span.to}`),
      markup`${i + 1} ${quoted(shortened(stage.name, 40))}${stage.underTension ? ' (under load)' : null}`,
      lengthFigure(span.referenceMm, unit),
      lengthFigure(span.measuredMm, unit),
      markup`<span class="${span.verdict}">${longText(span.deviationMm, unit)} ${certaintyText(span.uncertaintyMm, unit)}</span>`,
      spanLimits(span.limits, unit),
      verdictMark(span.verdict, span.verdict),
    ]),
  );
  if (rows.length === 0) return null;
  const head = ['Distance', 'Stage', 'Reference', 'Measured', 'Off by', 'Limit', 'Verdict'];
  return markup`<h3>${plural(rows.length, 'distance')} read, point to point</h3>${table('spans', head, rows)}`;
}

const longText = (mm: number, unit: Unit): string => {
  const size = lengthFigure(Math.abs(mm), unit);
  return Number(size) === 0 ? '0' : `${size} ${mm > 0 ? 'long' : 'short'}`;
};

const spanLimits = ([low, high]: Limits, unit: Unit): string =>
  -low === high
    ? `±${lengthFigure(high, unit)}`
    : `${lengthFigure(-low, unit)} short, ${lengthFigure(high, unit)} long`;
