import type { DiffBody, DiffFile, DiffSpan, DiffThing, DiffTouched } from '@framewright/schemas';
import { grouped } from '../inspection/alignment/grouped';
import { axes } from '../model/chassis';
import { sideOf } from '../model/names';
import { lengthFigure, lengthText, type Unit } from '../model/units';
import { axisNames, directionPhrase, limitsText } from '../wording/wording';
import { arrow, changeText, type Line, line, namesText } from './line';
import { isSameStanding, losesGate, losesSignature, standingChange } from './verdict-words';

export const noBody: DiffBody = { head: [], points: [], limits: [], facts: [], parts: [], spans: [] };

/** What is another in a body, in lines: what touches jobs first, then points, limits, rules of parts, distances, variants. */
export function chassisLines(
  body: DiffBody,
  file: Pick<DiffFile, 'touches' | 'variants'>,
  unit: Unit,
): Line[] {
  return [
    ...touchedLines(file.touches),
    ...body.points.map((point) => pointLine(point, unit)),
    ...limitLines(body, unit),
    ...body.parts.map((part) => thingLine('part', part)),
    ...body.facts.map((point) => thingLine('point', point)),
    ...spanLines(body.spans, unit),
    ...body.head.map((change) =>
      line(changeText(change), change.what === 'build' || change.what === 'extends'),
    ),
    ...file.variants.map(variantLine),
  ];
}

type Point = DiffBody['points'][number];

function pointLine({ id, status, before, after, shift, distance }: Point, unit: Unit): Line {
  if (status === 'added') return line(`point ${id} added at ${placeText(after, unit)}`);
  if (status === 'dropped') return line(`point ${id} gone: it was at ${placeText(before, unit)}`, true);
  const moves = axes.flatMap((k) => {
    const mm = shift?.[k] ?? 0;
    return mm === 0 ? [] : [`${exact(mm, unit)} ${directionPhrase(k, mm, sideOf(id))}`];
  });
  return line(`point ${id} moved ${exact(distance ?? 0, unit)}: ${moves.join(', ')}`, true);
}

/** Of a length that would show as nothing its own digits. */
const exact = (mm: number, unit: Unit): string =>
  Number(lengthFigure(Math.abs(mm), unit)) === 0
    ? `${Math.abs(mm).toPrecision(2)} mm`
    : lengthText(Math.abs(mm), unit);

const placeText = (place: Point['before'], unit: Unit): string =>
  place === null ? 'no place' : `[${place.map((mm) => lengthFigure(mm, unit)).join(', ')}]`;

/** One line for all points whose limit changed alike, wider ones first. */
function limitLines({ limits }: DiffBody, unit: Unit): Line[] {
  const said = limits.map((limit) => ({
    id: limit.id,
    wider: limit.wider,
    text: `${limit.axis} ${arrow(limitsText(limit.before, unit), limitsText(limit.after, unit))}`,
  }));
  const byPoint = [...grouped(said, ({ id }) => id)].map(([id, all]) => ({
    id,
    wider: all.some(({ wider }) => wider),
    text: sameOnAll(all.map(({ text }) => text)),
  }));
  const alike = [...grouped(byPoint, ({ wider, text }) => `${wider ? 'wider' : 'narrower'}: ${text}`)];
  const lines = alike.map(([text, points]) =>
    line(`limit ${text}, of ${namesText(points.map(({ id }) => id))}`, points[0].wider),
  );
  return [...lines.filter(({ isGrave }) => isGrave), ...lines.filter(({ isGrave }) => !isGrave)];
}

/** `each axis ±2.0 → ±3.0` where that is so. */
function sameOnAll(texts: readonly string[]): string {
  const bare = new Set(texts.map((text) => text.replace(/^\w+ /, '')));
  return texts.length === Object.keys(axisNames).length && bare.size === 1
    ? `each axis ${[...bare].join()}`
    : texts.join(', ');
}

function thingLine(kind: string, { id, status, changes }: DiffThing): Line {
  if (status === 'added') return line(`${kind} ${id} added`);
  if (status === 'dropped') return line(`${kind} ${id} gone`, true);
  const isGrave = changes.some(({ what }) =>
    /^(straighten|section|heat|control point|uncertainty|part)$/.test(what),
  );
  return line(`${kind} ${id}: ${changes.map(changeText).join('; ')}`, isGrave);
}

const spanText = ({ from, to }: DiffSpan): string => `${from} to ${to}`;

const limitChange = (span: DiffSpan, unit: Unit): string => {
  const [before, after] = [span.limitsBefore, span.limitsAfter].map((band) => band && limitsText(band, unit));
  return `limit ${span.wider ? 'wider' : 'narrower'}: ${arrow(before, after)}`;
};

/** Nothing else of it is another. */
const isLimitAlone = ({ status, before, after, changes }: DiffSpan): boolean =>
  status === 'changed' && before === after && changes.length === 0;

/** One line for all distances whose limit alone changed alike; the others have one each. */
function spanLines(spans: readonly DiffSpan[], unit: Unit): Line[] {
  const alike = [...grouped(spans.filter(isLimitAlone), (span) => limitChange(span, unit))];
  return [
    ...alike.map(([text, all]) =>
      line(
        `${text}, of ${all.length === 1 ? 'distance' : 'distances'} ${namesText(all.map(spanText))}`,
        all[0].wider,
      ),
    ),
    ...spans.filter((span) => !isLimitAlone(span)).map((span) => spanLine(span, unit)),
  ];
}

function spanLine(span: DiffSpan, unit: Unit): Line {
  const name = `distance ${spanText(span)}`;
  const [before, after] = [span.before, span.after].map((mm) => mm && lengthText(mm, unit));
  if (span.status === 'added') return line(`${name} added: ${after}`);
  if (span.status === 'dropped') return line(`${name} gone: it was ${before}`, true);
  const limits = [span.limitsBefore, span.limitsAfter].map((band) => band && limitsText(band, unit));
  const said = [
    ...(before === after ? [] : [`${before} → ${after}`]),
    ...(limits[0] === limits[1] ? [] : [limitChange(span, unit)]),
    ...span.changes.map(changeText),
  ];
  return line(`${name}: ${said.join('; ')}`, span.wider);
}

const variantLine = ({ path, passes, keeps }: DiffFile['variants'][number]): Line => {
  const kept = keeps.length === 0 ? '' : `; it states its own of ${namesText(keeps)}`;
  return line(
    passes.length === 0
      ? `nothing is passed on to ${path}${kept}`
      : `passed on to ${path}: ${passes.join(', ')}${kept}`,
  );
};

/** Jobs that stand otherwise, the worst first. */
function touchedLines(touches: readonly DiffTouched[]): Line[] {
  const rank = (job: DiffTouched): number => (losesSignature(job) ? 0 : losesGate(job) ? 1 : 2);
  return [...touches].sort((a, b) => rank(a) - rank(b)).flatMap(touchedJob);
}

function touchedJob(job: DiffTouched): Line[] {
  const too = job.changedToo ? ' (changed itself, too)' : '';
  const standing = isSameStanding(job.before, job.after) ? [] : [standingChange(job.before, job.after)];
  const turned = [...grouped(job.verdicts, ({ before, after }) => arrow(before, after))].map(
    ([text, all]) => `${text}: ${namesText(all.map(({ name }) => name))}`,
  );
  const isGrave =
    job.after === null ||
    losesSignature(job) ||
    losesGate(job) ||
    // one that got better did so by what was changed here, not by the car
    job.verdicts.length > 0;
  return [line(`job ${job.path}${too}: ${[...standing, ...turned].join('; ')}`, isGrave)];
}
