import { chassisKeys, chassisRequired, chassisRequiredUnlessExtends } from '@framewright/schemas';
import { entryOf, isNothing, type MapEntry, type MapNode, type TextTree, textOf } from '../../text/tree';
import type { ChassisSheet, PartSheet, PointSheet, Removal } from '../chassis-sheet';
import type { Problem } from '../problem';
import { defaultSheetAxes, type SheetNumbers } from '../sheet-axes';
import { mmPer, type Unit } from '../units';
import { memberSheets } from './members-from-text';
import { isName, mendedName, nameIn } from './names-from-text';
import { partSheet } from './part-from-text';
import { nothingRead, pointSheet, sourceOf } from './point-from-text';
import { spanSheets } from './spans-from-text';
import { limitsOf } from './tolerances';
import { isUnreadable, topLevel, withoutEchoes } from './top-level';

type Report = (problem: Problem) => void;

/** Reads a chassis file. Never throws: what is wrong is reported and left out. */
export function chassisSheet(uri: string, tree: TextTree): ChassisSheet {
  const problems: Problem[] = [];
  const report: Report = (problem) => problems.push(problem);
  const extending = entryOf(tree.root, 'extends') !== undefined;
  const required = extending ? chassisRequired : [...chassisRequired, ...chassisRequiredUnlessExtends];
  const file = topLevel(tree, chassisKeys, required, ['parts', 'points', 'spans', 'members'], report);
  const { value } = file;
  const kindNode = entryOf(tree.root, 'framewright')?.value;
  const kind = kindNode?.kind === 'scalar' ? textOf(kindNode) : undefined;
  const unit: Unit = value.units ?? 'mm';
  const unitPlace = entryOf(file.root, 'units')?.value?.place ?? null;
  const mm = mmPer[unit];
  const axes = value.axes ?? defaultSheetAxes;
  const numbers: SheetNumbers = { mm, axes };
  const faultyFrame =
    kindNode === undefined ||
    frameKeys.some((key) => entryOf(file.root, key) !== undefined && value[key] === undefined);
  const { parts, unread: unreadParts } = partsOf(file.root, numbers, extending, report);
  const { points, unread: unreadPoints } = pointsOf(file.root, numbers, extending, report);
  if (!extending) missingValues(file.root).forEach(report);
  return {
    uri,
    text: tree.text,
    vehicle: value.vehicle ?? null,
    unit,
    axes,
    source: value.source ? sourceOf(value.source) : null,
    sourceUncertaintyMm: value.source?.uncertainty === undefined ? null : value.source.uncertainty * mm,
    conditions: value.conditions ? new Map(Object.entries(value.conditions)) : null,
    buildMm: value.build === undefined ? null : value.build * mm,
    buildElsewhereMm: value['build-elsewhere'] === undefined ? null : value['build-elsewhere'] * mm,
    tolerance: limitsOf(value.tolerance, numbers),
    extendsPath: value.extends ?? null,
    extendsPlace: entryOf(file.root, 'extends')?.value?.place ?? null,
    parts,
    points,
    spans: spanSheets(file.root, mm, report),
    members: memberSheets(mapEntries(file.root, 'members', report), report),
    unread: { points: unreadPoints, parts: unreadParts },
    isChassis: kind === undefined ? hasChassisKey(file.root) : kind.startsWith('chassis/'),
    problems: [...tree.problems, ...withoutEchoes(tree, problems)],
    broken: isUnreadable(tree) || faultyFrame,
    head: file.head,
    unitPlace,
    axesPlace: entryOf(file.root, 'axes')?.value?.place ?? null,
  };
}

/** What every point is read and judged by. Without its first line it is not known which version of the format was meant. */
const frameKeys = [
  'framewright',
  'units',
  'axes',
  'build',
  'build-elsewhere',
  'tolerance',
  'source',
  'extends',
] as const;

/** The parts by name; `unread`: those of which nothing could be read, by the name that was likely meant. */
function partsOf(root: MapNode | null, numbers: SheetNumbers, extending: boolean, report: Report) {
  const unread = new Set<string>();
  const parts = new Map<string, PartSheet | Removal>();
  for (const entry of mapEntries(root, 'parts', report)) {
    const name = nameIn(entry, report);
    const removed = isRemoval(entry);
    const part = name === null || removed ? null : partSheet(name, entry, numbers, report);
    if (name !== null && part !== null) parts.set(name, part);
    else if (name !== null && removed && extending) parts.set(name, { removed: entry.key.place });
    else unread.add(name ?? mendedName(entry));
  }
  return { parts, unread };
}

/** The same of points; one of which something could not be read is `unread`, too. */
function pointsOf(root: MapNode | null, numbers: SheetNumbers, extending: boolean, report: Report) {
  const unread = new Set<string>();
  const points = new Map<string, PointSheet | Removal>();
  for (const entry of mapEntries(root, 'points', report)) {
    const name = nameIn(entry, report);
    const removed = isRemoval(entry);
    const { point, whole } =
      name === null || removed ? nothingRead : pointSheet(name, entry, numbers, report);
    if (name !== null && point !== null) points.set(name, point);
    if (name !== null && removed && extending) points.set(name, { removed: entry.key.place });
    else if (!whole) unread.add(name ?? mendedName(entry));
  }
  return { points, unread };
}

/** Tells a chassis file whose first line is not typed yet from any other text. */
const hasChassisKey = (root: MapNode | null): boolean =>
  Object.keys(chassisKeys).some((key) => entryOf(root, key) !== undefined);

/** What is removed though there is nothing to remove it from. */
function missingValues(root: MapNode | null): Problem[] {
  const points = entryOf(root, 'points');
  const entries = (['parts', 'points'] as const).flatMap((key) => mapEntries(root, key, () => {}));
  return [...(points ? [points] : []), ...entries.filter(isName)].filter(isRemoval).map(({ key }) => ({
    rule: 'text/wrong-type',
    place: key.place,
    message: `nothing is given for \`${textOf(key)}\``,
  }));
}

function mapEntries(root: MapNode | null, key: string, report: Report): readonly MapEntry[] {
  const value = entryOf(root, key)?.value;
  if (isNothing(value)) return [];
  if (value.kind === 'map') return value.entries;
  report({ rule: 'text/wrong-type', place: value.place, message: `\`${key}\`: a map of names belongs here` });
  return [];
}

const isRemoval = (entry: MapEntry): boolean => isNothing(entry.value);
