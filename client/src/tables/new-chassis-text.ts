/** The beginning of a shop's own chassis file. */

/** `Marten hatch, 2019` → `marten-hatch-2019.chassis.yaml`; null where nothing is left that may stand in a file's name. */
export const chassisFileName = (vehicle: string): string | null => {
  const slug = vehicle
    .normalize('NFKD')
    .replaceAll(/\p{Mark}/gu, '')
    .toLowerCase()
    .replaceAll(/[^\p{Letter}\p{Number}]+/gu, '-')
    .replaceAll(/^-|-$/g, '');
  return slug === '' ? null : `${slug}.chassis.yaml`;
};

/** Without a number: where a point belongs, and how far it may be off, is in the maker's data alone. */
export const newChassisText = (vehicle: string): string =>
  `framewright: chassis/1
vehicle: ${JSON.stringify(vehicle)}
units: mm
# Where the numbers are from; the maker's data are right where the two differ.
# source: { kind: published, reference: , date: }
# How far a point may be off, in mm.
# tolerance:

# What the maker's manual says of each part.
# parts:
#   front-rail: { sided: true, along: length, steel: high-strength, straighten: minor, reference: }

# A position is [length, width, height]; width is outboard. \`both\` makes a point on each side, .L and .R; \`centre\` one between them.
# Control points bear \`base: true\`: six or more, spread out, not all at one height. Readings are aligned on them.
points:
  # floor-front: { both: [ , , ], base: true }
`;
