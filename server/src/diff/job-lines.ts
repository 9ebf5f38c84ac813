import type { DiffEntry, DiffJob, DiffReading, DiffStage } from '@framewright/schemas';
import { axes } from '../model/chassis';
import { sideOf } from '../model/names';
import { figure, lengthFigure, mmPer, type Unit } from '../model/units';
import { axisNames, certaintyText, directionPhrase } from '../wording/wording';
import { arrow, changeText, counted, type Line, line, namesText, quoted } from './line';
import type { Read } from './stage-changes';

/** What is another in a job, in lines: what was changed after the signature first, then what remains, work, and stage by stage. */
export function jobLines(job: DiffJob, unit: Unit): Line[] {
  const { afterSignature, head, stages, entries, remains } = job;
  const touched = stages.filter(({ readings, status }) => readings.length > 0 || status !== 'kept');
  const rest = stages.filter((stage) => !touched.includes(stage));
  const readings = (stage: DiffStage) => readLines(stage, unit, afterSignature);
  return [
    ...(afterSignature ? touched.flatMap(readings) : []),
    ...entries.flatMap((entry) => entryLines(entry, afterSignature)),
    ...remains.new.map((each) => line(`remains now: ${each}`, true)),
    ...remains.gone.map((each) => line(`no longer remains: ${each}`)),
    ...head.map((change) => line(changeText(change), isGraveHead(change.what))),
    ...touched.flatMap((stage) => [...(afterSignature ? [] : readings(stage)), ...figureLines(stage, unit)]),
    ...rest.flatMap((stage) => [...renamed(stage), ...figureLines(stage, unit)]),
  ];
}

/** What lets more pass than before. */
const isGraveHead = (what: string): boolean =>
  /^(scope|accepted|silenced|base|chassis|instrument)/.test(what);

/** A reading in the unit of its file, as the instrument counts: `[3012, 448, 352]`. */
function readText(read: Read, unit: Unit): string | null {
  if (!Array.isArray(read)) return read;
  const number = (mm: number) => String(Number(figure(mm / mmPer[unit], 4)));
  const rows = read.map((row) => (row.length === 1 ? number(row[0]) : `[${row.map(number).join(', ')}]`));
  return rows.length === 0 ? 'no numbers' : rows.join(' and ');
}

const renamed = ({ was, name }: DiffStage): Line[] =>
  was === null ? [] : [line(`measure “${was}” is called “${name}”`)];

const behindText = ({ behind }: DiffStage): string => (behind === null ? '' : `, behind ${behind}`);

function readLines(stage: DiffStage, unit: Unit, afterSignature: boolean): Line[] {
  const { status, name, read, outside } = stage;
  const rows = `${counted(read, 'reading')}${outside.length === 0 ? '' : `, outside: ${namesText(outside)}`}`;
  const late = afterSignature ? 'after the signature: ' : '';
  if (status === 'added')
    return [line(`${late}measure “${name}” added${behindText(stage)}: ${rows}`, afterSignature)];
  if (status === 'dropped') return [line(`${late}measure “${name}” dropped: ${rows}`, true)];
  return [
    ...renamed(stage),
    ...stage.readings.map((reading) =>
      line(
        `${late}${readingText(reading, stage, unit)}`,
        afterSignature || reading.status === 'dropped' || reading.status === 'moved',
      ),
    ),
  ];
}

function readingText(reading: DiffReading, stage: DiffStage, unit: Unit): string {
  const { name, status, before, after, from } = reading;
  const at = `${name} in “${stage.name}”`;
  switch (status) {
    case 'added':
      return `${at} added${behindText(stage)}: ${readText(after, unit)}`;
    case 'dropped':
      return `${at} dropped: it was ${readText(before, unit)}`;
    case 'moved':
      return `${at} was in “${from}”${behindText(stage)}: what was read before counts as read there`;
    case 'changed':
      return `${at} read ${arrow(readText(before, unit), readText(after, unit))}`;
  }
}

