import type { Chassis, WidenedSpan } from '../../model/chassis';
import { fileName } from '../../model/file-name';
import type { LimitsInForce } from '../../model/limits';
import type { Replacement } from '../../model/problem';
import type { PositionKey } from '../../model/sheet-axes';
import { entryOf, type Node, offsetsOf } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import { sheetBands, typedTolerance, widerPhrases } from '../../wording/tolerance-words';
import { limitsText, listPhrase } from '../../wording/wording';
import type { Draft, Rule } from '../rule/rule';

export const widerTolerance: Rule = {
  name: 'chassis/wider-tolerance',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'always',
  page: {
    summary: 'A file allows more than the file that it extends: on a point, on a distance, or as a whole.',
    why: 'The limits are the maker’s, and a variant of a body seldom has wider ones. Where they are widened here, a car passes that is out by the parent’s sheet, and nobody sees it in the job. So it is told here, and the record of a job names the limits that are wider than in the first file that has the point.',
    example:
      'extends: ./marten-hatch.chassis.yaml       # there: tolerance 2\npoints:\n  rear-rail-tip: { both: [-1097, 512, 268], tolerance: 5 }',
    exampleIn: { place: 'chassis' },
    mend: 'Look the limit up in the sheet of this body. Where it is the parent’s, take the fix. Where the sheet allows more, silence the finding with a reason that names the sheet.',
    source: 'A rule of the program itself.',
  },
  ofChassis: ({ chassis }): Draft[] => {
    if (chassis.broken || chassis.fileTolerance === null) return [];
    const { root } = parseText(chassis.chain[0].text);
    const file = entryOf(root, 'tolerance')?.value;
    const { now, before, uri } = chassis.fileTolerance;
    const points = entryOf(root, 'points')?.value;
    return [
      ...(file
        ? drafts({
            chassis,
            node: file,
            now,
            before,
            uri,
            keys: ['both'],
            what: 'the tolerance of this file',
          })
        : []),
      ...chassis.overridden.flatMap((point) => {
        // without one of its own it has that of the file, which is told above, or has lost the parent's
        const node = entryOf(entryOf(points, point.name)?.value, 'tolerance')?.value;
        if (!node) return [];
        const { limits, uri: from } = point.before;
        const what = `the tolerance of ${point.name}`;
        return drafts({
          chassis,
          node,
          now: point.limits,
          before: limits,
          uri: from,
          keys: point.keys,
          what,
        });
      }),
      ...chassis.widenedSpans.map((span) => spanDraft(span, chassis)),
    ];
  },
};

function spanDraft({ span, before }: WidenedSpan, { unit }: Chassis): Draft {
  const { from, to, limits, origin } = span;
  return {
    place: origin.place,
    message: `the tolerance of the distance ${from} to ${to} is wider than in ${fileName(before.origin.uri)}: ${limitsText(limits, unit)} (there ${limitsText(before.limits, unit)}), in ${unit}`,
    related: [{ ...before.origin, message: `${from} to ${to} in the file that this one extends` }],
  };
}

interface Compared {
  readonly chassis: Chassis;
  readonly node: Node;
  readonly now: LimitsInForce;
  readonly before: LimitsInForce;
  readonly uri: string;
  readonly keys: readonly PositionKey[];
  readonly what: string;
}

function drafts({ chassis, node, now, before, uri, keys, what }: Compared): Draft[] {
  const { unit } = chassis;
  const phrases = widerPhrases(sheetBands(now, chassis, keys[0]), sheetBands(before, chassis, keys[0]), unit);
  if (phrases.length === 0) return [];
  const { start, end } = offsetsOf(node.place);
  // the tree was made anew: offsets of the whole text
  const place = { block: { start: 0 }, start, end };
  const text = typedTolerance(sheetBands(before, chassis, keys[0]), unit);
  const fix: Replacement = { title: `Write ${text}, as ${fileName(uri)} has it`, place, text };
  return [
    {
      place,
      message: `${what} is wider than in ${fileName(uri)}: ${listPhrase(phrases)}, in ${unit}`,
      replacements: [fix],
    },
  ];
}
