import type { Chassis } from '../../model/chassis';
import type { Chain, Hold, Instrument, Job, Measure, Mention, SignOff, TimelineEntry } from '../../model/job';
import { idsNamed } from '../../model/names';
import type { DecisionRule } from '../../model/read/settings';
import { partIds } from '../../model/resolve/resolved-job';
import { type Plain, sortedSet } from './canonical';

/**
 * What a sign-off's `readings` seals: all that the job is judged by, in the keys of the language page. Lengths in mm, forces in kN,
 * temperatures in °C, times in s. Notes, titles, summaries and plans are left out.
 */
export const sealedReadings = (
  job: Job,
  chassis: Chassis,
  signOff: Pick<SignOff, 'by' | 'date' | 'judgedBy' | 'accepted'>,
  rule: DecisionRule,
): Plain => ({
  instrument: instrumentOf(job.instrument),
  axes: job.axes.join() === 'forward,left,up' ? null : job.axes,
  base: baseOf(job),
  conditions: wordsOf(job.conditions),
  anchors: pointsNamed(job.anchors, chassis),
  scope: job.scope && partsNamed(job.scope, chassis),
  timeline: job.timeline.map((entry) => sealedEntry(entry, chassis)),
  'sign-off': {
    by: signOff.by,
    date: signOff.date,
    'judged-by': signOff.judgedBy === '0.1' ? null : signOff.judgedBy,
    accepted: sortedSet(signOff.accepted.map(({ point, reason }) => ({ point: point.id, reason }))),
  },
  'decision-rule': rule === 'simple' ? null : rule,
  ignores: sortedSet(job.ignores.map(({ rule: silenced, at, reason }) => [silenced, at, reason])),
});

const instrumentOf = (instrument: Instrument | null): Plain =>
  instrument && {
    name: instrument.name,
    serial: instrument.serial,
    calibrated: instrument.calibrated,
    uncertainty: instrument.uncertaintyMm,
    repeatability: instrument.repeatabilityMm || null,
    'span-uncertainty': instrument.spanUncertaintyMm,
  };

function baseOf({ base }: Job): Plain {
  if (base.kind === 'auto') return null;
  return base.kind === 'between'
    ? { between: [base.fromMm, base.toMm] }
    : sortedSet(base.ids.map(({ id }) => id));
}

const wordsOf = (words: ReadonlyMap<string, { readonly text: string }> | null): Plain =>
  words && Object.fromEntries([...words].map(([key, { text }]) => [key, text]));

const partsNamed = (mentions: readonly Mention[], chassis: Chassis): Plain =>
  sortedSet(partIds(mentions, chassis));

const pointsNamed = (mentions: readonly Mention[], { points }: Chassis): Plain =>
  sortedSet(mentions.flatMap(({ id }) => named(id, points)));

/** A name without a side stands for both; an unknown one for itself. */
function named(id: string, known: ReadonlyMap<string, unknown>): readonly string[] {
  const ids = idsNamed(id, known);
  return ids.length === 0 ? [id] : ids;
}

function sealedEntry(entry: TimelineEntry, chassis: Chassis): Plain {
  switch (entry.kind) {
    case 'measure':
      return sealedMeasure(entry);
    case 'observe': {
      const { what, part, atMm, answered } = entry;
      return { observe: what, part: part?.id, at: atMm, answered: answered && { ...answered } };
    }
    case 'pull': {
      const { part, chains, holds } = entry;
      const hold = sortedSet(holds.flatMap((each) => sealedHold(each, chassis)));
      return { pull: true, part: part?.id, chains: chains.map(sealedChain), hold };
    }
    case 'relieve':
    case 'release':
      return { [entry.kind]: entry.parts === 'all' ? ['all'] : partsNamed(entry.parts, chassis) };
    case 'section':
      return { section: entry.part.id, at: entry.cutsMm, beyond: entry.beyond };
    case 'replace':
      return { replace: entry.part.id };
    case 'join': {
      const { parts, how, to } = entry;
      return {
        join: partsNamed(parts, chassis),
        with: how && sortedSet(how),
        to: to && partsNamed(to, chassis),
      };
    }
    case 'heat':
      return { heat: entry.part.id, to: entry.toCelsius, for: entry.forSeconds };
    case 'note':
      return null;
  }
}

const sealedMeasure = ({ by, at, instrument, conditions, setUp, readings, spans }: Measure): Plain => ({
  measure: true,
  by,
  at,
  instrument: instrumentOf(instrument),
  conditions: wordsOf(conditions),
  'set-up': setUp,
  readings: Object.fromEntries(
    readings.map(({ id, triplesMm, unreachable, asBefore }) => [
      id,
      unreachable ? 'unreachable' : asBefore ? 'as-before' : triplesMm,
    ]),
  ),
  spans: sortedSet(
    spans.map(({ from, to, distancesMm, unreachable }) => [
      ...[from, to].sort(),
      unreachable ? 'unreachable' : distancesMm,
    ]),
  ),
});

const sealedChain = ({ hook, direction, forceKn }: Chain): Plain => ({
  hook: hook.id,
  direction,
  force: forceKn,
});

const sealedHold = (hold: Hold, { points, parts }: Chassis): Plain[] =>
  hold.kind === 'point'
    ? [...named(hold.point.id, points)]
    : named(hold.part.id, parts).map((part) => ({ part, at: hold.atMm }));
