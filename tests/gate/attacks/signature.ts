import { type AttackGroup, all, inFile, inJob } from '../attack';
import { settingsPath, signedShop } from '../shop';
import { cracked, inClamps, instrumentUnknown, signedUnmeasured, tipOutside } from '../truths';

const seals = (readings: string, chassis: string) =>
  all(
    inJob(/^ {2}readings: seal1-\w+$/m, `  readings: ${readings}`),
    inJob(/^ {2}chassis: seal1-\w+$/m, `  chassis: ${chassis}`),
  );
const withoutSeals = all(
  inJob(/^ {2}readings: seal1-\w+\n/m, ''),
  inJob(/^ {2}chassis: seal1-\w+$/m, '  chassis: sha256-0badc0de'),
);
const older = inJob('  judged-by: 0.2\n', '');

export const signature: AttackGroup = {
  title: 'Seal and signature',
  attacks: [
    {
      name: 'the seals are invented',
      truth: cracked,
      trick: seals('seal1-0badc0de0badc0de', 'seal1-0badc0de0badc0de'),
      seals: 'kept',
      answer: { refused: 'sign-off/changed' },
    },
    {
      name: 'the two seals are exchanged',
      truth: cracked,
      trick: seals('seal1-e002c67b86c8e6d4', 'seal1-6f08f57ad9b440a0'),
      seals: 'kept',
      answer: { refused: 'sign-off/changed' },
    },
    {
      name: 'the seal of the readings is taken out, that of the chassis stays',
      truth: tipOutside,
      trick: inJob(/^ {2}readings: seal1-\w+\n/m, ''),
      seals: 'kept',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'both seals give way to a fingerprint that fits nothing',
      truth: cracked,
      trick: all(withoutSeals, older),
      seals: 'kept',
      answer: { refused: 'sign-off/chassis-changed' },
    },
    {
      name: '`judged-by` is turned back, so that rules that came later only warn',
      truth: cracked,
      trick: inJob('judged-by: 0.2', 'judged-by: 0.1'),
      seals: 'anew',
      answer: { warned: 'sign-off/open-damage' },
    },
    {
      name: '`judged-by` is taken out, so that a cut is its own join',
      truth: inClamps,
      trick: older,
      seals: 'anew',
      answer: { warned: 'sign-off/not-joined' },
    },
    {
      name: 'the same, in a shop that accepts no older signatures',
      truth: inClamps,
      trick: all(
        older,
        inFile(settingsPath, 'decision-rule: simple\n', 'decision-rule: simple\nsigned-since: 0.2\n'),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/old-signature' },
    },
    {
      name: '`judged-by` is a version that does not exist yet',
      truth: cracked,
      trick: inJob('judged-by: 0.2', 'judged-by: 9.9'),
      seals: 'kept',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'nobody signs',
      truth: tipOutside,
      trick: inJob(/^ {2}by: rk$(?=\n {2}date)/m, '  by: ""'),
      seals: 'anew',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'somebody else is put as the one who signed',
      truth: tipOutside,
      trick: inJob(/^ {2}by: rk$(?=\n {2}date)/m, '  by: jm'),
      seals: 'kept',
      answer: { refused: 'sign-off/changed' },
    },
    {
      name: 'the signature is dated earlier than the last measuring',
      truth: signedUnmeasured,
      trick: () => inJob('  date: 2026-02-20\n', '  date: 2026-02-19\n')(signedShop),
      seals: 'anew',
      answer: { warned: 'reading/order' },
    },
    {
      name: 'the calibration of the instrument was too old',
      truth: instrumentUnknown,
      trick: all(
        inJob('uncertainty: 9', 'uncertainty: 0.3'),
        inJob('instrument: { name: bench arm 1,', 'instrument: { name: bench arm 1, calibrated: 2024-01-10,'),
        inFile(settingsPath, 'decision-rule: simple\n', 'decision-rule: simple\ncalibration-months: 12\n'),
      ),
      seals: 'anew',
      answer: { warned: 'instrument/calibration' },
    },
    {
      name: 'the instrument was calibrated after it was read, and is said to have been in order',
      truth: instrumentUnknown,
      trick: all(
        inJob('uncertainty: 9', 'uncertainty: 0.3'),
        inJob('instrument: { name: bench arm 1,', 'instrument: { name: bench arm 1, calibrated: 2026-05-10,'),
        inFile(settingsPath, 'decision-rule: simple\n', 'decision-rule: simple\ncalibration-months: 12\n'),
      ),
      seals: 'anew',
      answer: { warned: 'instrument/calibration' },
    },
    {
      name: 'an older signature over a good state stands under `earlier`, the new one over a bad one',
      truth: tipOutside,
      trick: inJob(
        '  judged-by: 0.2\n',
        '  judged-by: 0.2\n  earlier:\n    - { by: rk, date: 2026-02-20, readings: seal1-6f08f57ad9b440a0, chassis: seal1-e002c67b86c8e6d4, judged-by: 0.2 }\n',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
  ],
};
