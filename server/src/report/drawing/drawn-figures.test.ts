import type { InspectJob } from '@framewright/schemas';
import { describe, expect, it } from 'vitest';
import { sampleTexts } from '../../commands/recorded.fixture';
import { inspectedJob, recordOf, sampleJobs } from '../sample.fixture';

/**
 * Drawings are held against `inspect --json` to a tenth of a px, with nothing of the code that draws them: the scale is read off the
 * grid and its figures, the factor off the words, as a person would with a ruler.
 */
const tolerancePx = 0.1;

type Stage = InspectJob['stages'][number];
type Point = Stage['points'][number];
/** Vehicle axis across the sheet and up it, and whether the first counts to the right. */
const axesOf: Record<string, readonly [number, number]> = {
  plan: [0, 1],
  left: [0, 2],
  right: [0, 2],
  front: [1, 2],
};

interface Line {
  readonly px: number;
  readonly mm: number;
}

const figureMm = (text: string): number => {
  if (/^(length zero|centreline|datum line)$/.test(text)) return 0;
  const [, size, side] = text.match(/^(−?[\d.]+)(?: ([LR]))?$/)!;
  return Number(size.replace('−', '-')) * (side === 'R' ? -1 : 1);
};

/** Lines of the grid with the figure that stands at each, and the scale through the outermost two. */
function scaleOf(lines: readonly Line[]) {
  const sorted = [...lines].sort((a, b) => a.mm - b.mm);
  const [first, last] = [sorted[0], sorted[sorted.length - 1]];
  const pxPerMm = (last.px - first.px) / (last.mm - first.mm);
  return { at: (mm: number) => first.px + (mm - first.mm) * pxPerMm, pxPerMm };
}

/** In vehicle axes; the figures are those of the sheet, and one of them counts lengths rearward. */
function gridOf(svg: string, path: string, view: string) {
  const sign = path.includes('from-the-nose') && view !== 'front' ? -1 : 1;
  const across: Line[] = [];
  const up: Line[] = [];
  const line =
    /<path class="fw-(?:grid|zero|centreline)" d="M(\S+) (\S+?)([VH])\S+"\/><text class="fw-figure"[^>]*>([^<]*)<\/text>/g;
  for (const [, x, y, way, text] of svg.matchAll(line))
    if (way === 'V') across.push({ px: Number(x), mm: sign * figureMm(text) });
    else up.push({ px: Number(y), mm: figureMm(text) });
  return { across: scaleOf(across), up: scaleOf(up) };
}

