import { type Gap, inFile, inJob } from '../attack';
import { settingsPath } from '../shop';
import { neighboursUnread, tipOutside } from '../truths';

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
];
