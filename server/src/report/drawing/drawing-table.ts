import { axes, type Point } from '../../model/chassis';
import { signed } from '../../model/sheet-axes';
import { type Unit, unitWord } from '../../model/units';
import { limitFigure, offFigure } from '../../wording/deviation-words';
import { axisNames, certaintyText, directionWord } from '../../wording/wording';
import { type Markup, markup } from '../markup';
import type { Sheet } from '../sheet';
import type { Drawing } from './drawing';
import { symbolSvg } from './drawing-key';
import type { Marked } from './drawing-marks';
import type { MarkState } from './drawing-symbols';

const stateWords: Record<MarkState, string> = {
  within: 'within',
  outside: 'outside',
  undecided: 'undecided',
  unjudged: 'unjudged',
  unreachable: 'out of reach',
  unread: 'not read',
};

/**
 * Every point with its figures, beside a drawing: the same in words, and the way to a point without a pointer.
 * @param before the table as it was last made: rows are taken over where they say the same
 */
export function drawingTable(
  drawing: Drawing,
  selected: string | null,
  before: TableBefore | null = null,
): Sheet {
  const { unit, points, stage, over } = drawing;
  const head = ['Point', ...axes.map((axis) => axisNames[axis])];
  const was = over === null ? '' : ` In brackets: in “${over}”.`;
  const caption =
    stage === null
      ? `The points of the body: reference positions, ${unitWord[unit]}${countingText(points)}.`
      : `“${stage}”: how far off, ${unitWord[unit]}, and how certain (95 %).${was}`;
  const kept = rowsKept(drawing, selected, before);
  const rows = points.map((each): [string, Markup] => [
    each.point.id,
    kept(each) ?? row(each, unit, stage === null, each.point.id === selected, over !== null),
  ]);
  return {
    name: 'points',
    open: markup`<table class="fw-points">`,
    pieces: new Map([
      ['caption', markup`<caption>${caption}</caption>`],
      ['head', markup`<thead><tr>${head.map((each) => markup`<th scope="col">${each}</th>`)}</tr></thead>`],
      // a body of its own for each row: every piece of a sheet is one element of the outer one
      ...rows.map(([id, each]): [string, Markup] => [`row ${id}`, each]),
    ]),
    close: markup`</table>`,
  };
}

interface TableBefore {
  readonly drawing: Drawing;
  readonly selected: string | null;
  readonly sheet: Sheet;
}

function rowsKept(
  drawing: Drawing,
  selected: string | null,
  before: TableBefore | null,
): (marked: Marked) => Markup | undefined {
  const isNone = (name: string | null) => name === null;
  if (
    before === null ||
    before.drawing.unit !== drawing.unit ||
    isNone(before.drawing.stage) !== isNone(drawing.stage) ||
    isNone(before.drawing.over) !== isNone(drawing.over)
  )
    return () => undefined;
  const known = new Map(before.drawing.points.map((each) => [each.point.id, each]));
  return (marked) => {
    const { id } = marked.point;
    const last = known.get(id);
    const isSame =
      last !== undefined &&
      last.point === marked.point &&
      last.state === marked.state &&
      last.earlier === marked.earlier &&
      last.text === marked.text &&
      (before.selected === id) === (selected === id);
    return isSame ? before.sheet.pieces.get(`row ${id}`) : undefined;
  };
}

function row(
  marked: Marked,
  unit: Unit,
  bodyAlone: boolean,
  selected: boolean,
  withEarlier: boolean,
): Markup {
  const { point, state } = marked;
  const cells = bodyAlone
    ? axes.map((axis) => markup`<td>${positionFigure(axis, point, unit)}</td>`)
    : axes.map((axis) => markup`<td>${axisCell(marked, axis, unit, withEarlier)}</td>`);
  const word = bodyAlone
    ? point.base
      ? 'control point'
      : ''
    : `${stateWords[state]}${marked.judged?.inBase ? ', base' : ''}${marked.judged?.witness === undefined ? '' : ', helps to align'}`;
  return markup`<tbody class="fw-row${bodyAlone ? '' : ` fw-row-${state}`}${selected ? ' fw-row-selected' : ''}" data-point="${point.id}"><tr${selected ? markup` aria-current="true"` : null}><th scope="row">${symbolSvg(state)}<button type="button" data-go="${point.id}"><bdi>${point.id}</bdi></button>${word === '' ? null : markup`<small>${word}</small>`}</th>${cells}</tr></tbody>`;
}

/** Length and height as the sheet counts them; across the car a word says the side. */
const positionFigure = (axis: 0 | 1 | 2, { reference, sheetSigns }: Point, unit: Unit): string =>
  axis === 1
    ? offFigure(axis, reference[axis], unit)
    : signedFigure(signed(sheetSigns[axis], reference[axis]), unit);

const signedFigure = (mm: number, unit: Unit): string => {
  const text = offFigure(0, mm, unit).replace(/ .*/, '');
  return mm < 0 && text !== '0' ? `−${text}` : text;
};

/** `; length counts rearward`, where it is not as usual. */
const countingText = ([first]: Drawing['points']): string =>
  ([0, 2] as const)
    .filter((axis) => first?.point.sheetSigns[axis] === -1)
    .map((axis) => `; ${axisNames[axis]} counts ${directionWord(axis, -1)}`)
    .join('');

function axisCell(
  { judged, earlier, point }: Marked,
  axis: 0 | 1 | 2,
  unit: Unit,
  withEarlier: boolean,
): Markup {
  const was =
    withEarlier && earlier !== null && earlier.deviation[axis] !== null
      ? markup`<small>(${offFigure(axis, earlier.deviation[axis], unit)})</small>`
      : null;
  if (judged === null) return markup`–${was}`;
  const [mm, u] = [judged.deviation[axis], judged.uncertainty[axis]];
  if (mm === null || u === null) return markup`?${was}`;
  const limit = limitFigure(axis, point.limits[axis], unit);
  return markup`<span title="limits ${limit}">${offFigure(axis, mm, unit)}</span><small>${certaintyText(u, unit)}</small>${was}`;
}
