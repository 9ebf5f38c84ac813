import { type AttackGroup, added, all, inFile, inFinished, inJob, mergedBehind } from '../attack';
import { jobPath, settingsPath } from '../shop';
import { certaintyAsked, cracked, hingeOutside, pulledAfter, tipOutside, tipUnread } from '../truths';

const accept = (reason: string) =>
  inJob(
    '  judged-by: 0.2\n',
    `  judged-by: 0.2\n  accepted:\n    - { point: rear-rail-tip-lower.L, reason: ${reason} }\n    - { point: rear-rail-tip-upper.L, reason: ${reason} }\n`,
  );
const ignored = (rule: string, reason = 'the new bumper hides it') =>
  all(
    inFinished(/^( +rear-rail-tip-lower\.L:)/m, `      # framewright-ignore ${rule}: ${reason}\n$1`),
    inFinished(/^( +rear-rail-tip-upper\.L:)/m, `      # framewright-ignore ${rule}: ${reason}\n$1`),
  );
const rules = (lines: string) =>
  inFile(settingsPath, 'decision-rule: simple\n', `decision-rule: simple\nrules:\n${lines}`);

export const hingeIgnoredFor = (reason: string) =>
  inFinished(/^( +tailgate-hinge\.R:)/m, `      # framewright-ignore reading/outside: ${reason}\n$1`);
export const hingeLeftOut = all(
  inJob(/^scope: .*$/m, 'scope: [rear-rail, rear-panel]'),
  inJob(/ {2}- pull: left corner[\s\S]*? {2}- relieve: \[tailgate-opening\]\n {2}- release: all\n/, ''),
);
const hingeIgnored = hingeIgnoredFor('the owner agreed');

export const reasons: AttackGroup = {
  title: 'Reasons given, and settings that silence',
  attacks: [
    {
      name: 'the reading that is outside is ignored, with a reason',
      truth: tipOutside,
      trick: ignored('reading/outside'),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'it is ignored with a full stop as the reason',
      truth: tipOutside,
      trick: ignored('reading/outside', '.'),
      seals: 'anew',
      answer: { refused: 'reading/outside' },
    },
    {
      name: 'the rule of the sign-off itself is ignored',
      truth: tipOutside,
      trick: all(
        ignored('reading/outside'),
        inJob('sign-off:  ', '# framewright-ignore sign-off/outside: agreed with the owner\nsign-off:  '),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'the point that is outside is accepted, with a good reason',
      truth: tipOutside,
      trick: accept('"slotted mounting, adjusts 5 mm"'),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'a point that was not measured is accepted',
      truth: tipUnread,
      trick: accept('"looks fine"'),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'a point is accepted without a reason',
      truth: tipOutside,
      trick: all(
        inJob(/^instrument: .*$/m, 'instrument: { name: bench arm 1, uncertainty: 4 }'),
        accept('""'),
      ),
      seals: 'anew',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'the settings switch off the rules of the sign-off',
      truth: tipOutside,
      trick: rules('  sign-off/outside: off\n  reading/outside: off\n'),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'the settings make open damage an information',
      truth: cracked,
      trick: rules('  sign-off/open-damage: information\n'),
      seals: 'anew',
      answer: { refused: 'sign-off/open-damage' },
    },
    {
      name: 'settings of their own in the folder of jobs switch off what the shop’s do not',
      truth: tipOutside,
      trick: added(
        'jobs/.framewright.yaml',
        'framewright: settings/1\nrules:\n  sign-off/outside: off\n  reading/outside: off\n',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'a wrong word in the timeline holds the sign-off’s rules back, and its error is ignored with a reason',
      truth: tipOutside,
      trick: inFinished(
        '    note: welded, cooled',
        '    colour: red  # framewright-ignore text/unknown-key: needed by another program\n    note: welded, cooled',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'a reading that cannot be read holds the sign-off’s rules back, and its error is ignored with a reason',
      truth: tipOutside,
      trick: inFinished(
        /^( +rear-floor\.L:).*$/m,
        '$1 [415.1, -238.6]  # framewright-ignore text/wrong-type: the third number is on paper',
      ),
      seals: 'anew',
      answer: { refused: 'reading/outside' },
    },
    {
      name: 'the same, switched off in the settings',
      truth: tipOutside,
      trick: all(
        inFinished(/^( +rear-floor\.L:).*$/m, '$1 [415.1, -238.6]'),
        rules('  text/wrong-type: off\n'),
      ),
      seals: 'anew',
      answer: { refused: 'reading/outside' },
    },
    {
      name: 'the readings are said to be mirrored, and that is ignored with a reason',
      truth: tipOutside,
      trick: all(
        inJob('base: auto\n', 'base: auto\naxes: [forward, right, up]\n'),
        rules('  base/mirrored: off\n'),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'a part outside of the scope that stands wrong is ignored, with a reason',
      truth: hingeOutside,
      trick: all(hingeLeftOut, hingeIgnored),
      seals: 'anew',
      answer: { record: 'the owner agreed', tells: 'the line, its rule and the reason' },
    },
    {
      name: 'the same, after the signature',
      truth: hingeOutside,
      trick: hingeIgnored,
      seals: 'kept',
      answer: { refused: 'sign-off/changed' },
    },
    {
      name: 'the shop works by `guarded`; settings in the folder of jobs turn it to `simple`',
      truth: certaintyAsked,
      trick: added('jobs/.framewright.yaml', 'framewright: settings/1\ndecision-rule: simple\n'),
      seals: 'anew',
      answer: { refused: 'sign-off/undecided' },
    },
    {
      name: 'the settings leave the folder of jobs out, and the repository is checked as a whole',
      truth: tipOutside,
      trick: inFile(settingsPath, 'decision-rule: simple\n', 'decision-rule: simple\nignore: [jobs]\n'),
      seals: 'anew',
      answer: { printed: `1 file left out by ignore: ${jobPath}` },
    },
    {
      name: 'a `.gitignore` names the job, and the repository is checked as a whole',
      truth: tipOutside,
      trick: added('.gitignore', '*-finished.readings.yaml\n'),
      seals: 'anew',
      answer: { printed: `1 file left out by .gitignore: ${jobPath}` },
    },
    {
      name: 'the settings are spoilt, so that `guarded` does not hold',
      truth: tipOutside,
      trick: inFile(settingsPath, 'decision-rule: simple', 'decision-rule: [guarded'),
      seals: 'anew',
      answer: { refused: 'text/syntax' },
    },
    {
      name: 'a measure from before the pull stands behind it, and the settings switch off that its date is told',
      truth: pulledAfter,
      trick: all(mergedBehind, rules('  reading/order: off\n')),
      seals: 'anew',
      answer: { record: 'reading/order: off', tells: 'the rules that the settings switch off' },
    },
    {
      name: 'a rule that does not exist is ignored, in letters of another script',
      truth: hingeOutside,
      trick: inFinished(
        /^( +tailgate-hinge\.R:)/m,
        '      # framewright-ignore reading/оutside: hinge to be fitted\n$1',
      ),
      seals: 'anew',
      answer: { refused: 'reading/outside' },
    },
  ],
};
