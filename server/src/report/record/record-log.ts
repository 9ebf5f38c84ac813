import type { Answer, Hold, Mention, Pull, Section, TimelineEntry } from '../../model/job';
import { sideOf } from '../../model/names';
import { figure, type Unit } from '../../model/units';
import { directionWords } from '../../wording/pull-direction';
import { placeText } from '../../wording/wording';
import { type Markup, markup, quoted } from '../markup';
import { list, type RecordContext, section, table, written, writtenLines } from './record-input';

/** The work in the order in which it was written down, notes and all. */
export function logSection(context: RecordContext): Markup {
  const { job, inspection, unit, lineOf } = context;
  const numberOf = new Map<TimelineEntry, number>(
    inspection.stages.map(({ measure }, i) => [measure, i + 1]),
  );
  return section(
    'log',
    'Procedure log',
    job.timeline.length === 0
      ? markup`<p>Nothing was written down.</p>`
      : table(
          'log',
          ['Line', 'What', 'Entry'],
          job.timeline.map((entry) => [
            lineOf(entry.keyPlace),
            entry.kind,
            markup`${entryText(entry, numberOf.get(entry) ?? null, unit)}${entry.kind === 'note' || entry.note === null ? null : markup`<div class="note">${writtenLines(entry.note)}</div>`}`,
          ]),
        ),
  );
}

function entryText(entry: TimelineEntry, stage: number | null, unit: Unit): Markup {
  switch (entry.kind) {
    case 'measure':
      return markup`${stage === null ? null : `stage ${stage}: `}${quoted(entry.name)}`;
    case 'observe':
      return markup`${entry.what} on ${written(entry.part?.id ?? null, 'no part named')}${atText(entry.atMm, unit)}${answerText(entry.answered)}`;
    case 'pull':
      return pullText(entry, unit);
    case 'relieve':
    case 'release':
      return entry.parts === 'all' ? markup`all` : ids(entry.parts);
    case 'section':
      return markup`${quoted(entry.part.id)} cut${cutsText(entry, unit)}`;
    case 'join':
      return markup`${ids(entry.parts)} ${entry.how === null ? 'joined' : entry.how.join(' and ')}${entry.to === null ? null : markup` to ${ids(entry.to)}`}`;
    case 'replace':
      return markup`${quoted(entry.part.id)} replaced`;
    case 'heat':
      return markup`${quoted(entry.part.id)} to ${entry.toCelsius === null ? 'a heat not stated' : `${figure(entry.toCelsius, 0)} °C`} for ${entry.forSeconds === null ? 'a time not stated' : `${figure(entry.forSeconds, 0)} s`}`;
    case 'note':
      return writtenLines(entry.text);
  }
}

const ids = (mentions: readonly Mention[]): Markup => quoted(mentions.map(({ id }) => id).join(', '));

const atText = (mm: number | null, unit: Unit): string =>
  mm === null ? ', place not stated' : ` at ${placeText(mm, unit)}`;

const answerText = (answered: Answer | null): Markup | null =>
  answered && markup`; answered by ${quoted(answered.by)} on ${answered.date}: ${writtenLines(answered.how)}`;

function cutsText({ cutsMm, beyond }: Section, unit: Unit): string {
  const [low, high] = cutsMm;
  if (high !== undefined) return ` at ${placeText(low, unit)} and ${placeText(high, unit)}, new between`;
  return `${atText(low ?? null, unit)}${beyond === null ? '' : `, new on the ${beyond} side`}`;
}

function pullText({ title, part, chains, holds, plan }: Pull, unit: Unit): Markup {
  const items = [
    ...chains.map(
      ({ hook, direction, forceKn }) =>
        markup`hook at ${quoted(hook.id)}, ${direction === null ? 'direction not stated' : directionWords(direction, sideOf(hook.id))}, ${forceKn === null ? 'force not stated' : `${figure(forceKn, 1)} kN`}`,
    ),
    holds.length === 0
      ? markup`no hold stated`
      : markup`held ${quoted(holds.map((hold) => holdText(hold, unit)).join('; '))}`,
    ...plan.map(({ key, text }) => markup`plan, ${quoted(key)}: ${quoted(text)}`),
  ];
  return markup`${quoted(title)}; ${part === null ? 'part not stated' : quoted(part.id)}${list(items)}`;
}

const holdText = (hold: Hold, unit: Unit): string =>
  hold.kind === 'part' ? `on ${hold.part.id} at ${placeText(hold.atMm, unit)}` : `at ${hold.point.id}`;
