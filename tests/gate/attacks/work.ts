import { type AttackGroup, all, atTheEnd, beforeFinished, inFinished, inJob } from '../attack';
import { measuredUnderLoad, pulledAfter, stillPulled, tipOutside, weldedAfter } from '../truths';

const rowsOfControl =
  /^ +(?:floor-front|floor-rear|tunnel-front|rear-floor|cowl-hole|sill-hole-front|sill-hole-rear|rear-rail-root-lower)\.[LR]:.*\n/gm;
const pull = '  - pull: a touch more\n    part: rear-rail.L\n    hold: floor-rear.L\n';

export const workAndLoad: AttackGroup = {
  title: 'Work after the last reading, and readings under load',
  attacks: [
    {
      name: 'a cut and its join after the last measuring',
      truth: pulledAfter,
      trick: inJob(
        `${pull}  - relieve: all\n  - release: all\n`,
        '  - section: rear-rail.L\n    at: -1090\n  - join: rear-rail.L\n',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the part is replaced after the last measuring',
      truth: pulledAfter,
      trick: inJob(
        `${pull}  - relieve: all\n  - release: all\n`,
        '  - replace: rear-panel\n  - join: rear-panel\n',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the part is heated after the last measuring',
      truth: pulledAfter,
      trick: inJob(
        `${pull}  - relieve: all\n  - release: all\n`,
        '  - heat: rear-rail.L\n    to: 180 C\n    for: 60 s\n',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the pull is entered for the neighbour, with its hook on the rail',
      truth: pulledAfter,
      trick: inJob(
        pull,
        '  - pull: the panel\n    part: rear-panel\n    hook: rear-rail-tip-lower.L\n    direction: [0, 1, 0]\n    hold: floor-rear.L\n',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the pull names no part and hooks nowhere',
      truth: stillPulled,
      trick: inJob(pull, '  - pull: a touch more\n    hold: floor-rear.L\n'),
      seals: 'anew',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'another part than the one that is pulled is released',
      truth: stillPulled,
      trick: atTheEnd('  - release: tailgate-opening\n'),
      seals: 'anew',
      answer: { refused: 'sign-off/tension' },
    },
    {
      name: 'the measuring under load is said to be of an unmoved set-up',
      truth: measuredUnderLoad,
      trick: inFinished('- measure: finished\n', '- measure: finished\n    set-up: same\n'),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the peak under load is repeated as a measure of its own before the release',
      truth: stillPulled,
      trick: atTheEnd(
        '  - measure: off load, honestly\n    readings:\n      rear-rail-tip-lower.L: [ 1005.4, -391.6,  874.5]\n',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/tension' },
    },
    {
      name: 'after the pull the tip alone is read, by the alignment from before it',
      truth: pulledAfter,
      trick: atTheEnd(
        '  - measure: checked\n    readings:\n      rear-rail-tip-lower.L: [ 1005.4, -391.6,  874.5]\n      rear-rail-tip-upper.L: [ 1005.4, -392.9,  966.1]\n',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the last measuring has no control points: its alignment is carried over the pull, “same set-up”',
      truth: tipOutside,
      trick: all(
        beforeFinished(`${pull}  - relieve: all\n  - release: all\n`),
        inFinished(rowsOfControl, ''),
        inFinished('- measure: finished\n', '- measure: finished\n    set-up: same\n'),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/undecided' },
    },
    {
      name: 'the last measuring has two control points only',
      truth: tipOutside,
      trick: all(
        inFinished(
          /^ +(?:floor-rear|tunnel-front|rear-floor|cowl-hole|sill-hole-front|sill-hole-rear|rear-rail-root-lower)\.[LR]:.*\n/gm,
          '',
        ),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the last measuring is moved up, ahead of the join, with the date that it has',
      truth: weldedAfter,
      trick: atTheEnd(
        '  - measure: finished, again\n    at: 2026-02-18T08:00\n    readings:\n      rear-rail-tip-lower.L: [ 1005.4, -391.6,  874.5]\n',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
  ],
};
