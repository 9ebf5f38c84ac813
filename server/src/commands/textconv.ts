import { inWords, keyWord, statedIn } from '../diff/compared';
import { entryName } from '../diff/entry-changes';
import { readIn } from '../diff/stage-changes';
import type { Chassis } from '../model/chassis';
import type { Job, TimelineEntry } from '../model/job';
import { chassisSheet } from '../model/read/chassis-from-text';
import { jobFrom } from '../model/read/job-from-text';
import { chassisFrom } from '../model/resolve/chassis-merge';
import { printable } from '../text/printable';
import { parseText } from '../text/yaml/parse';
import { fileKind } from '../workspace/files';

/**
 * A file as plain lines, a fact a line, for `git diff` to compare: the same facts give the same lines however they are typed. Of this file
 * alone: nothing is judged. Lengths mm; a body in vehicle axes, readings as the instrument counts. Other texts are given back as they are.
 */
export function plainLines(uri: string, text: string): string[] {
  const tree = parseText(text);
  const kind = fileKind(uri) ?? kindOf(text);
  if (kind === 'settings' || kind === null || tree.root === null) return text.split(/\r?\n/);
  const lines =
    kind === 'chassis' ? bodyLines(chassisFrom([chassisSheet(uri, tree)])) : jobLines(jobFrom(uri, tree));
  const broken = tree.problems.map(({ message }) => `broken: ${message}`);
  return [...broken, ...lines].map(printable);
}

/** A temporary file has a name of its own. */
const kindOf = (text: string): 'chassis' | 'readings' | null => {
  const word = /^\uFEFF?framewright[ \t]*:[ \t]*["']?(chassis|readings)\//m.exec(text)?.[1];
  return word === 'chassis' || word === 'readings' ? word : null;
};

const stated = (name: string, value: unknown): string[] => {
  const said = inWords(value);
  return said === null ? [] : [`${name}: ${said}`];
};

const factsText = (facts: object): string =>
  statedIn(facts)
    .map(([key, said]) => `, ${keyWord(key)} ${said}`)
    .join('');

function bodyLines(chassis: Chassis): string[] {
  const { vehicle, source, conditions, buildMm, buildElsewhereMm, parts, points, spans } = chassis;
  return [
    ...stated('vehicle', vehicle),
    ...stated('source', source),
    ...stated('conditions', conditions),
    ...stated('build', buildMm),
    ...stated('build-elsewhere', buildElsewhereMm),
    ...[...parts.values()].map(({ id, steel, straighten, section, heat, attached, reference }) => {
      const facts = { steel, straighten, section, heat, attached, reference };
      return `part ${id}${factsText(facts)}`;
    }),
    ...[...points.values()].map(
      ({ id, reference, limits, uncertaintyMm, part, base, fixing, source: own }) => {
        const facts = { limits, uncertaintyMm, part, base, fixing, source: own };
        return `point ${id} ${inWords(reference)}${factsText(facts)}`;
      },
    ),
    ...spans.map(({ from, to, distanceMm, limits, uncertaintyMm, level }) => {
      const facts = { limits, uncertaintyMm, level };
      return `distance ${from} to ${to} ${inWords(distanceMm)}${factsText(facts)}`;
    }),
  ];
}

function jobLines(job: Job): string[] {
  const { chassisPath, order, technician, instrument, axes, base, conditions, anchors, scope, signOff } = job;
  return [
    ...stated('chassis', chassisPath),
    ...stated('order', order),
    ...stated('technician', technician),
    ...stated('instrument', instrument),
    ...stated('axes', axes),
    ...stated('base', base.kind === 'ids' ? base.ids : base.kind === 'auto' ? 'auto' : base),
    ...stated('conditions', conditions),
    ...stated('anchors', anchors),
    ...stated('scope', scope?.length === 0 ? 'nothing' : scope),
    ...job.timeline.flatMap(entryLines),
    ...job.ignores.map(({ rule, at, reason }) => `silenced ${rule} at ${at}: ${reason}`),
    ...(signOff === null ? [] : stated('signed', signOff)),
  ];
}

function entryLines(entry: TimelineEntry): string[] {
  if (entry.kind !== 'measure') return [`${entryName(entry)}${factsText(entry)}`];
  const { name, by, at, setUp, instrument, conditions, note } = entry;
  const facts = { by, at, 'set-up': setUp, instrument: inWords(instrument), conditions, note };
  return [
    `measure “${name}”${factsText(facts)}`,
    ...[...readIn(entry)].map(([id, read]) => `“${name}” ${id} ${inWords(read) ?? 'no numbers'}`),
  ];
}
