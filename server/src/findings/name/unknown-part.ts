import type { Rule } from '../rule/rule';

/** Raised where names and files are looked up. */
export const unknownPart: Rule = {
  name: 'name/unknown-part',
  severity: 'error',
  since: '0.1',
  raisedBy: 'names',
  failsCheck: 'always',
  page: {
    summary: 'A part is named that the chassis file does not have.',
    why: "What was pulled, cut or replaced decides which readings still count and which of the maker's limits apply. A part that is not there has none.",
    example: '  - replace: aprn.L',
    exampleIn: { place: 'entry' },
    mend: 'Take the name that is suggested, or add the part to the chassis file.',
    source: 'The language page, schemas/README.md.',
  },
};
