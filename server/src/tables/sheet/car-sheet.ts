import type { Chassis, Point } from '../../model/chassis';
import type { Job } from '../../model/job';
import { lengthFigure, unitWord } from '../../model/units';
import { bodyAlone } from '../../report/drawing/body-alone';
import { type Drawing, type DrawnView, drawingOf } from '../../report/drawing/drawing';
import { drawingStyles } from '../../report/drawing/drawing-styles';
import { viewSheet } from '../../report/drawing/drawing-svg';
import { type Markup, markup, px, quoted } from '../../report/markup';
import { printedPage } from '../../report/record/printed-page';
import { wholeSheet } from '../../report/sheet';

/** A page to take to the car: what to read, in which order, where it is, and room to write in. */

/** So many points have one page of A4 or Letter with a drawing; further pages, without one, have as many. */
export const pointsOnPage = 40;
/** In both columns of a page. */
const columnsOnPage = 2;
/** Room for a hand in a glove, mm. */
export const boxHeightMm = 9;
/** More letters have no room on one line. */
const longestShown = 28;
const drawingWidth = 760;

/** @param job null: no job is begun for the car @param ids in the order in which they are read */
export function carSheet(chassis: Chassis, job: Job | null, ids: readonly string[]): string {
  const points = ids.flatMap((id) => chassis.points.get(id) ?? []);
  const pages = Math.max(1, Math.ceil(points.length / pointsOnPage));
  const body = Array.from({ length: pages }, (_, i) => {
    const from = i * pointsOnPage;
    return markup`<section>
${headMarkup(chassis, job, `${i + 1} / ${pages}`)}${i === 0 ? drawingMarkup(chassis, ids) : null}${columnsMarkup(points.slice(from, from + pointsOnPage), from, { chassis, job })}<p class="foot">Dimensions only. Support and secure the car by its maker’s procedure before anybody is under it.</p>
</section>
`;
  });
  return printedPage(`Sheet for the car: ${job?.order ?? chassis.vehicle}`, styles, markup`${body}`);
}

const headMarkup = (chassis: Chassis, job: Job | null, page: string): Markup =>
  markup`<header><b>${quoted(shown(chassis.vehicle, 60))}</b><span>Order: ${job?.order ? quoted(shown(job.order, 24)) : '____________'}</span><span>Measure: ________________</span><span>Date: __________</span><span>By: ________</span><span>${page}</span></header>
`;

function drawingMarkup(chassis: Chassis, ids: readonly string[]): Markup {
  const drawing = drawingOf(bodyAlone(chassis), null, { width: drawingWidth, views: ['plan'], named: 0 });
  const [view] = drawing.views;
  return view === undefined
    ? markup``
    : markup`<figure>${numbered(drawing, view, ids)}</figure>
`;
}

/** The view with the number of each row at its point; points over one another have theirs in one text. */
function numbered(drawing: Drawing, view: DrawnView, ids: readonly string[]): Markup {
  const places = new Map<string, { at: readonly [number, number]; numbers: number[] }>();
  for (const { id, at } of view.marks) {
    const number = ids.indexOf(id) + 1;
    if (number === 0) continue;
    const key = `${Math.round(at[0] / 12)} ${Math.round(at[1] / 12)}`;
    const place = places.get(key) ?? { at, numbers: [] };
    place.numbers.push(number);
    places.set(key, place);
  }
  const texts = [...places.values()].map(
    ({ at: [x, y], numbers }) =>
      markup`<text class="number" x="${px(x + 5)}" y="${px(y - 5)}">${[...numbers].sort((a, b) => a - b).join(' ')}</text>`,
  );
  const sheet = viewSheet(drawing, view, 'sheet', 'title');
  return wholeSheet({ ...sheet, pieces: new Map([...sheet.pieces, ['numbers', markup`<g>${texts}</g>`]]) });
}

interface Of {
  readonly chassis: Chassis;
  readonly job: Job | null;
}

function columnsMarkup(points: readonly Point[], from: number, of: Of): Markup {
  const each = Math.ceil(points.length / columnsOnPage);
  const columns = Array.from({ length: columnsOnPage }, (_, i) => points.slice(i * each, (i + 1) * each));
  return markup`<div class="columns">${columns.map((column, i) => columnMarkup(column, from + i * each, of))}</div>
`;
}

function columnMarkup(points: readonly Point[], from: number, { chassis, job }: Of): Markup {
  const words = job?.axes ?? (['', '', ''] as const);
  const unit = unitWord[job?.unit ?? chassis.unit];
  return markup`<table><thead><tr><th class="no"></th><th class="point">reference: ${chassis.axes.join(', ')}, ${unitWord[chassis.unit]}</th>${words.map((word) => markup`<th>${word} ${unit}</th>`)}</tr></thead><tbody>
${points.map((point, i) => rowMarkup(point, from + i + 1, chassis))}</tbody></table>
`;
}

const rowMarkup = (point: Point, number: number, chassis: Chassis): Markup =>
  markup`<tr data-point="${point.id}"><td class="no">${number}</td><td class="point"><div class="name">${shown(point.id, longestShown)}${point.base ? ' ◆' : null}</div><div class="reference">${referenceText(point, chassis)}${point.fixing === null ? null : markup` · ${point.fixing}`}</div></td><td></td><td></td><td></td></tr>
`;

/** In the order and the signs of the sheet. */
function referenceText({ reference, sheetSigns }: Point, { axes, unit }: Chassis): string {
  const order = axes.map((word) =>
    ['forward', 'rearward'].includes(word) ? 0 : ['up', 'down'].includes(word) ? 2 : 1,
  );
  return order.map((axis) => lengthFigure(sheetSigns[axis] * reference[axis], unit)).join(', ');
}

/** Cut in the middle: the side stands at the end. */
const shown = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, most - 11)}…${text.slice(-10)}`;

const styles = `${drawingStyles}
:root{--framewright-foreground:#111;--framewright-quiet:#555;--framewright-background:#fff;--framewright-accent:#4a1f73;color-scheme:light}
@page{margin:8mm 10mm}
*{box-sizing:border-box}
html{background:#fff;color:#111}
body{margin:0 auto;max-width:190mm;font:8pt/1.2 system-ui,-apple-system,"Segoe UI","DejaVu Sans",Arial,sans-serif}
section+section{break-before:page}
header{display:flex;gap:4mm;height:7mm;align-items:center;white-space:nowrap;overflow:hidden;font-size:7.5pt}
header b{flex:1;overflow:hidden;text-overflow:ellipsis}
figure{margin:0;height:50mm;overflow:hidden}
figure .fw-drawing{display:block;width:100%;height:50mm}
.number{font-size:9px;font-weight:600}
.columns{display:grid;grid-template-columns:1fr 1fr;gap:3mm}
table{border-collapse:collapse;width:100%;table-layout:fixed}
th{height:5mm;font-size:6pt;font-weight:400;text-align:left;overflow:hidden;white-space:nowrap;padding:0 .5mm}
td{height:${boxHeightMm}mm;border:.3mm solid #111;padding:0 .5mm;overflow:hidden}
.no{width:6mm;text-align:right;border:0}
.point{width:46mm;border-width:.3mm 0}
.name{white-space:nowrap;overflow:hidden;font-size:7pt;color:#000}
.reference{white-space:nowrap;overflow:hidden;font-size:6.5pt;color:#444}
.foot{margin:1mm 0 0;font-size:6.5pt}
`;
