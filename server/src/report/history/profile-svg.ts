import { coverage95 } from '../../inspection/alignment/verdict';
import type { Inspection } from '../../inspection/job/inspect';
import type { PartInspection, Stage } from '../../inspection/job/stage';
import { crossAxes } from '../../inspection/shape/stations';
import { signed, type Way } from '../../model/sheet-axes';
import { degreesPerRadian, figure, mmPer, type Unit, unitWord } from '../../model/units';
import { barePlaceText } from '../../wording/places';
import { turnWord } from '../../wording/twist-wording';
import { axisNames, directionWord } from '../../wording/wording';
import { type Markup, markup, px, shortened } from '../markup';
import { bandPath, type ChartPoint, decimalsOf, linePath, type Panel, scalesOf } from './chart';

/** What is drawn over the way of a part: in degrees, or in the file's unit. */
interface Profile {
  readonly title: string;
  readonly positive: string;
  readonly negative: string;
  readonly points: readonly ChartPoint[];
  /** The same in an earlier stage. */
  readonly earlier: readonly ChartPoint[];
  /** Places count as the car does on the chart, and are told as the sheet counts. */
  readonly way: Way;
}

/** Twist and sweep along a part, stage over an earlier one; null where there is no line to draw. */
function profilesOf(part: PartInspection, earlier: PartInspection | null, unit: Unit): Profile[] | null {
  if (part.stations.length < 2) return null;
  const { along } = part.part;
  const placeOf = (each: PartInspection['stations'][number]) => each.atMm / mmPer[unit];
  const twist = (each: PartInspection | null): ChartPoint[] =>
    (each?.stations ?? []).flatMap((station) =>
      station.twist === null
        ? []
        : [
            {
              x: placeOf(station),
              y: station.twist.angleRad * degreesPerRadian,
              half: coverage95 * station.twist.uncertaintyRad * degreesPerRadian,
            },
          ],
    );
  const shift = (each: PartInspection | null, axis: 0 | 1 | 2): ChartPoint[] =>
    (each?.stations ?? []).map((station) => ({
      x: placeOf(station),
      y: station.shift[axis] / mmPer[unit],
      half: (coverage95 * station.shiftUncertainty[axis]) / mmPer[unit],
    }));
  return [
    {
      title: 'twist, °',
      positive: turnWord(1, along),
      negative: turnWord(-1, along),
      points: twist(part),
      earlier: twist(earlier),
      way: part.part,
    },
    ...crossAxes[along].map((axis) => ({
      title: `${axisNames[axis]}, ${unitWord[unit]}`,
      positive: directionWord(axis, 1),
      negative: directionWord(axis, -1),
      points: shift(part, axis),
      earlier: shift(earlier, axis),
      way: part.part,
    })),
  ];
}

const panelHeight = 78;
const headHeight = 26;
const gap = 40;
const figuresBeside = 34;
/** Beside the last chart, for half of the figure below its end. */
const figuresAfter = 18;

/** Charts of a part side by side, each with its band of 95 %; null where the part has one station only. */
export function profileSvg(
  { job, stages }: Inspection,
  stage: Stage,
  part: PartInspection,
  width: number,
  prefix: string,
): Markup | null {
  // a peak is no shape to come from, and what was read later is not what was
  const first = stages.find(
    (each) => !each.underTension && each.parts.some((other) => other.part.id === part.part.id),
  );
  const isEarlier = first !== undefined && stages.indexOf(first) < stages.indexOf(stage);
  const earlier = !isEarlier ? null : (first.parts.find((other) => other.part.id === part.part.id) ?? null);
  const profiles = profilesOf(part, earlier, job.unit);
  if (profiles === null) return null;
  const xs = profiles.flatMap(({ points, earlier: before }) => [...points, ...before].map(({ x }) => x));
  const xRange = [Math.min(...xs), Math.max(...xs)] as const;
  const panelWidth = (width - figuresBeside - 2 * gap - figuresAfter) / 3;
  const height = headHeight + panelHeight + 18;
  const panels = profiles.map((profile, i) =>
    panelSvg(
      profile,
      {
        left: figuresBeside + i * (panelWidth + gap),
        top: headHeight,
        width: panelWidth,
        height: panelHeight,
      },
      xRange,
    ),
  );
  const over = earlier === null ? '' : `, over “${shortened(first!.name, 30)}” (dashed)`;
  const caption = [
    `${part.part.id} in “${shortened(stage.name, 30)}”${over}`,
    ...(stage.provisional ? ['provisional'] : []),
  ].join(' · ');
  return markup`<svg xmlns="http://www.w3.org/2000/svg" class="fw-drawing fw-profile" data-part="${part.part.id}" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${prefix}-title"><title id="${prefix}-title">${`${caption}: ${profiles.map((each) => sentence(each, job.unit)).join('; ')}`}</title><text class="fw-caption" x="2" y="10">${caption}</text>${panels}</svg>`;
}

