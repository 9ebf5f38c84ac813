import type { TextRange } from '../../findings/rule/finding';
import type { Stage } from '../../inspection/job/stage';
import type { Measure, Reading, TimelineEntry } from '../../model/job';
import { entryOf, type Node, offsetsOf, textOf } from '../../text/tree';
import type { Analysis, JobAnalysis } from '../../workspace/workspace';

export type OutlineKind =
  | 'job'
  | 'vehicle'
  | 'group'
  | 'part'
  | 'point'
  | 'span'
  | 'stage'
  | 'pull'
  | 'work'
  | 'sign-off';

/** A line of the outline. `selection` lies in `range`, and `name` is never empty. */
export interface OutlineItem {
  readonly kind: OutlineKind;
  readonly name: string;
  readonly detail: string;
  readonly range: TextRange;
  readonly selection: TextRange;
  readonly children: readonly OutlineItem[];
}

/** An outline of more lines is read by nobody and slows the editor down. */
const mostItems = 2000;

/** Chassis: parts, points and spans. Job: stages with their readings, pulls, the other work and the sign-off. */
export function outlineOf(analysis: Analysis, most = mostItems): OutlineItem[] {
  if (analysis.kind === 'readings') return jobOutline(analysis, most);
  const { root } = analysis.tree;
  if (root?.kind !== 'map') return [];
  const groups =
    analysis.kind === 'settings'
      ? ([['rules', 'group']] as const)
      : ([
          ['parts', 'part'],
          ['points', 'point'],
          ['spans', 'span'],
        ] as const);
  let left = most;
  return groups.flatMap(([key, kind]): OutlineItem[] => {
    const entry = entryOf(root, key);
    if (!entry?.value || entry.value.kind === 'scalar') return [];
    const { value } = entry;
    const count = value.kind === 'map' ? value.entries.length : value.items.length;
    const children = itemsIn(value, kind).slice(0, Math.max(0, left));
    left -= children.length;
    return [
      item(
        'group',
        key,
        shownCount(children.length, count),
        [offsetsOf(entry.place), offsetsOf(entry.key.place)],
        children,
      ),
    ];
  });
}

function itemsIn(value: Node, kind: OutlineKind): OutlineItem[] {
  if (value.kind === 'map')
    return value.entries.map(({ key, value: given, place }) =>
      item(kind, textOf(key), detailOf(given), [offsetsOf(place), offsetsOf(key.place)]),
    );
  if (value.kind === 'scalar') return [];
  return value.items.map((each) => {
    const [from, to] = ['from', 'to'].map((end) => wordAt(each, end));
    return item(kind, `${from} – ${to}`, wordAt(each, 'distance'), [offsetsOf(each.place)]);
  });
}

const wordAt = (node: Node | null, key: string): string => {
  const value = entryOf(node, key)?.value;
  return value?.kind === 'scalar' ? textOf(value) : '';
};

/** A point's part, a part's steel, a rule's severity. */
const detailOf = (node: Node | null): string =>
  node?.kind === 'scalar' ? textOf(node) : wordAt(node, 'part') || wordAt(node, 'steel');

function jobOutline({ job, inspection }: JobAnalysis, most: number): OutlineItem[] {
  const stages = new Map(inspection?.stages.map((stage) => [stage.measure, stage]));
  const timeline = job.timeline.slice(0, most);
  // the newest stages keep their readings: what is looked for is there
  let left = most - timeline.length;
  const readings = new Map<Measure, number>();
  for (const entry of [...timeline].reverse()) {
    if (entry.kind !== 'measure') continue;
    const shown = Math.min(left, entry.readings.length);
    readings.set(entry, shown);
    left -= shown;
  }
  const items = timeline.map((entry) =>
    entryItem(
      entry,
      entry.kind === 'measure' ? stages.get(entry) : undefined,
      entry.kind === 'measure' ? readings.get(entry)! : 0,
    ),
  );
  const { signOff } = job;
  if (!signOff) return items;
  return [
    ...items,
    item('sign-off', 'sign-off', [signOff.by, signOff.date].filter((each) => each !== null).join(', '), [
      offsetsOf(signOff.place),
      offsetsOf(signOff.keyPlace),
    ]),
  ];
}

function entryItem(entry: TimelineEntry, stage: Stage | undefined, shown: number): OutlineItem {
  const places = [offsetsOf(entry.place), offsetsOf(entry.keyPlace)] as const;
  switch (entry.kind) {
    case 'measure':
      return item(
        'stage',
        entry.name || 'measure',
        stageDetail(entry, stage, shown),
        places,
        readingItems(entry, stage, shown),
      );
    case 'pull':
      return item('pull', entry.title || 'pull', entry.part?.id ?? '', places);
    case 'relieve':
    case 'release':
      return item(
        'work',
        entry.kind,
        entry.parts === 'all' ? 'all' : entry.parts.map(({ id }) => id).join(', '),
        places,
      );
    case 'note':
      return item('work', 'note', entry.text, places);
    case 'observe':
      return item('work', entry.what, entry.part?.id ?? '', places);
    case 'join':
      return item('work', entry.kind, entry.parts.map(({ id }) => id).join(', '), places);
    default:
      return item('work', entry.kind, entry.part.id, places);
  }
}

function stageDetail(entry: Measure, stage: Stage | undefined, shown: number): string {
  const counts = stage
    ? (['outside', 'undecided'] as const).map(
        (verdict) => [verdict, stage.points.filter((each) => each.verdict === verdict).length] as const,
      )
    : [];
  const said = counts.filter(([, count]) => count > 0).map(([verdict, count]) => `${count} ${verdict}`);
  const count = shownCount(shown, entry.readings.length);
  return said.length > 0 ? `${said.join(', ')}; ${count} read` : `${count} read`;
}

function readingItems(entry: Measure, stage: Stage | undefined, shown: number): OutlineItem[] {
  if (shown === 0) return [];
  const verdicts = new Map(stage?.points.map(({ reading, verdict }) => [reading, verdict]));
  return entry.readings.slice(0, shown).map((reading) => {
    const key = offsetsOf(reading.key);
    const value = offsetsOf(reading.value);
    const range = { start: Math.min(key.start, value.start), end: Math.max(key.end, value.end) };
    return item('point', reading.id, wordOf(reading) ?? verdicts.get(reading) ?? '', [range, key]);
  });
}

const wordOf = ({ unreachable, asBefore }: Reading): string | null =>
  unreachable ? 'unreachable' : asBefore ? 'as before' : null;

const shownCount = (shown: number, count: number): string =>
  shown < count ? `${shown} of ${count}` : String(count);

/** On one line, and of some length: an editor refuses an outline with an empty name. */
const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim().slice(0, 200);

/** Its places are those of the whole and of its name. */
function item(
  kind: OutlineKind,
  name: string,
  detail: string,
  [range, selection = range]: readonly [TextRange, TextRange?],
  children: readonly OutlineItem[] = [],
): OutlineItem {
  const isInside = selection.start >= range.start && selection.end <= range.end;
  return {
    kind,
    name: oneLine(name) || '?',
    detail: oneLine(detail),
    range,
    selection: isInside ? selection : range,
    children,
  };
}
