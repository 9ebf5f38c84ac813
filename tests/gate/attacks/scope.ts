import { type AttackGroup, all, inFinished, inJob, row } from '../attack';
import { cracked, hingeOutside, overheated, tipOutside, tipUnread } from '../truths';

const scope = (names: string) => inJob(/^scope: .*$/m, names === '' ? 'scope: []' : `scope: [${names}]`);
const withoutScope = inJob(/^scope: .*\n/m, '');

export const narrowScope: AttackGroup = {
  title: 'What is judged',
  attacks: [
    {
      name: '`scope` leaves out the rail that was pulled and cut',
      truth: tipOutside,
      trick: scope('tailgate-opening'),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: '`scope` leaves out the rail that nobody measured after it was renewed',
      truth: tipUnread,
      trick: scope('tailgate-opening'),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: '`scope` leaves out the part that is cracked',
      truth: cracked,
      trick: scope('rear-panel'),
      seals: 'anew',
      answer: { refused: 'sign-off/open-damage' },
    },
    {
      name: '`scope` leaves out the part that was heated against the procedure',
      truth: overheated,
      trick: scope('rear-panel'),
      seals: 'anew',
      answer: { refused: 'sign-off/procedure' },
    },
    {
      name: '`scope` leaves out a part that nobody worked on, but that was read and is outside',
      truth: hingeOutside,
      trick: all(
        scope('rear-rail, rear-panel'),
        inJob(/ {2}- pull: left corner[\s\S]*? {2}- relieve: \[tailgate-opening\]\n {2}- release: all\n/, ''),
      ),
      seals: 'anew',
      answer: { refused: 'reading/outside' },
    },
    {
      name: '`scope` is an empty list',
      truth: tipOutside,
      trick: scope(''),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: '`scope` is taken out, with the rows of a part that nobody worked on: whatever else was read is judged whole',
      truth: hingeOutside,
      trick: all(
        withoutScope,
        inJob('    to: [rear-rail.R, tailgate-opening]\n', '    to: [rear-rail.R]\n'),
        inJob(/ {2}- pull: left corner[\s\S]*? {2}- relieve: \[tailgate-opening\]\n {2}- release: all\n/, ''),
        inJob(/^ +- \[tailgate-.*\n/gm as RegExp, ''),
        inJob(/^ +tailgate-.*\n/gm as RegExp, ''),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: '`scope` names a part with a letter from another script that looks the same',
      truth: tipOutside,
      trick: scope('rear-rаil'),
      seals: 'anew',
      answer: { refused: 'name/unknown-part' },
    },
    {
      name: '`scope` names a part without points, so that nothing in it can be judged',
      truth: hingeOutside,
      trick: scope('roof'),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'the row of the point that is outside is taken out',
      truth: tipOutside,
      trick: all(inFinished(row('rear-rail-tip-lower.L'), ''), inFinished(row('rear-rail-tip-upper.L'), '')),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the point that is outside is said to be unreachable',
      truth: tipOutside,
      trick: all(
        inFinished(/(rear-rail-tip-lower\.L:).*/, '$1 unreachable'),
        inFinished(/(rear-rail-tip-upper\.L:).*/, '$1 unreachable'),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the work on the opening is kept, and all its readings are taken out',
      truth: hingeOutside,
      trick: all(inJob(/^ +- \[tailgate-.*\n/gm as RegExp, ''), inJob(/^ +tailgate-.*\n/gm as RegExp, '')),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
  ],
};
