import { type Gap, inFile, inFinished, inJob, variant, withOwnSheet } from '../attack';
import { settingsPath } from '../shop';
import { neighboursUnread, shoulderUnread, tipOutside } from '../truths';

/** What nobody is told of. The test holds that it is so: what is mended moves to the table of its kind. */
export const gaps: readonly Gap[] = [
  {
    name: 'the settings leave the folder of jobs out, and the repository is checked as a whole',
    truth: tipOutside,
    trick: inFile(settingsPath, 'decision-rule: simple\n', 'decision-rule: simple\nignore: [jobs]\n'),
    seals: 'anew',
    why: 'What `ignore` names is left out on purpose and not said. A file that is named itself is checked; the change of the settings stands in the history.',
  },
  {
    name: 'the join does not say to what, so that the neighbours keep their readings',
    truth: neighboursUnread,
    trick: inJob('    to: [rear-rail.R, tailgate-opening]\n', ''),
    seals: 'anew',
    why: 'Told for information only (`procedure/join-alone`, `check --verbose`).',
  },
  {
    name: 'a sheet of the shop’s own lists a distance anew, with a wider tolerance',
    truth: {
      what: 'a distance across the opening is 9 mm too long',
      written: inFinished('tailgate-corner.R,     1104.5', 'tailgate-corner.R,     1113.5'),
      refusedBy: 'sign-off/outside',
    },
    trick: withOwnSheet(
      variant(
        'spans:\n  - { from: tailgate-corner.L, to: tailgate-corner.R, distance: 1104.0, tolerance: 12 }\n',
      ),
    ),
    seals: 'anew',
    why: 'The record states the limit beside the distance.',
  },
  {
    name: 'a sheet of the shop’s own gives a point that was not read to another part, so that no scope asks for it',
    truth: shoulderUnread,
    trick: withOwnSheet(
      variant('points:\n  tailgate-shoulder: { both: [-1702, 571, 930], part: roof, fixing: edge }\n'),
    ),
    seals: 'anew',
    why: 'The record lists the point among those that nobody read.',
  },
];
