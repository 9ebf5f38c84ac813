import type { Chassis } from '../../model/chassis';
import { fileName } from '../../model/file-name';
import type { Overridden } from '../../model/overrides';
import type { Replacement } from '../../model/problem';
import { entryInsertion, plainOrQuoted } from '../../text/edits';
import { entryOf, type Node, offsetsOf, type TextTree, textOf } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import { sheetBands, typedTolerance } from '../../wording/tolerance-words';
import { listPhrase } from '../../wording/wording';
import type { Draft, Rule } from '../rule/rule';

export const overrideDrops: Rule = {
  name: 'chassis/override-drops',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'always',
  page: {
    summary:
      'A point that is given anew loses what the parent file says of it: `base`, `part`, `tolerance` or `fixing`; or it is given to another part.',
    why: 'An entry replaces the parent’s entry whole. Somebody who only wants to correct a position easily forgets the rest: a control point is none any more, a point belongs to no part, or to another, and is not asked for where its own was worked on, or it is judged by a wider limit.',
    example:
      'extends: ./marten-hatch.chassis.yaml       # there: part: floor, base: true\npoints:\n  rear-floor: { both: [-1050, 390, 296] }',
    exampleIn: { place: 'chassis' },
    mend: 'Take the fix, which writes what the parent has. Where it is meant to go, say so: `base: false`, the tolerance that holds, or silence the finding with a reason.',
    source: 'A rule of the program itself.',
  },
  ofChassis: ({ chassis }): Draft[] => {
    if (chassis.broken || chassis.overridden.length === 0) return [];
    const tree = parseText(chassis.chain[0].text);
    const points = entryOf(tree.root, 'points')?.value;
    return chassis.overridden.flatMap((point) => {
      const node = entryOf(points, point.name)?.value ?? null;
      const lost = lostKeys(point, node, chassis);
      const moved = toAnotherPart(point, node);
      if (lost.length === 0) return moved;
      const { uri, place } = point.before;
      const fix = node && keepingFix(tree, node, lost);
      return [
        {
          place: point.place,
          message: `${point.name} is given anew and loses ${listPhrase(lost.map(({ key, text }) => `\`${key}: ${text}\``))} of ${fileName(uri)}: write it here, or say that it is not so`,
          related: [{ uri, place, message: `${point.name} in the file that this one extends` }],
          replacements: fix ? [fix] : [],
        },
        ...moved,
      ];
    });
  },
};

interface Lost {
  readonly key: string;
  readonly text: string;
}

/** What the parent's entry states, this one does not, and is not so now. */
function lostKeys({ keys, limits, before }: Overridden, node: Node | null, chassis: Chassis): Lost[] {
  const [was, is] = [before.limits, limits].map((each) =>
    typedTolerance(sheetBands(each, chassis, keys[0]), chassis.unit),
  );
  const stated = before.own.some((each) => each !== null);
  const all = [
    before.part === null ? null : { key: 'part', text: before.part },
    before.base ? { key: 'base', text: 'true' } : null,
    stated && was !== is ? { key: 'tolerance', text: was } : null,
    before.fixing === null ? null : { key: 'fixing', text: before.fixing },
  ];
  return all.filter((lost) => lost !== null).filter(({ key }) => entryOf(node, key) === undefined);
}

/** A scope that names the parent's part no longer asks for the point. */
function toAnotherPart({ name, before }: Overridden, node: Node | null): Draft[] {
  const part = entryOf(node, 'part')?.value;
  if (before.part === null || part?.kind !== 'scalar' || textOf(part) === before.part) return [];
  const { start, end } = offsetsOf(part.place);
  // the tree was made anew: offsets of the whole text
  const place = { block: { start: 0 }, start, end };
  return [
    {
      place,
      message: `${name} belongs to ${textOf(part)} here, and to ${before.part} in ${fileName(before.uri)}: where ${before.part} is judged, it is not asked for`,
      related: [
        { uri: before.uri, place: before.place, message: `${name} in the file that this one extends` },
      ],
      replacements: [{ title: `Write ${before.part}`, place, text: plainOrQuoted(before.part, 'flow') }],
    },
  ];
}

/** All of it behind the last key of the entry. */
function keepingFix(tree: TextTree, node: Node, lost: readonly Lost[]): Replacement | null {
  if (node.kind !== 'map') return null;
  const edits = lost.flatMap(({ key, text }) => entryInsertion(tree, node, key, [text]) ?? []);
  if (edits.length < lost.length) return null;
  const [{ start, end }] = edits;
  return {
    title: `Keep ${listPhrase(lost.map(({ key }) => key))} of the parent`,
    // no block: offsets of the whole text
    place: { block: { start: 0 }, start, end },
    text: edits.map(({ text }) => text).join(''),
  };
}
