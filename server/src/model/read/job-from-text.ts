import {
  type BaseEntry,
  judgingVersions,
  readingsKeys,
  readingsRequired,
  type SignOffEntry,
} from '@framewright/schemas';
import {
  entryOf,
  isNothing,
  type MapNode,
  type Node,
  offsetsOf,
  type TextTree,
  textOf,
} from '../../text/tree';
import type { BaseSetting, Job, SignOff, TimelineEntry } from '../job';
import type { Problem } from '../problem';
import { mmPer, type Unit } from '../units';
import { timelineEntry } from './entries';
import { givenIgnores } from './ignore-comments';
import { instrumentOf } from './instrument';
import { leftOutRows } from './left-out-rows';
import { mentionsIn, wordsOf } from './mentions';
import { isUnreadable, topLevel, withoutEchoes } from './top-level';

/** Reads a readings file. Never throws: what is wrong is reported and left out. Names are not resolved: that needs the chassis. */
export function jobFrom(uri: string, tree: TextTree): Job {
  const problems: Problem[] = [];
  const report = (problem: Problem) => problems.push(problem);
  const file = topLevel(tree, readingsKeys, readingsRequired, ['timeline'], report);
  const { value, root } = file;
  const unit: Unit = value.units ?? 'mm';
  const mm = mmPer[unit];
  // what all readings are read by must be right before the whole can be judged
  const faultyFrame = (['framewright', 'units', 'axes', 'base'] as const).some(
    (key) => entryOf(root, key) !== undefined && value[key] === undefined,
  );
  const before = problems.length;
  const timeline = timelineOf(root, mm, report);
  const timelineFaulty =
    problems.slice(before).some(({ rule, local }) => rule !== 'text/unknown-key' && !local) ||
    timeline.length < entryCount(root) ||
    tree.problems.some((problem) => problem.rule === 'text/duplicate-key' && isInside(problem, root));
  return {
    uri,
    unit,
    places: 'sheet',
    chassisPath: value.chassis ?? null,
    chassisPlace: entryOf(root, 'chassis')?.value?.place ?? null,
    order: value.order ?? null,
    orderPlace: entryOf(root, 'order')?.value?.place ?? null,
    technician: value.technician ?? null,
    instrument: value.instrument ? instrumentOf(value.instrument, entryOf(root, 'instrument'), mm) : null,
    axes: value.axes ?? ['forward', 'left', 'up'],
    base: baseOf(value.base, entryOf(root, 'base')?.value, mm),
    basePlace: entryOf(root, 'base')?.value?.place ?? null,
    conditions: wordsOf(value.conditions ? entryOf(root, 'conditions')?.value : null),
    anchors: value.anchors ? mentionsIn(entryOf(root, 'anchors')?.value) : [],
    scope: value.scope ? mentionsIn(entryOf(root, 'scope')?.value) : null,
    timeline,
    signOff: signOffOf(root, value['sign-off']),
    ignores: givenIgnores(tree),
    leftOut: leftOutRows(tree),
    problems: [...tree.problems, ...withoutEchoes(tree, problems)],
    broken: timelineFaulty || faultyFrame || isUnreadable(tree),
    head: file.head,
  };
}

function timelineOf(root: MapNode | null, mm: number, report: (problem: Problem) => void): TimelineEntry[] {
  const entry = entryOf(root, 'timeline');
  const list = entry?.value;
  if (!entry || isNothing(list)) return [];
  if (list.kind !== 'sequence') {
    report({
      rule: 'text/wrong-type',
      place: entry.key.place,
      message: '`timeline`: a list of entries belongs here, each beginning with `- `',
    });
    return [];
  }
  return list.items.flatMap((item) => timelineEntry(item, mm, report) ?? []);
}

function isInside(problem: Problem, root: MapNode | null): boolean {
  const timeline = entryOf(root, 'timeline')?.place;
  if (!timeline) return false;
  const { start, end } = offsetsOf(timeline);
  // the second of two ends no block that is kept; the first stands in one
  const at = offsetsOf((problem.related?.[0] ?? problem).place).start;
  return at >= start && at <= end;
}

function entryCount(root: MapNode | null): number {
  const list = entryOf(root, 'timeline')?.value;
  return list?.kind === 'sequence' ? list.items.length : 0;
}

function baseOf(value: BaseEntry | undefined, node: Node | null | undefined, mm: number): BaseSetting {
  if (Array.isArray(value)) return { kind: 'ids', ids: mentionsIn(node) };
  if (typeof value === 'object') {
    const [from, to] = value.between;
    return { kind: 'between', fromMm: from * mm, toMm: to * mm };
  }
  return { kind: 'auto' };
}

/** The word under a key, as written; null where there is none. */
function wordAt(map: Node | null, key: string): string | null {
  const word = entryOf(map, key)?.value;
  return word?.kind !== 'scalar' || isNothing(word) || textOf(word).trim() === '' ? null : textOf(word);
}

function signOffOf(
  root: MapNode | null,
  value:
    | (Pick<SignOffEntry, 'judged-by'> & Partial<Pick<SignOffEntry, 'by' | 'date' | 'chassis' | 'readings'>>)
    | undefined,
): SignOff | null {
  const entry = entryOf(root, 'sign-off');
  if (!entry) return null;
  const accepted = entryOf(entry.value, 'accepted')?.value;
  const items = accepted?.kind === 'sequence' ? accepted.items : [];
  return {
    // a slip in one line does not undo the others
    by: value?.by ?? wordAt(entry.value, 'by'),
    date: value?.date ?? wordAt(entry.value, 'date'),
    chassis: value?.chassis ?? wordAt(entry.value, 'chassis'),
    chassisPlace: entryOf(entry.value, 'chassis')?.value?.place ?? null,
    readings: value?.readings ?? wordAt(entry.value, 'readings'),
    readingsPlace: entryOf(entry.value, 'readings')?.value?.place ?? null,
    judgedBy: value?.['judged-by'] ?? judgingVersions[0],
    accepted: items.flatMap((item) => {
      const point = entryOf(item, 'point')?.value;
      const reason = entryOf(item, 'reason')?.value;
      if (
        point?.kind !== 'scalar' ||
        reason?.kind !== 'scalar' ||
        isNothing(point) ||
        isNothing(reason) ||
        textOf(reason).trim() === ''
      )
        return [];
      return [{ point: { id: textOf(point), place: point.place }, reason: textOf(reason) }];
    }),
    place: entry.place,
    keyPlace: entry.key.place,
  };
}
