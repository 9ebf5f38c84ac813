import { lengthFigure, type Unit, unitWord } from '../../model/units';
import { deviationOfSpan, limitsOfSpan } from '../../wording/deviation-words';
import { certaintyText } from '../../wording/wording';
import { type Markup, markup } from '../markup';
import type { Sheet } from '../sheet';
import type { Drawing } from './drawing';
import { symbolSvg } from './drawing-key';
import type { MarkedSpan } from './drawing-spans';

/** Every distance that the stage read, beside a drawing; null where it read none. */
export function spanTable({ spans, stage, unit }: Drawing): Sheet | null {
  if (spans.length === 0) return null;
  const head = ['Distance', 'Read', 'Off by'].map((each) => markup`<th scope="col">${each}</th>`);
  return {
    name: 'distances',
    open: markup`<table class="fw-distances">`,
    pieces: new Map<string, Markup>([
      [
        'caption',
        markup`<caption>“${stage}”: distances read point to point, ${unitWord[unit]}. Below each its reference, and how certain it is (95 %).</caption>`,
      ],
      ['head', markup`<thead><tr>${head}</tr></thead>`],
      ...spans.map((each, i): [string, Markup] => [`row ${i}`, row(each, unit)]),
    ]),
    close: markup`</table>`,
  };
}

function row({ span }: MarkedSpan, unit: Unit): Markup {
  const { from, to, verdict, measuredMm, referenceMm, uncertaintyMm } = span;
  const name = markup`${symbolSvg(verdict)}<button type="button" data-go="${from}" data-to="${to}"><bdi>${from}</bdi> to <bdi>${to}</bdi></button><small>${verdict}</small>`;
  const read = markup`${lengthFigure(measuredMm, unit)}<small>${lengthFigure(referenceMm, unit)}</small>`;
  const off = markup`<span title="limits ${limitsOfSpan(span, unit)}">${deviationOfSpan(span, unit)}</span><small>${certaintyText(uncertaintyMm, unit)}</small>`;
  return markup`<tbody class="fw-row fw-row-${verdict}"><tr><th scope="row">${name}</th><td>${read}</td><td>${off}</td></tr></tbody>`;
}
