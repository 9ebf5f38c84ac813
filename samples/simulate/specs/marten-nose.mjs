import { header, pointLines } from '../layout.mjs';
import { entries as martenEntries } from './marten-hatch.mjs';

export const path = 'specs/marten-nose.chassis.yaml';

/** The line at the nose that the sheet counts from, in the lengths of the other sheet. */
const noseMm = 3200;

const wanted = /^(floor|rear-floor|tunnel|cowl|sill-hole|rail-|strut-top|latch)/;

const shifted = (entry, change) =>
  Object.fromEntries(
    Object.entries(entry).map(([key, value]) => [
      key,
      ['both', 'left', 'right', 'centre'].includes(key) ? [change(value[0]), value[1], value[2]] : value,
    ]),
  );

const chosen = martenEntries.filter(({ name }) => wanted.test(name));

/** The points as data, in vehicle axes from the nose line: all lie behind it. */
export const entries = chosen.map((entry) => shifted(entry, (length) => length - noseMm));

/** The chassis file: lengths as the sheet has them, rearward from the nose. */
export const text = () => `framewright: chassis/1
${header(
  'The Marten hatchback by another sheet, which counts lengths rearward from a line at the nose. They are typed as they',
  'stand there; `axes` says how they count.',
)}vehicle: Marten five-door hatchback, 2021 on
axes: [rearward, outboard, up]
source: { kind: published, reference: body dimension sheet 9, date: 2026-02-10 }
conditions: { powertrain: in, suspension: in }
datum:
  length: ${noseMm - 1200} to the centre of the front floor locating holes, rearward

parts:
  floor:            { steel: mild, straighten: freely }
  cowl:             { steel: high-strength, straighten: freely }
  radiator-support: { steel: mild, straighten: freely }
  apron:            { sided: true, steel: high-strength, straighten: freely }
  sill:             { sided: true, steel: ultra-high-strength, straighten: minor }
  front-rail:
    sided: true
    steel: ultra-high-strength
    straighten: minor
    section: [${noseMm - 2700}, ${noseMm - 2450}]           # low first, as this sheet counts
    heat: never
    reference: body repair manual 31-20

points:
${pointLines(chosen.map((entry) => shifted(entry, (length) => noseMm - length)))}
`;
