import type { Quantity } from '../inspection/alignment/displacements';
import { grouped } from '../inspection/alignment/grouped';
import type { Inspection } from '../inspection/job/inspect';
import { knownBend } from '../inspection/job/known-bend';
import { historyOf } from '../inspection/job/part-history';
import { isUnsettled, provisionalReason } from '../inspection/job/provisional';
import type { PartInspection, Stage } from '../inspection/job/stage';
import type { Bend } from '../inspection/shape/bend';
import type { Body } from '../inspection/shape/body';
import type { Angle } from '../inspection/shape/part-motion';
import { crossAxes, hasTwoLevels, type Station } from '../inspection/shape/stations';
import type { Axis, Part } from '../model/chassis';
import { resolvedJob } from '../model/resolve/resolved-job';
import { lengthFigure, lengthText, type Unit, unitWord } from '../model/units';
import { bodyPhrase } from './body-words';
import { andText, doubtfulPlaceText, placeText, rangeText } from './places';
import { springBackSummary } from './spring-back-words';
import { angleCertainty, angleFigure, showsAngle, stationTwistText, turnWord } from './twist-wording';
import { certaintyText, directionPhrase, listPhrase } from './wording';

/**
 * The lines of a measure's `summary:`, word for word as the program writes them: figures in the file's unit with ± at 95 %, and
 * directions in words. A figure that shows as nothing has no direction.
 */
type SummaryKind = 'twist' | 'sweep' | 'bend' | 'stretch' | 'spring-back' | 'body';

const partKinds = ['twist', 'sweep', 'bend', 'stretch', 'spring-back'] as const;
type PartKind = (typeof partKinds)[number];

/**
 * The keys that a summary of a kind may have in a stage: `front-rail.L twist`, `body`. Parts of the job's scope that were read in
 * the stage; without a scope, parts of which a point outside the base was read. Spring-back only where some was seen.
 */
export function summaryKeys(inspection: Inspection, stage: Stage, kind: SummaryKind): string[] {
  if (kind === 'body') return stage.body === null ? [] : ['body'];
  return summaryParts(inspection, stage, kind).map((id) => `${id} ${kind}`);
}

/** Ids of the parts that a summary of a kind tells of in a stage. */
export function summaryParts(inspection: Inspection, stage: Stage, kind: PartKind): string[] {
  const { job, chassis } = inspection;
  const { scope } = resolvedJob(job, chassis);
  const inBase = new Set(stage.points.filter((judged) => judged.inBase).map((judged) => judged.id));
  const wanted = ({ part, displacements }: PartInspection) =>
    scope === null ? displacements.some(({ point }) => !inBase.has(point.id)) : scope.has(part.id);
  const ids = stage.parts.filter(wanted).map(({ part }) => part.id);
  return kind === 'spring-back' ? ids.filter((id) => springBackSummary(inspection, id) !== null) : ids;
}

/** The text of one line; null where the key names nothing that the stage can tell. */
export function summaryText(inspection: Inspection, stage: Stage, key: string): string | null {
  const text = plainSummary(inspection, stage, key.trim());
  if (text === null || !isUnsettled(stage)) return text;
  return `${text}; provisional, ${provisionalReason(inspection, stage)}`;
}

/** All lines of a stage: each part with all that can be told of it, then the body. */
export function summaryLines(
  inspection: Inspection,
  stage: Stage,
): { readonly key: string; readonly text: string }[] {
  const told = partKinds.flatMap((kind) =>
    summaryParts(inspection, stage, kind).map((part) => ({ part, key: `${part} ${kind}` })),
  );
  const byPart = [...grouped(told, ({ part }) => part).values()].flat().map(({ key }) => key);
  return [...byPart, ...summaryKeys(inspection, stage, 'body')].flatMap((key) => {
    const text = summaryText(inspection, stage, key);
    return text === null ? [] : [{ key, text }];
  });
}