function sentence({ title, positive, negative, points, way }: Profile, unit: Unit): string {
  if (points.length === 0) return `${title}: cannot be observed`;
  const decimals = unit === 'mm' || title.startsWith('twist') ? 1 : 3;
  const told = points.map(({ x, y, half }) => {
    const size = figure(Math.abs(y), decimals);
    // nothing has no direction
    const word = Number(size) === 0 ? '' : ` ${y < 0 ? negative : positive}`;
    return `${size} ±${figure(half, decimals)}${word} at ${barePlaceText(x * mmPer[unit], way, unit)}`;
  });
  return `${title}: ${told.join(', ')}`;
}

function panelSvg(
  { title, positive, points, earlier, way }: Profile,
  panel: Panel,
  xRange: readonly [number, number],
): Markup {
  const { left, top, width, height } = panel;
  const head = markup`<text class="fw-figure" x="${px(left)}" y="${top - 4}">${title}${points.length === 0 ? '' : ` ↑ ${positive}`}</text>`;
  if (points.length === 0)
    return markup`<g aria-hidden="true">${head}<text class="fw-figure" x="${px(left)}" y="${top + 20}">cannot be observed</text></g>`;
  const reach = 1.15 * Math.max(...[...points, ...earlier].map(({ y, half }) => Math.abs(y) + half), 1e-6);
  const scales = scalesOf(panel, xRange, [-reach, reach]);
  const right = px(left + width);
  const [placeDecimals, decimals] = [decimalsOf(scales.ticks.x), decimalsOf(scales.ticks.y)];
  const figures = scales.ticks.y.map(
    (value) =>
      markup`<path class="fw-grid" d="M${px(left)} ${scales.y(value)}H${right}"/><text class="fw-figure" x="${px(left - 4)}" y="${px(scales.y(value) + 3)}" text-anchor="end">${figure(Math.abs(value), decimals)}</text>`,
  );
  const places = scales.ticks.x.map(
    (value) =>
      markup`<text class="fw-figure" x="${scales.x(value)}" y="${top + height + 11}" text-anchor="middle">${figure(signed(way.sheetSign, value), placeDecimals).replace('-', '−')}</text>`,
  );
  // a band needs two places
  const alone = (points.length > 1 ? [] : points).map(
    ({ x, y, half }) =>
      markup`<path class="fw-whisker" d="M${scales.x(x)} ${scales.y(y - half)}V${scales.y(y + half)}"/>`,
  );
  const dots = points.map(
    ({ x, y }) => markup`<circle class="fw-station" cx="${scales.x(x)}" cy="${scales.y(y)}" r="2.2"/>`,
  );
  return markup`<g aria-hidden="true">${head}${figures}${places}<path class="fw-zero-line" d="M${px(left)} ${scales.y(0)}H${right}"/><path class="fw-frame" d="M${px(left)} ${top}V${top + height}H${right}"/><path class="fw-certain" d="${bandPath(points, scales)}"/><path class="fw-earlier" d="${linePath(earlier, scales)}"/><path class="fw-course" d="${linePath(points, scales)}"/>${alone}${dots}</g>`;
}
