import type { DiffJob, DiffReading } from '@framewright/schemas';
import { lengthText, type Unit } from '../model/units';
import { listPhrase } from '../text/lists';
import { counted } from './line';
import { standingChange } from './verdict-words';

/** The first line of a job: what was done to it, what that does to its verdicts, and how it stands. */
export function jobVerdict(job: DiffJob, isSame: boolean, unit: Unit): string {
  const { before, after, afterSignature, signedAnew } = job;
  const said = standingChange(before, after);
  if (isSame) return `same meaning: ${said}`;
  const changes = [...changedTexts(job, unit), ...verdictTexts(job)];
  const whole = [...(changes.length === 0 ? [] : [changes.join(', ')]), said].join('; ');
  if (afterSignature) return `changed after the signature: ${whole}`;
  return signedAnew ? `signed anew: ${whole}` : whole;
}

const changedTexts = (job: DiffJob, unit: Unit): string[] => [
  ...readingTexts(
    job.stages.flatMap(({ readings }) => readings),
    unit,
  ),
  ...(['added', 'dropped'] as const).flatMap((status) =>
    countedIf(job.stages.filter((stage) => stage.status === status).length, 'measure', status),
  ),
  ...entryTexts(job.entries),
  ...headTexts(job.head),
];

const countedIf = (count: number, what: string, status: string, many = `${what}s`): string[] =>
  count === 0 ? [] : [`${counted(count, what, many)} ${status}`];

function readingTexts(readings: readonly DiffReading[], unit: Unit): string[] {
  const most = Math.max(0, ...readings.map(changedMm));
  const many = readings.filter(({ status }) => status === 'changed').length;
  const by = most > 0 ? ` (${many > 1 ? 'up to ' : ''}${lengthText(most, unit)})` : '';
  return (['changed', 'added', 'dropped', 'moved'] as const).flatMap((status) =>
    countedIf(readings.filter((reading) => reading.status === status).length, 'reading', status).map(
      (text) => (status === 'changed' ? text + by : text),
    ),
  );
}

/** Between the means of its repeats. */
function changedMm({ status, before, after }: DiffReading): number {
  if (status !== 'changed' || !Array.isArray(before) || !Array.isArray(after)) return 0;
  const [was, now] = [meanOf(before), meanOf(after)];
  return was.length === now.length ? Math.hypot(...now.map((mm, k) => mm - was[k])) : 0;
}

const meanOf = (rows: readonly (readonly number[])[]): number[] =>
  (rows[0] ?? []).map((_, k) => rows.reduce((sum, row) => sum + row[k], 0) / rows.length);

/** What an entry is called by the first word of its name. */
const entryWords: Readonly<Record<string, string>> = { observe: 'observation', relieve: 'relief' };

function entryTexts(entries: DiffJob['entries']): string[] {
  const counts = new Map<string, { what: string; status: string; count: number }>();
  for (const { entry, status } of entries) {
    const [word] = entry.split(' ');
    const what = entryWords[word] ?? word;
    const key = `${what} ${status}`;
    counts.set(key, { what, status, count: (counts.get(key)?.count ?? 0) + 1 });
  }
  return [...counts.values()].flatMap(({ what, status, count }) =>
    countedIf(count, what, status, `${what}${what.endsWith('h') ? 'es' : 's'}`),
  );
}

/** `scope and base changed`: a name alone, without the point or rule that it is about. */
function headTexts(head: DiffJob['head']): string[] {
  const names = [...new Set(head.map(({ what }) => what.split(' ')[0]))];
  return names.length === 0 ? [] : [`${listPhrase(names)} changed`];
}

/** Of readings that both sides judge. Nothing is said where a side cannot be judged, or where measures alone came or went. */
function verdictTexts({ before, after, stages, entries, head }: DiffJob): string[] {
  if (before?.passes == null || after?.passes == null) return [];
  const turned = stages
    .flatMap(({ points, distances }) => [...points, ...distances])
    .filter(
      ({ before: was, after: now }) => was !== null && now !== null && was.verdict !== now.verdict,
    ).length;
  if (turned > 0) return [`${counted(turned, 'verdict')} changed`];
  const isKept = stages.every(
    ({ status, readings }) => status === 'kept' && readings.every((reading) => reading.status === 'changed'),
  );
  return isKept && stages.length + entries.length + head.length > 0 ? ['no verdict changed'] : [];
}