const numbers = (path: string): number[] => (path.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

/** Middle of a symbol: of its corners, or of the ring that begins at its left. */
function middleOf(path: string): [number, number] {
  if (path.includes('a')) {
    const [x, y, r] = numbers(path);
    return [x + r, y];
  }
  const values = [...path.matchAll(/([MLHV])(-?[\d.]+)(?: (-?[\d.]+))?/g)];
  const xs = values.flatMap(([, kind, a]) => (kind === 'V' ? [] : [Number(a)]));
  const ys = values.flatMap(([, kind, a, b]) =>
    kind === 'V' ? [Number(a)] : b === undefined ? [] : [Number(b)],
  );
  const middle = (of: number[]) => (Math.min(...of) + Math.max(...of)) / 2;
  return [middle(xs), middle(ys)];
}

const marksIn = (svg: string) =>
  [...svg.matchAll(/<g class="fw-mark fw-(\w+)[^"]*" data-point="([^"]*)"[\s\S]*?<\/g>/g)].map(
    ([whole, state, id]) => ({
      id,
      state,
      at: middleOf(whole.match(/class="fw-symbol" d="([^"]*)"/)![1]),
      arrow:
        whole
          .match(/class="fw-arrow[^"]*" d="M(\S+) (\S+?)L(\S+) ([^"]*)"/)
          ?.slice(1)
          .map(Number) ?? null,
      cut: whole.includes('fw-cut'),
    }),
  );

const spansIn = (svg: string) =>
  [
    ...svg.matchAll(
      /<g class="fw-span fw-span-(\w+)" data-go="([^"]*)" data-to="([^"]*)"[\s\S]*?<path d="M(\S+) (\S+?)L(\S+) ([\d.-]+)/g,
    ),
  ].map(([, state, from, to, ...ends]) => ({ state, from, to, ends: ends.map(Number) }));

/** The drawings of a record with the stage that each shows. */
async function drawingsIn(path: string) {
  const [html, { stages }] = await Promise.all([
    recordOf(sampleTexts, path),
    inspectedJob(sampleTexts, path),
  ]);
  return [...html.matchAll(/<svg [^>]*data-view="(\w+)"[\s\S]*?<\/svg>/g)].map(([svg, view]) => {
    const caption = svg.match(/<title [^>]*>([^<]*)<\/title>/)![1];
    const stage = stages.find(({ name }) => caption.includes(`“${name}”`));
    return { svg, view, stage, factor: Number(caption.match(/deviations × ([\d.]+)/)?.[1]) };
  });
}

describe.each(sampleJobs)('%s', (path) => {
  it('draws every point and arrow where its figures put it', async () => {
    const drawings = await drawingsIn(path);
    let marks = 0;
    let arrows = 0;
    // an arrow too long for the sheet is broken in all views, and has no room to show it where it is seen from its end
    const cutIn = ({ svg, stage }: (typeof drawings)[number]) =>
      marksIn(svg).flatMap(({ id, cut }) => (cut ? [`${stage?.name} ${id}`] : []));
    const anywhere = new Set(drawings.flatMap(cutIn));
    for (const { svg, view, stage, factor } of drawings) {
      if (stage === undefined) throw new Error('a drawing of no stage');
      const { across, up } = gridOf(svg, path, view);
      // to scale: both ways alike
      expect(Math.abs(across.pxPerMm / -up.pxPerMm - 1)).toBeLessThan(2e-3);
      const [a, b] = axesOf[view];
      const points = new Map<string, Point>(stage.points.map((point) => [point.id, point]));
      for (const { id, state, at, arrow, cut } of marksIn(svg)) {
        const point = points.get(id);
        if (point === undefined) {
          expect(state === 'unread' || stage.unreachable.includes(id)).toBe(true);
          expect(arrow).toBeNull();
          continue;
        }
        marks++;
        expect(state).toBe(point.verdict);
        expectPx(at[0], across.at(point.reference[a]), `${id} in ${view}`);
        expectPx(at[1], up.at(point.reference[b]), `${id} in ${view}`);
        if (arrow === null) {
          expect([point.deviation[a], point.deviation[b]], id).toEqual([null, null]);
          continue;
        }
        arrows++;
        const [dx, dy] = [arrow[2] - arrow[0], arrow[3] - arrow[1]];
        const wanted = [
          (point.deviation[a] ?? 0) * factor * across.pxPerMm,
          (point.deviation[b] ?? 0) * factor * up.pxPerMm,
        ];
        expectPx(arrow[0], at[0], `arrow of ${id}`);
        expectPx(arrow[1], at[1], `arrow of ${id}`);
        if (cut || (Math.hypot(dx, dy) < 3 && anywhere.has(`${stage.name} ${id}`))) {
          // shorter, and the same way
          const [size, whole] = [Math.hypot(dx, dy), Math.hypot(...wanted)];
          expect(size).toBeLessThan(whole + tolerancePx);
          expectPx(dx, (wanted[0] / whole) * size, `arrow of ${id}`);
          expectPx(dy, (wanted[1] / whole) * size, `arrow of ${id}`);
        } else {
          expectPx(dx, wanted[0], `arrow of ${id} in ${view}`);
          expectPx(dy, wanted[1], `arrow of ${id} in ${view}`);
        }
      }
    }
    expect(marks).toBeGreaterThan(10);
    expect(arrows).toBeGreaterThan(10);
  });

  it('draws every distance from one end to the other', async () => {
    for (const { svg, view, stage } of await drawingsIn(path)) {
      const { across, up } = gridOf(svg, path, view);
      const [a, b] = axesOf[view];
      const at = new Map(marksIn(svg).map((mark) => [mark.id, mark.at]));
      const drawn = spansIn(svg);
      for (const { from, to, state, ends } of drawn) {
        const span = stage!.spans.find((each) => each.from === from && each.to === to)!;
        expect(state).toBe(span.verdict);
        [from, to].forEach((id, i) => {
          expectPx(ends[2 * i], at.get(id)![0], `${from} to ${to} in ${view}`);
          expectPx(ends[2 * i + 1], at.get(id)![1], `${from} to ${to} in ${view}`);
        });
        // a listed distance may have its own figure: what is drawn is the way between the two positions, seen from here
        const seen = Math.hypot((ends[2] - ends[0]) / across.pxPerMm, (ends[3] - ends[1]) / up.pxPerMm);
        expect(seen, `${from} to ${to} along ${a} and ${b}`).toBeLessThan(span.reference! + 5);
      }
      // seen from above, every distance that is not upright
      if (view === 'plan') expect(drawn.length).toBeLessThanOrEqual(stage!.spans.length);
      if (view === 'plan' && path.includes('tram-only')) expect(drawn).toHaveLength(stage!.spans.length);
    }
  });

  it('charts every reading at its figure', async () => {
    const [html, { stages }] = await Promise.all([
      recordOf(sampleTexts, path),
      inspectedJob(sampleTexts, path),
    ]);
    const charts = [...html.matchAll(/<svg [^>]*fw-history" data-point="([^"]*)"[\s\S]*?<\/svg>/g)];
    let readings = 0;
    for (const [svg, id] of charts) {
      const panels = svg.split('class="fw-band"').slice(1);
      expect(panels).toHaveLength(3);
      panels.forEach((panel, k) => {
        // the band's edges are the limits
        const [, high, low] = panel.match(/d="M\S+ (\S+?)H\S+?V(\S+?)H/)!.map(Number);
        const any = stages.flatMap(({ points }) => points).find((point) => point.id === id)!;
        const pxPerMm = (low - high) / (any.limits[k][1] - any.limits[k][0]);
        const y = (mm: number) => high + (any.limits[k][1] - mm) * pxPerMm;
        const drawn = [
          ...panel.matchAll(/class="fw-whisker" d="M\S+ (\S+?)V(\S+?)"\/>(<path class="fw-peak")?/g),
        ];
        const told = stages.flatMap(({ points, underTension }) =>
          points
            .filter((point) => point.id === id && point.deviation[k] !== null)
            .map((point) => ({ mm: point.deviation[k]!, u: point.uncertainty[k]!, underTension })),
        );
        expect(drawn).toHaveLength(told.length);
        drawn.forEach(([, least, most, peak], i) => {
          const { mm, u, underTension } = told[i];
          readings++;
          expect(peak !== undefined).toBe(underTension);
          // 1.96 standard uncertainties: 95 % of a normal distribution
          expectPx(Number(least), y(mm - 1.96 * u), `${id} ${k}`);
          expectPx(Number(most), y(mm + 1.96 * u), `${id} ${k}`);
        });
      });
    }
    expect(readings > 0).toBe(charts.length > 0);
  });

  it('draws twist and sweep of each part station by station, with the band of 95 %', async () => {
    const [html, { stages }] = await Promise.all([
      recordOf(sampleTexts, path),
      inspectedJob(sampleTexts, path),
    ]);
    const charts = [...html.matchAll(/<svg [^>]*fw-profile" data-part="([^"]*)"[\s\S]*?<\/svg>/g)];
    let stations = 0;
    for (const [svg, id] of charts) {
      const name = svg.match(/<title [^>]*>\S+ in “([^”]*)”/)![1];
      const part = stages.find((stage) => stage.name === name)!.parts.find((each) => each.id === id)!;
      const panels = svg.split('<g aria-hidden="true">').slice(1);
      expect(panels).toHaveLength(3);
      for (const panel of panels) {
        const title = panel.match(/>([^<]*)<\/text>/)![1];
        const told = part.stations.flatMap((station) => {
          if (title.startsWith('twist'))
            return station.twist === null ? [] : [{ value: station.twist, u: station.twistUncertainty! }];
          const k = ['length', 'width', 'height'].findIndex((axis) => title.startsWith(axis));
          return [{ value: station.shift[k]!, u: station.shiftUncertainty[k]! }];
        });
        const found = [...panel.matchAll(/class="fw-station" cx="(\S+)" cy="(\S+)"/g)];
        expect(found).toHaveLength(told.length);
        if (told.length === 0) {
          expect(panel).toContain('cannot be observed');
          continue;
        }
        // figures beside the grid have no sign: up is what the title says
        const zero = Number(panel.match(/class="fw-zero-line" d="M\S+ (\S+?)H/)![1]);
        const [px, value] = [...panel.matchAll(/class="fw-grid" d="M\S+ (\S+?)H\S+"\/><text [^>]*>([^<]*)</g)]
          .map(([, y, text]) => [zero - Number(y), Number(text)] as const)
          .reduce((best, each) => (each[0] > best[0] ? each : best));
        const y = (each: number) => zero - (each * px) / value;
        const band = panel.match(/class="fw-certain" d="([^"]*)"/)![1];
        const edges = [...band.matchAll(/[ML]([\d.-]+),([\d.-]+)/g)].map(([, , each]) => Number(each));
        told.forEach(({ value: each, u }, i) => {
          stations++;
          expectPx(Number(found[i][2]), y(each), `${id} ${title}`);
          if (told.length < 2) return;
          const ends = [edges[i], edges[edges.length - 1 - i]].sort((a, b) => a - b);
          expectPx(ends[0], y(each + 1.96 * u), `${id} ${title}`);
          expectPx(ends[1], y(each - 1.96 * u), `${id} ${title}`);
        });
      }
    }
    expect(stations > 0).toBe(charts.length > 0);
  });
});

function expectPx(found: number, wanted: number, what: string): void {
  expect(Math.abs(found - wanted), `${what}: ${found} px, not ${wanted}`).toBeLessThan(tolerancePx);
}
