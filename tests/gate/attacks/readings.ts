import { type AttackGroup, all, atTheEnd, type Change, inFinished, inJob } from '../attack';
import { jobPath, sampleJob } from '../shop';
import { hingeOutside, tipOutside } from '../truths';

const instrument = /^instrument: .*$/m;
const tip = (lower: string, upper: string) =>
  all(
    inFinished(/^( +rear-rail-tip-lower\.L:).*$/m, `$1 ${lower}`),
    inFinished(/^( +rear-rail-tip-upper\.L:).*$/m, `$1 ${upper}`),
  );

/** Each point of the scope, as `accepted` takes it. */
export const acceptEverything =
  (reason: string): Change =>
  (shop) => {
    const ids = new Set(
      shop[jobPath].match(/\b(?:rear-rail|rear-panel|tailgate)-[a-z-]+(?:\.[LR])?(?=: +\[)/g),
    );
    const list = [...ids].map((id) => `    - { point: ${id}, reason: ${reason} }\n`).join('');
    return inJob('  judged-by: 0.2\n', `  judged-by: 0.2\n  accepted:\n${list}`)(shop);
  };

export const readings: AttackGroup = {
  title: 'Readings',
  attacks: [
    {
      name: 'a reading is edited after the signature',
      truth: tipOutside,
      trick: (shop) => shop,
      seals: 'kept',
      answer: { refused: 'sign-off/changed' },
    },
    {
      name: 'the bad reading is repeated until the mean is inside',
      truth: tipOutside,
      trick: tip(
        '[[1005.4, -385.6, 874.5], [1005.4, -392.6, 874.5], [1005.3, -392.4, 874.6], [1005.2, -392.5, 874.6]]',
        '[[1005.4, -386.9, 966.1], [1005.4, -393.9, 966.1], [1005.3, -393.7, 966.0], [1005.2, -393.8, 966.0]]',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/undecided' },
    },
    {
      name: 'the bad point is measured again in a measure of its own, without work between, until it is inside',
      truth: tipOutside,
      trick: atTheEnd(
        '  - measure: read again\n    readings:\n      rear-rail-tip-lower.L: [ 1005.4, -391.6,  874.5]\n      rear-rail-tip-upper.L: [ 1005.4, -392.9,  966.1]\n',
      ),
      seals: 'anew',
      answer: { warned: 'reading/contradicted' },
    },
    {
      name: 'a point is given two rows in one measure, the good one second',
      truth: tipOutside,
      trick: inFinished(
        /^( +rear-rail-tip-lower\.L:.*\n)/m,
        '$1      rear-rail-tip-lower.L: [ 1005.4, -391.6,  874.5]\n',
      ),
      seals: 'anew',
      answer: { refused: 'text/duplicate-key' },
    },
    {
      name: 'the two sides of the hinge are exchanged',
      truth: hingeOutside,
      trick: all(
        inFinished('tailgate-hinge.L:', 'tailgate-hinge.X:'),
        inFinished('tailgate-hinge.R:', 'tailgate-hinge.L:'),
        inFinished('tailgate-hinge.X:', 'tailgate-hinge.R:'),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'the instrument is said to be so uncertain that nothing is outside for certain',
      truth: tipOutside,
      trick: inJob(instrument, 'instrument: { name: bench arm 1, uncertainty: 9 }'),
      seals: 'anew',
      answer: { refused: 'sign-off/undecided' },
    },
    {
      name: 'the same, and every point of the scope is accepted with a reason',
      truth: tipOutside,
      trick: all(
        inJob(instrument, 'instrument: { name: bench arm 1, uncertainty: 2 }'),
        acceptEverything('adjusts on its slots'),
      ),
      seals: 'anew',
      answer: { warned: 'reading/undecided' },
    },
    {
      name: 'the uncertainty of the instrument is left out',
      truth: tipOutside,
      trick: inJob(instrument, 'instrument: { name: bench arm 1 }'),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'the control points that do not fit are left out of the base by a list',
      truth: tipOutside,
      trick: inJob('base: auto', 'base: [rear-rail-root-lower.L, rear-rail-root-lower.R, rear-floor.L]'),
      seals: 'anew',
      answer: { refused: 'sign-off/undecided' },
    },
    {
      name: 'points of the bent rail itself are taken as the base',
      truth: tipOutside,
      trick: inJob(
        'base: auto',
        'base: [rear-rail-tip-lower.L, rear-rail-tip-upper.L, rear-rail-end-lower.L, rear-rail-end-upper.L, rear-rail-root-lower.L]',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'a stretch without enough control points is taken as the base',
      truth: tipOutside,
      trick: inJob('base: auto', 'base: { between: [-1100, -500] }'),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'a job that was measured with a tram gauge alone is signed',
      truth: tipOutside,
      trick: (shop) => {
        const [, text] = sampleJob('w-1213');
        const [path] = Object.keys(shop).filter((each) => each.startsWith('jobs/'));
        const signOff = shop[path].slice(shop[path].indexOf('\nsign-off:'));
        return {
          ...shop,
          [path]: `${text.replace('\ntimeline:', '\nscope: [front-rail]\ntimeline:')}${signOff}`,
        };
      },
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'a distance that is outside is struck out, and its ends are inside',
      truth: {
        what: 'a distance across the opening is 9 mm too long',
        written: inFinished('tailgate-corner.R,     1104.5', 'tailgate-corner.R,     1113.5'),
        refusedBy: 'sign-off/outside',
      },
      trick: inFinished('tailgate-corner.R,     1113.5', 'tailgate-corner.R,     unreachable'),
      seals: 'anew',
      answer: { record: '4 distances read', tells: 'how many distances were read' },
    },
    {
      name: 'three control points close to each other are all that the last measuring reads',
      truth: tipOutside,
      trick: inFinished(
        /^ +(?:floor-front|tunnel-front|rear-floor|cowl-hole|sill-hole-front|rear-rail-root-lower)\.[LR]:.*\n|^ +sill-hole-rear\.R:.*\n/gm,
        '',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/undecided' },
    },
    {
      name: 'the conditions of the last measuring are not those of the sheet',
      truth: tipOutside,
      trick: inFinished(
        'conditions: { powertrain: in, suspension: in }',
        'conditions: { powertrain: out, suspension: out }',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
  ],
};