function entryLines({ entry, status, behind, ahead, changes }: DiffEntry, afterSignature: boolean): Line[] {
  const late = afterSignature && !entry.startsWith('note ') ? 'after the signature: ' : '';
  const isGrave = late !== '';
  const passed = [
    ...(behind.length > 0
      ? [
          line(
            `${quoted(behind)} ${behind.length === 1 ? 'stands' : 'stand'} behind ${entry} now, and did not: what ${behind.length === 1 ? 'it' : 'they'} read counts as read after it`,
            true,
          ),
        ]
      : []),
    ...(ahead.length > 0
      ? [line(`${quoted(ahead)} no longer ${ahead.length === 1 ? 'stands' : 'stand'} behind ${entry}`, true)]
      : []),
  ];
  const said = changes.map(changeText).join('; ');
  if (status === 'added' || status === 'dropped')
    return [line(`${late}${entry} ${status}`, isGrave || status === 'dropped'), ...passed];
  return [...(said === '' ? [] : [line(`${late}${entry}: ${said}`, isGrave)]), ...passed];
}

const factText = (stage: DiffStage): Line[] =>
  stage.facts.map((change) =>
    line(`“${stage.name}”: ${changeText(change)}`, isGraveFact(change.what, change.after)),
  );

const isGraveFact = (what: string, after: string | null): boolean =>
  what === 'base' ||
  what === 'control points that moved' ||
  (what === 'alignment' && after === 'provisional');

/** Verdicts that turned, the bad ones first; then figures alone. */
function figureLines(stage: DiffStage, unit: Unit): Line[] {
  // nothing was read anew: a verdict that got better did so by a wider limit, or another reference
  const unread = stage.readings.length === 0;
  const marked = (told: Line, isOther: boolean): Line => ({
    ...told,
    isGrave: told.isGrave || (unread && isOther),
  });
  const turns = ({ before, after }: DiffStage['points'][number] | DiffStage['distances'][number]): boolean =>
    before !== null && after !== null && before.verdict !== after.verdict;
  const points = stage.points.map((point) => ({
    ...point,
    line: marked(pointLine(point, stage.name, unit), turns(point)),
  }));
  const distances = stage.distances.map((span) => ({
    ...span,
    line: marked(distanceLine(span, stage.name, unit), turns(span)),
  }));
  const all = [...points, ...distances].filter(({ before, after }) => before !== null && after !== null);
  const isTurned = ({ before, after }: (typeof all)[number]): boolean => before?.verdict !== after?.verdict;
  return [
    ...factText(stage),
    ...all.filter(isTurned).map((each) => each.line),
    ...all.filter((each) => !isTurned(each)).map((each) => each.line),
  ];
}

const isWorse = (before: { verdict: string } | null, after: { verdict: string } | null): boolean =>
  before?.verdict !== after?.verdict && after?.verdict !== 'within';

type PointFigures = DiffStage['points'][number];

function pointLine({ point, before, after }: PointFigures, stage: string, unit: Unit): Line {
  const off = (mm: number | null, k: 0 | 1 | 2): string => {
    if (mm === null) return 'not known';
    const said = lengthFigure(Math.abs(mm), unit);
    return Number(said) === 0 ? '0' : `${said} ${directionPhrase(k, mm, sideOf(point))}`;
  };
  const moves = axes.flatMap((k) => {
    const [was, now] = [off(before?.deviation[k] ?? null, k), off(after?.deviation[k] ?? null, k)];
    const u = after?.uncertainty[k] ?? null;
    return was === now
      ? []
      : [`${axisNames[k]} ${was} → ${now}${u === null ? '' : ` ${certaintyText(u, unit)}`}`];
  });
  const verdicts = arrow(before?.verdict ?? null, after?.verdict ?? null);
  return line(`${point} in “${stage}”: ${[verdicts, ...moves].join('; ')}`, isWorse(before, after));
}

type DistanceFigures = DiffStage['distances'][number];

function distanceLine({ name, before, after }: DistanceFigures, stage: string, unit: Unit): Line {
  const off = (mm: number | undefined): string =>
    mm === undefined ? 'not known' : `${lengthFigure(Math.abs(mm), unit)} ${mm < 0 ? 'short' : 'long'}`;
  const verdicts = arrow(before?.verdict ?? null, after?.verdict ?? null);
  const certainty = after === null ? '' : ` ${certaintyText(after.uncertainty, unit)}`;
  return line(
    `${name} in “${stage}”: ${verdicts}; ${arrow(off(before?.deviation), off(after?.deviation))}${certainty}`,
    isWorse(before, after),
  );
}
