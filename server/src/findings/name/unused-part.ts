import type { Draft, Rule } from '../rule/rule';

export const unusedPart: Rule = {
  name: 'name/unused-part',
  severity: 'information',
  since: '0.1',
  failsCheck: 'always',
  unneeded: true,
  page: {
    summary: 'A part is defined that no point stands on.',
    why: 'Nothing of it can be measured, so nothing that is done to it can be shown to be right. Often the points are there and only lack their `part:`.',
    example: 'parts:\n  sill: { sided: true, steel: ultra-high-strength }      # no point says part: sill',
    exampleIn: {
      place: 'chassis',
      before: 'vehicle: Marten',
      after: `points:
  latch: { centre: [3050, 0, 780] }`,
    },
    mend: "Give its points `part:`, or remove the part. It may stay where only the maker's rules for it are wanted.",
    source: 'Common practice in the trade.',
  },
  ofChassis: ({ chassis }) => {
    // a point that could not be read may be the one that stands on it
    if (chassis.broken || chassis.unread.points.size > 0) return [];
    const used = new Set([...chassis.points.values()].map((point) => point.part));
    const drafts = new Map<string, Draft>();
    for (const part of chassis.parts.values()) {
      if (part.origin.uri !== chassis.uri || used.has(part.id)) continue;
      if (part.side !== null && (used.has(`${part.name}.L`) || used.has(`${part.name}.R`))) continue;
      drafts.set(part.name, { place: part.origin.place, message: `no point stands on ${part.name}` });
    }
    return [...drafts.values()];
  },
};
