import type { Chassis } from '../../model/chassis';
import type { Answer, Hold, Mention, Pull, Section, TimelineEntry } from '../../model/job';
import { sideOf } from '../../model/names';
import { lengthOf, type Way } from '../../model/sheet-axes';
import { figure } from '../../model/units';
import { andText, placeText } from '../../wording/places';
import { directionWords } from '../../wording/pull-direction';
import { type Markup, markup, quoted } from '../markup';
import { list, type RecordContext, section, table, written, writtenLines } from './record-input';

/** The work in the order in which it was written down, notes and all. */
export function logSection(context: RecordContext): Markup {
  const { job, inspection, lineOf } = context;
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
            markup`${entryText(entry, numberOf.get(entry) ?? null, context)}${entry.kind === 'note' || entry.note === null ? null : markup`<div class="note">${writtenLines(entry.note)}</div>`}`,
          ]),
        ),
  );
}

function entryText(entry: TimelineEntry, stage: number | null, context: Places): Markup {
  switch (entry.kind) {
    case 'measure':
      return markup`${stage === null ? null : `stage ${stage}: `}${quoted(entry.name)}`;
    case 'observe':
      return markup`${entry.what} on ${written(entry.part?.id ?? null, 'no part named')}${atText(entry.atMm, entry.part, context)}${answerText(entry.answered)}`;
    case 'pull':
      return pullText(entry, context);
    case 'relieve':
    case 'release':
      return entry.parts === 'all' ? markup`all` : ids(entry.parts);
    case 'section':
      return markup`${quoted(entry.part.id)} cut${cutsText(entry, context)}`;
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

/** What tells a place as the sheet has it. */
type Places = Pick<RecordContext, 'chassis' | 'unit'>;

/** How the sheet counts along a part; along the length where it is not known. */
const wayOf = (part: Mention | null, chassis: Chassis): Way =>
  (part === null ? undefined : chassis.parts.get(part.id)) ?? lengthOf(chassis);

const atText = (mm: number | null, part: Mention | null, { chassis, unit }: Places): string =>
  mm === null ? ', place not stated' : ` at ${placeText(mm, wayOf(part, chassis), unit)}`;

const answerText = (answered: Answer | null): Markup | null =>
  answered && markup`; answered by ${quoted(answered.by)} on ${answered.date}: ${writtenLines(answered.how)}`;

function cutsText({ part, cutsMm, beyond }: Section, context: Places): string {
  const [low, high] = cutsMm;
  const way = wayOf(part, context.chassis);
  if (high !== undefined) return ` at ${andText([low, high], way, context.unit)}, new between`;
  // low and high are those of the sheet
  const side = way.sheetSign === 1 || beyond === null ? beyond : beyond === 'low' ? 'high' : 'low';
  return `${atText(low ?? null, part, context)}${side === null ? '' : `, new on the ${side} side`}`;
}

function pullText({ title, part, chains, holds, plan }: Pull, context: Places): Markup {
  const items = [
    ...chains.map(
      ({ hook, direction, forceKn }) =>
        markup`hook at ${quoted(hook.id)}, ${direction === null ? 'direction not stated' : directionWords(direction, sideOf(hook.id))}, ${forceKn === null ? 'force not stated' : `${figure(forceKn, 1)} kN`}`,
    ),
    holds.length === 0
      ? markup`no hold stated`
      : markup`held ${quoted(holds.map((hold) => holdText(hold, context)).join('; '))}`,
    // its cautions stand first where something is planned: a log tells what was done
    ...plan
      .filter(({ key }) => key !== 'caution')
      .map(({ key, text }) => markup`plan, ${quoted(key)}: ${quoted(text)}`),
  ];
  return markup`${quoted(title)}; ${part === null ? 'part not stated' : quoted(part.id)}${list(items)}`;
}

const holdText = (hold: Hold, context: Places): string =>
  hold.kind === 'part' ? `on ${hold.part.id}${atText(hold.atMm, hold.part, context)}` : `at ${hold.point.id}`;
