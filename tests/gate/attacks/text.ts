import { type AttackGroup, added, all, inFinished, inJob, mergedBehind, row } from '../attack';
import { jobPath } from '../shop';
import { cracked, hingeOutside, pulledAfter, tipOutside } from '../truths';

const goodTip =
  '      rear-rail-tip-lower.L: [ 1005.4, -391.6,  874.5]\n      rear-rail-tip-upper.L: [ 1005.4, -392.9,  966.1]\n';

export const text: AttackGroup = {
  title: 'The text itself, and merges',
  attacks: [
    {
      name: 'marks of a merge are left in the file',
      truth: tipOutside,
      trick: inFinished(
        row('rear-rail-tip-lower.L'),
        `<<<<<<< ours\n$&=======\n      rear-rail-tip-lower.L: [ 1005.4, -391.6,  874.5]\n>>>>>>> theirs\n`,
      ),
      seals: 'kept',
      answer: { refused: 'text/syntax' },
    },
    {
      name: 'a merge keeps the pull of one side and the signature of the other',
      truth: pulledAfter,
      trick: (shop) => shop,
      seals: 'kept',
      answer: { refused: 'sign-off/changed' },
    },
    {
      name: 'a merge loses the crack that one side saw',
      truth: cracked,
      trick: (shop) => shop,
      seals: 'kept',
      answer: { refused: 'sign-off/open-damage' },
    },
    {
      name: 'a merge puts a measure from before the pull behind it',
      truth: pulledAfter,
      trick: mergedBehind,
      seals: 'anew',
      answer: { warned: 'reading/order' },
    },
    {
      name: 'a merge keeps both timelines, one under the other',
      truth: tipOutside,
      trick: inJob('\nsign-off:', `\ntimeline:\n  - measure: finished\n    readings:\n${goodTip}\nsign-off:`),
      seals: 'anew',
      answer: { refused: 'text/duplicate-key' },
    },
    {
      name: 'a merge keeps both signatures',
      truth: tipOutside,
      trick: (shop) => ({
        ...shop,
        [jobPath]: `${shop[jobPath]}sign-off: { by: jm, date: 2026-02-21, chassis: sha256-3f9a61c2 }\n`,
      }),
      seals: 'anew',
      answer: { refused: 'text/duplicate-key' },
    },
    {
      name: '`readings` stands twice in the last measure',
      truth: tipOutside,
      trick: inFinished('    spans:\n', `    readings:\n${goodTip}    spans:\n`),
      seals: 'anew',
      answer: { refused: 'text/duplicate-key' },
    },
    {
      name: 'a second document in the file holds another job',
      truth: tipOutside,
      trick: (shop) => ({
        ...shop,
        [jobPath]: `framewright: readings/1\nchassis: ../specs/teal-estate.chassis.yaml\ntimeline: []\n---\n${shop[jobPath]}`,
      }),
      seals: 'kept',
      answer: { refused: 'text/syntax' },
    },
    {
      name: 'the row of the point is an alias of a good one elsewhere in the file',
      truth: tipOutside,
      trick: all(
        inFinished(/^( +rear-rail-tip-lower\.R:) +/m, '$1 &good '),
        inFinished(/^( +rear-rail-tip-lower\.L:).*$/m, '$1 *good'),
      ),
      seals: 'anew',
      answer: { refused: 'text/syntax' },
    },
    {
      name: 'a merge key puts good rows under the bad ones',
      truth: tipOutside,
      trick: inFinished(
        '    readings:\n',
        `    readings:\n      <<: { rear-rail-tip-lower.L: [ 1005.4, -391.6,  874.5] }\n`,
      ),
      seals: 'anew',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'the name of a point has a letter of another script that looks the same',
      truth: tipOutside,
      trick: inFinished(/^( +)rear-rail-tip-lower\.L:/m, '$1rear-rаil-tip-lower.L:'),
      seals: 'anew',
      answer: { refused: 'name/unknown-point' },
    },
    {
      name: 'the name of a point has a character without width in it',
      truth: tipOutside,
      trick: inFinished(/^( +)rear-rail-tip-lower\.L:/m, '$1rear-rail\u200b-tip-lower.L:'),
      seals: 'anew',
      answer: { refused: 'name/unknown-point' },
    },
    {
      name: 'a number is written with a minus sign that is no hyphen',
      truth: tipOutside,
      trick: inFinished('-385.6,  874.5', '−391.6,  874.5'),
      seals: 'anew',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'a number is written with decimal commas',
      truth: tipOutside,
      trick: inFinished(/^( +rear-rail-tip-lower\.L:).*$/m, '$1 [1005,4, -391,6, 874,5]'),
      seals: 'anew',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'the key of the sign-off has a letter of another script, so that the job looks signed and is open',
      truth: tipOutside,
      trick: inJob('\nsign-off:', '\nsign-оff:'),
      seals: 'kept',
      answer: { refused: 'text/unknown-key' },
    },
    {
      name: 'the entry that tells of the crack is spelt wrongly, so that nobody reads it',
      truth: cracked,
      trick: inJob('  - observe: crack\n', '  - observed: crack\n'),
      seals: 'anew',
      answer: { refused: 'text/unknown-key' },
    },
    {
      name: 'the kind of damage is a word that the language does not know',
      truth: cracked,
      trick: inJob('  - observe: crack\n', '  - observe: crack line\n'),
      seals: 'anew',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'the file says that it is of a version that no program reads',
      truth: tipOutside,
      trick: inJob('framewright: readings/1', 'framewright: readings/2'),
      seals: 'kept',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'a quote that is never closed swallows the sign-off’s neighbours',
      truth: tipOutside,
      trick: inJob('technician: jm', 'technician: "jm'),
      seals: 'kept',
      answer: { refused: 'text/syntax' },
    },
    {
      name: 'a bad row stands behind a lone carriage return, where many editors show it on the line above',
      truth: hingeOutside,
      trick: inFinished(/\n( +tailgate-hinge\.R:.*)/, ' # checked\r$1'),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'an invented row stands behind a line separator of Unicode',
      truth: tipOutside,
      trick: inFinished(/\n( +rear-rail-tip-lower\.L:).*/, ' # checked\u2028$1 [ 1005.4, -391.6,  874.5]'),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'the name of the file changes, with nothing in it',
      truth: tipOutside,
      trick: (shop) => {
        const { [jobPath]: job, ...rest } = shop;
        return added('jobs/w-1174.readings.yaml', job)(rest);
      },
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
  ],
};
