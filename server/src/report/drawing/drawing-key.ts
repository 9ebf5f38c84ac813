import type { Verdict } from '../../inspection/alignment/verdict';
import { roundedText } from '../../wording/wording';
import { type Markup, markup, px } from '../markup';
import type { Drawing } from './drawing';
import { spanPath } from './drawing-spans-svg';
import { basePath, type MarkState, markStates, symbolPath } from './drawing-symbols';

/** What the symbols of a drawing mean, and its scale; a list in HTML, the same words as everywhere. */

const stateWords: Record<MarkState, string> = {
  within: 'within its limits',
  outside: 'outside',
  undecided: 'undecided: on or near a limit',
  unjudged: 'could not be judged',
  unreachable: 'out of reach',
  unread: 'not read in this stage',
};

/** A symbol in a line of text, said in words beside it. */
export const symbolSvg = (state: MarkState): Markup =>
  markup`<svg class="fw-drawing fw-inline" width="14" height="14" viewBox="0 0 14 14" aria-hidden="true"><g class="fw-${state}"><path class="fw-symbol" d="${symbolPath(state, 7, 7)}"/></g></svg>`;

const sample = (width: number, inner: Markup): Markup =>
  markup`<svg class="fw-drawing fw-inline" width="${width}" height="28" viewBox="0 0 ${width} 28" aria-hidden="true">${inner}</svg>`;

const entry = (symbol: Markup, words: string): Markup => markup`<li>${symbol} ${words}</li>`;

/** Only what the drawing can show: a body before anything was measured has no verdicts, one in space no places along its parts. */
export function drawingKey(drawing: Drawing): Markup {
  const { stage, views } = drawing;
  const base = stage === null ? 'control point' : 'control point of the base';
  return markup`<ul class="fw-key">${[
    ...(stage === null ? [] : markStates.map((state) => entry(symbolSvg(state), stateWords[state]))),
    entry(sample(16, markup`<path class="fw-base" d="${basePath(8, 14)}"/>`), base),
    ...(stage === null ? [] : arrowEntries(drawing)),
    ...(drawing.spans.length === 0 || views.length === 0 ? [] : spanEntries),
    partEntry(stage !== null),
    ...(stage === null || views.length === 0 ? [] : placeEntries),
    ...scaleEntry(drawing),
  ]}</ul>`;
}

const arrowEntries = ({ factor, over }: Drawing): Markup[] => [
  entry(
    sample(
      30,
      markup`<g class="fw-outside"><path class="fw-arrow" d="M2 14H28"/><path class="fw-head" d="M28 14L21 11V17z"/></g>`,
    ),
    `arrow: how far off, × ${factor}; from the reference to where it was read`,
  ),
  ...(over === null
    ? []
    : [
        entry(
          sample(
            30,
            markup`<path class="fw-earlier" d="M2 14H26"/><circle class="fw-earlier-tip" cx="26" cy="14" r="2"/>`,
          ),
          `the same in “${over}”`,
        ),
      ]),
];

const partEntry = (measured: boolean): Markup =>
  entry(
    sample(
      30,
      markup`<path class="fw-part" d="M1 9H29V19H1z"/>${measured ? markup`<path class="fw-part-measured" d="M1 7L29 13V23L1 17z"/>` : null}`,
    ),
    measured ? 'part, as its points show it; as measured, magnified' : 'part, as its points show it',
  );

const spanWords: readonly (readonly [Verdict, string])[] = [
  ['within', 'distance read point to point, within its limits'],
  ['outside', 'the same outside, with how much it is too long or too short'],
  ['undecided', 'the same undecided'],
];

const spanEntries: readonly Markup[] = spanWords.map(([verdict, words]) =>
  entry(
    sample(
      44,
      markup`<g class="fw-span fw-span-${verdict}"><path d="${spanPath([
        [1, 14],
        [43, 14],
      ])}"/></g>`,
    ),
    words,
  ),
);

const placeEntries: readonly Markup[] = [
  entry(
    sample(20, markup`<g class="fw-bend"><path d="M10 1L14 9L6 17L10 25M4 25H16M4 22V28M16 22V28"/></g>`),
    'bend starts here, with its 95 % range',
  ),
  entry(
    sample(12, markup`<g class="fw-straight"><path d="M6 3V25M3 3H9M3 25H9"/></g>`),
    'straight metal ends: hold on the base’s side',
  ),
  entry(
    sample(12, markup`<g class="fw-hold"><path d="M2 2L6 10L10 2zM2 26L6 18L10 26z"/></g>`),
    'held here in the pull before',
  ),
];

function scaleEntry({ views, pxPerMm, unit }: Drawing): Markup[] {
  if (views.length === 0) return [];
  const { stepMm } = views[0].grid;
  const end = px(stepMm * pxPerMm) + 1;
  const bar = markup`<path class="fw-bend" d="M1 14H${end}M1 9V19M${end} 9V19" stroke="currentColor"/>`;
  return [entry(sample(end + 1, bar), roundedText(stepMm, unit))];
}
