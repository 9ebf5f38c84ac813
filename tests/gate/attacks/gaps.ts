import { type Gap, inJob } from '../attack';
import { neighboursUnread } from '../truths';

/** What nobody is told of. The test holds that it is so: what is mended moves to the table of its kind. */
export const gaps: readonly Gap[] = [
  {
    name: 'the join does not say to what, so that the neighbours keep their readings',
    truth: neighboursUnread,
    trick: inJob('    to: [rear-rail.R, tailgate-opening]\n', ''),
    seals: 'anew',
    why: 'Told for information only (`procedure/join-alone`, `check --verbose`).',
  },
];