function plainSummary(inspection: Inspection, stage: Stage, key: string): string | null {
  const { unit } = inspection.job;
  if (key === 'body') return stage.body === null ? null : bodyText(stage.body, unit);
  const [id, word, ...more] = key.split(/\s+/);
  const kind = partKinds.find((each) => each === word);
  const part = stage.parts.find((each) => each.part.id === id);
  if (part === undefined || more.length > 0 || kind === undefined) return null;
  switch (kind) {
    case 'twist':
      return twistText(part, unit);
    case 'sweep':
      return sweepText(part, unit);
    case 'bend':
      return bendText(part, unit) + knownTogether(inspection, stage, part.part);
    case 'stretch':
      return stretchText(part, unit);
    case 'spring-back':
      return springBackSummary(inspection, id);
  }
}

/** Farthest from the base first: that is where a part is off most. */
const outermostFirst = ({ stations, bend }: PartInspection): Station[] =>
  bend.away === 1 ? [...stations].reverse() : [...stations];

const positiveWay: Record<Axis, string> = { 0: 'forward', 1: 'to the left', 2: 'up' };
const negativeWay: Record<Axis, string> = { 0: 'rearward', 1: 'to the right', 2: 'down' };

function twistText(part: PartInspection, unit: Unit): string {
  const { along } = part.part;
  const told = outermostFirst(part).flatMap((station) =>
    station.twist === null
      ? []
      : [`${stationTwistText(station.twist, along)} at ${placeText(station.atMm, part.part, unit)}`],
  );
  if (told.length === 0)
    return part.stations.some((station) => hasTwoLevels(station, along))
      ? 'twist is not known: what was read at its levels does not fix it'
      : 'twist cannot be observed, one level only';
  const profile = profileText(part, unit);
  return profile === null ? told.join(', ') : `${told.join(', ')}; ${profile}`;
}

/** How the twist grows along the part, between the outermost stations that show one. */
function profileText({ twistGrowth, part }: PartInspection, unit: Unit): string | null {
  if (twistGrowth === null) return null;
  const { radPerMetre, uncertaintyRadPerMetre, from, to } = twistGrowth;
  const word = showsAngle(radPerMetre)
    ? ` ${turnWord(radPerMetre, part.along)} going ${positiveWay[part.along]}`
    : '';
  return `${angleFigure(radPerMetre)}/m ${angleCertainty(uncertaintyRadPerMetre)}/m${word} over ${rangeText([from.atMm, to.atMm], part, unit)}`;
}

function sweepText(part: PartInspection, unit: Unit): string {
  const { along, side } = part.part;
  const across = crossAxes[along];
  const moves = (station: Station) =>
    across.map(
      (k) =>
        `${quantityText({ mm: station.shift[k], uncertaintyMm: station.shiftUncertainty[k] }, k, side, unit)}`,
    );
  const told = outermostFirst(part).map(
    (station) => `at ${placeText(station.atMm, part.part, unit)} ${moves(station).join(' and ')}`,
  );
  return `${told.join('; ')}; ${bowText(part, unit)}`;
}

function bowText({ bow, part, stations }: PartInspection, unit: Unit): string {
  const [sideways, vertical] = crossAxes[part.along];
  if (bow.sideways === null || bow.vertical === null)
    return stations.length < 3 ? 'bow cannot be told from fewer than three stations' : 'bow is not known';
  const one = (offset: Quantity, axis: Axis) => quantityText(offset, axis, part.side, unit);
  return `bow ${one(bow.sideways, sideways)} and ${one(bow.vertical, vertical)}`;
}

const showsLength = (mm: number, unit: Unit): boolean => Number(lengthFigure(Math.abs(mm), unit)) !== 0;

/** `14.2 mm ±1.6 mm right (inboard)`. */
function quantityText(
  { mm, uncertaintyMm }: Quantity,
  axis: Axis,
  side: PartInspection['part']['side'],
  unit: Unit,
): string {
  const text = `${lengthText(Math.abs(mm), unit)} ${certainty(uncertaintyMm, unit)}`;
  return showsLength(mm, unit) ? `${text} ${directionPhrase(axis, mm, side)}` : text;
}

