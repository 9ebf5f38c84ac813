import type { Rule } from '../rule/rule';

/** Raised where names and files are looked up. */
export const needsSide: Rule = {
  name: 'name/needs-side',
  severity: 'error',
  since: '0.1',
  raisedBy: 'names',
  failsCheck: 'always',
  page: {
    summary: 'A point or part that exists on both sides is named without its side.',
    why: 'Left and right are two points. A reading without its side cannot be judged, and the wrong side is the most expensive mistake in a job.',
    example: '      rail-tip-lower: [2998.4, 450.1, 211.0]',
    exampleIn: { place: 'row' },
    mend: 'Add `.L` for the left or `.R` for the right: the sides of someone seated facing forward. `scope`, `anchors`, `relieve`, `release`, `join` (with its `to`) and `hold` take a bare name for both sides; `observe`, `pull`, `section`, `replace` and `heat` never do.',
    source: 'The language page, schemas/README.md; left and right as in ISO 8855.',
  },
};
