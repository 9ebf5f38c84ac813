import type { Inspection } from '../../inspection/job/inspect';
import type { PartInspection, Stage } from '../../inspection/job/stage';
import { type Drawing, drawingOf } from '../drawing/drawing';
import { drawingKey } from '../drawing/drawing-key';
import { viewSvg } from '../drawing/drawing-svg';
import { changingPoints } from '../history/history';
import { historySvg } from '../history/history-svg';
import { profileSvg } from '../history/profile-svg';
import { type Markup, markup, quoted, shortened } from '../markup';
import { type RecordContext, section } from './record-input';
import { namesMarkup } from './record-standing';

/** Room between the margins of A4 and Letter alike, px; a drawing a little less, so that three stand on a sheet. */
const pageWidth = 676;
const drawingWidth = 652;

/** The car as it came and as it stands, in every view. */
export function drawingsSection({ inspection, lineOf }: RecordContext): Markup {
  const released = inspection.stages.filter(({ underTension, points }) => !underTension && points.length > 0);
  const [first, last] = [released[0] ?? null, released[released.length - 1] ?? null];
  const whole = drawingOf(inspection, last, {
    width: drawingWidth,
    over: last === first ? null : first,
    lineOf,
  });
  const received =
    first === null || first === last ? null : drawingOf(inspection, first, { width: drawingWidth, lineOf });
  return section(
    'drawings',
    'Drawings',
    markup`<p>To scale, square to the vehicle’s axes, the car’s front to the right. Deviations are magnified ${whole.factor} times. The points farthest outside are named; every point is in the tables.</p>`,
    markup`<div class="key">${drawingKey(whole)}</div>`,
    received === null
      ? null
      : markup`<h3>Stage ${numberOf(inspection, first)} ${quoted(shortened(first!.name, 120))}</h3>${figures(received, 'first')}`,
    last === null
      ? markup`<h3>The body as the reference data have it</h3>`
      : markup`<h3>Stage ${numberOf(inspection, last)} ${quoted(shortened(last.name, 120))}${received === null ? null : markup`, over stage ${numberOf(inspection, first)}`}</h3>`,
    figures(whole, 'last'),
  );
}

const numberOf = ({ stages }: Inspection, stage: Stage | null): number =>
  stage === null ? 0 : stages.indexOf(stage) + 1;

const figures = (drawing: Drawing, prefix: string): Markup =>
  markup`${drawing.views.map(
    (view) => markup`<figure>${viewSvg(drawing, view, prefix)}</figure>
`,
  )}`;

/** The shape of the parts, and each point through the stages. */
export function historySection({ inspection, unit }: RecordContext): Markup | null {
  const { stages } = inspection;
  const points = changingPoints(inspection);
  const parts = newestParts(inspection);
  const moved = parts.filter(({ part }) => hasMoved(inspection, part));
  const sound = parts.filter((each) => !moved.includes(each));
  const profiles = moved.flatMap(
    ({ stage, part }, i) => profileSvg(inspection, stage, part, pageWidth, `profile-${i + 1}`) ?? [],
  );
  if (points.length === 0 && profiles.length === 0) return null;
  const each = (pageWidth - 16) / 2;
  return section(
    'history',
    'Through the stages',
    profiles.length === 0
      ? null
      : markup`<h3>Twist and sweep along the parts</h3><p>Off load, with the band that the figures are certain to (95 %). Along the chart: the place along the part, its rear or low end first.${sound.length === 0 ? null : markup` Not drawn, as every point of theirs was within whenever it was read: ${namesMarkup(sound.map(({ part }) => part.part.id))}.`}</p><div class="profiles">${profiles.map(
          (svg) => markup`<figure>${svg}</figure>
`,
        )}</div>`,
    points.length === 0
      ? null
      : markup`<h3>Points that were read more than once</h3><p>Grey band: the limits. Line: readings off load. Open triangle: a peak under load. Strokes: certain to, 95 %.${stages.some(({ provisional }) => provisional) ? ' Dashed ring: provisional, the base of its stage is not settled.' : null} Along the chart: the stages by their numbers, ${listed(stages.map((stage, i) => markup`${i + 1} ${quoted(`“${shortened(stage.name, 60)}”`)}${stage.underTension ? ' (under load)' : null}${stage.provisional ? ' (provisional)' : null}`))}.</p><div class="histories">${points.map(
          (
            history,
            i,
          ) => markup`<figure>${historySvg(history, stages.length, unit, each, `history-${i + 1}`)}</figure>
`,
        )}</div>`,
  );
}

const listed = (items: readonly Markup[]): Markup =>
  markup`${items.map((item, i) => markup`${i === 0 ? null : ', '}${item}`)}`;

/** A point of the part was not within in some stage: then its shape is worth a look. */
const hasMoved = ({ stages }: Inspection, { part: { id } }: PartInspection): boolean =>
  stages.some(({ points }) => points.some(({ point, verdict }) => point.part === id && verdict !== 'within'));

/** Each part in the newest stage off load that read more of it than its control points. */
function newestParts({ stages, chassis }: Inspection) {
  return [...chassis.parts.keys()].flatMap((id) => {
    for (const stage of [...stages].reverse()) {
      if (stage.underTension) continue;
      const part = stage.parts.find((each) => each.part.id === id);
      const base = new Set(stage.alignment?.baseIds);
      if (part?.displacements.some(({ point }) => !base.has(point.id))) return [{ stage, part }];
    }
    return [];
  });
}