const certainty = (uncertaintyMm: number, unit: Unit): string =>
  `${certaintyText(uncertaintyMm, unit)} ${unitWord[unit]}`;

const bendWords: Record<Exclude<Bend['kind'], 'bend'>, string> = {
  none: 'no bend can be told',
  several: 'bent in more than one place',
  'too-few-stations': 'too few stations to tell where a bend starts',
};

/** The base's side of a place: `behind`, when the part leads forward. */
const baseSide: Record<Axis, readonly [away: string, towards: string]> = {
  0: ['behind', 'ahead of'],
  1: ['to the right of', 'to the left of'],
  2: ['below', 'above'],
};

function bendText({ bend, part }: PartInspection, unit: Unit): string {
  const { along } = part;
  if (bend.kind !== 'bend') return bendWords[bend.kind];
  const [sideways, vertical] = crossAxes[along];
  const slope = ({ angleRad, uncertaintyRad }: Angle, axis: Axis) => {
    const text = `${angleFigure(angleRad)} ${angleCertainty(uncertaintyRad)}`;
    return showsAngle(angleRad) ? `${text} ${angleRad < 0 ? negativeWay[axis] : positiveWay[axis]}` : text;
  };
  const slopes = [
    slope({ angleRad: bend.sidewaysRad, uncertaintyRad: bend.sidewaysUncertaintyRad }, sideways),
    slope({ angleRad: bend.verticalRad, uncertaintyRad: bend.verticalUncertaintyRad }, vertical),
  ];
  const going = bend.away === 1 ? positiveWay[along] : negativeWay[along];
  const hold = `hold on straight metal ${baseSide[along][bend.away === 1 ? 0 : 1]} ${placeText(bend.holdToMm, part, unit)}`;
  return `starts at ${doubtfulPlaceText(bend.atMm, bend.startsBetweenMm, part, unit)}; ${slopes.join(', ')} going ${going}; ${hold}`;
}

/** What all readings up to a stage say of the bend, where that is not what the stage says by itself; with its leading mark. */
function knownTogether(inspection: Inspection, stage: Stage, part: Part): string {
  const { unit } = inspection.job;
  const known = knownBend(inspection, historyOf(inspection, part), stage.index + 1);
  if (known === null || known.provisional || stage.underTension) return '';
  const { bend, stages, contradictory } = known;
  if (stages.length === 1 && stages[0] === stage) return '';
  const names = listPhrase(stages.map(({ name }) => `“${name}”`));
  const hold = `hold ${baseSide[part.along][bend.away === 1 ? 0 : 1]} ${placeText(bend.holdToMm, part, unit)}`;
  if (contradictory)
    return `; where it starts is told differently by ${names}: anywhere between ${andText(bend.startsBetweenMm, part, unit)}; ${hold}`;
  return `; by ${stages.length === 1 ? names : `${names} together`} it starts at ${doubtfulPlaceText(bend.atMm, bend.startsBetweenMm, part, unit)}; ${hold}`;
}

function stretchText({ stretch, stations, part }: PartInspection, unit: Unit): string {
  if (stretch === null)
    return stations.length < 2 ? 'length cannot be told from one station' : 'length is not known';
  const word = showsLength(stretch.mm, unit) ? ` ${stretch.mm < 0 ? 'shorter' : 'longer'}` : '';
  return `${lengthText(Math.abs(stretch.mm), unit)} ${certainty(stretch.uncertaintyMm, unit)}${word} over ${rangeText([stations[0].atMm, stations[stations.length - 1].atMm], part, unit)}`;
}

function bodyText(body: Body, unit: Unit): string {
  const unmeasured = [
    ...(body.front ? [] : ['ahead of the base']),
    ...(body.rear ? [] : ['behind the base']),
  ];
  const told = bodyPhrase(body, unit) ?? 'no condition to name';
  return unmeasured.length === 0 ? told : `${told}; not measured on both sides ${unmeasured.join(' and ')}`;
}
