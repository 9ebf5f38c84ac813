import { type AttackGroup, all, inFile, inFinished, inJob, variant, withOwnSheet } from '../attack';
import { estatePath, hatchPath, settingsPath } from '../shop';
import { hingeOutside, shoulderUnread, tipOutside } from '../truths';

const tips = (more: string) =>
  `points:\n  rear-rail-tip-lower: { both: [-1650, 508, 343], part: rear-rail, fixing: bolt${more} }\n  rear-rail-tip-upper: { both: [-1650, 511, 435], part: rear-rail, fixing: bolt${more} }\n`;

export const sheet: AttackGroup = {
  title: 'The sheet and its tolerances',
  attacks: [
    {
      name: 'the tolerance of the sheet is widened after the signature',
      truth: tipOutside,
      trick: inFile(hatchPath, 'tolerance: 3\n', 'tolerance: 10\n'),
      seals: 'kept',
      answer: { refused: 'sign-off/changed' },
    },
    {
      name: 'the tolerance is widened in the sheet itself before the signature',
      truth: tipOutside,
      trick: inFile(hatchPath, 'tolerance: 3\n', 'tolerance: 10\n'),
      seals: 'anew',
      answer: { record: '±10', tells: 'the limit beside each point' },
    },
    {
      name: 'a sheet of the shop’s own states the position of the point where the metal stands',
      truth: tipOutside,
      trick: withOwnSheet(
        variant(
          'points:\n  rear-rail-tip-lower: { left: [-1650, 502, 343], right: [-1650, 508, 343], part: rear-rail }\n  rear-rail-tip-upper: { left: [-1650, 505, 435], right: [-1650, 511, 435], part: rear-rail }\n',
        ),
      ),
      seals: 'anew',
      answer: { record: 'own.chassis.yaml', tells: 'the sheet’s name' },
    },
    {
      name: 'a reference position is moved to where the metal stands, after the signature',
      truth: tipOutside,
      trick: inFile(estatePath, '[  -1650,   508,    343]', '[  -1650,   502,    343]'),
      seals: 'kept',
      answer: { refused: 'sign-off/changed' },
    },
    {
      name: 'a sheet of the shop’s own states a wider tolerance for the whole file, which inherited points do not take',
      truth: tipOutside,
      trick: withOwnSheet(variant('tolerance: 10\n')),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'the rule of the shop is turned from `guarded` to `simple` after the signature',
      truth: tipOutside,
      trick: inFile(settingsPath, 'decision-rule: simple', 'decision-rule: guarded'),
      seals: 'kept',
      answer: { refused: 'sign-off/changed' },
    },
    {
      name: 'the reference is said to be so badly known that nothing is outside for certain',
      truth: tipOutside,
      trick: withOwnSheet(variant(tips(', uncertainty: 6'))),
      seals: 'anew',
      answer: { refused: 'sign-off/undecided' },
    },
    {
      name: 'control points are said to scatter by 20 mm on sound cars',
      truth: tipOutside,
      trick: withOwnSheet(variant('build: 20\n')),
      seals: 'anew',
      answer: { refused: 'sign-off/undecided' },
    },
    {
      name: 'the points of the bent rail are made control points by a sheet of the shop’s own',
      truth: tipOutside,
      trick: withOwnSheet(variant(tips(', base: true'))),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'the point that is outside is taken out of the sheet',
      truth: tipOutside,
      trick: withOwnSheet(variant('points:\n  rear-rail-tip-lower: null\n  rear-rail-tip-upper: null\n')),
      seals: 'anew',
      answer: { refused: 'name/unknown-point' },
    },
    {
      name: 'the same, and its rows and distances are taken out of the job',
      truth: tipOutside,
      trick: all(
        withOwnSheet(variant('points:\n  rear-rail-tip-lower: null\n  rear-rail-tip-upper: null\n')),
        inJob(/^ +rear-rail-tip-.*\n/gm as RegExp, ''),
        inJob(/^ +- \[rear-rail-root-lower.*\n/gm as RegExp, ''),
        inJob('hook: rear-rail-tip-lower.L', 'hook: rear-rail-end-lower.L'),
      ),
      seals: 'anew',
      answer: { record: 'own.chassis.yaml', tells: 'the sheet’s name' },
    },
    {
      name: 'the part that is outside is taken out of the sheet',
      truth: hingeOutside,
      trick: withOwnSheet(variant('parts:\n  tailgate-opening: null\n')),
      seals: 'anew',
      answer: { refused: 'name/unknown-part' },
    },
    {
      name: 'the sheets extend each other in a circle',
      truth: tipOutside,
      trick: inFile(hatchPath, 'units: mm\n', 'units: mm\nextends: ./teal-estate.chassis.yaml\n'),
      seals: 'kept',
      answer: { refused: 'name/extends-cycle' },
    },
    {
      name: 'the sheet is renamed, so that nothing can be judged',
      truth: tipOutside,
      trick: inJob('chassis: ../specs/teal-estate', 'chassis: ../specs/teal-estat'),
      seals: 'kept',
      answer: { refused: 'name/file-not-found' },
    },
    {
      name: 'the tolerance of the point is spoilt in the sheet, so that it is not judged',
      truth: tipOutside,
      trick: withOwnSheet(variant(tips(', tolerance: ten'))),
      seals: 'anew',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'a point of the same name in letters of another script stands in the sheet',
      truth: tipOutside,
      trick: withOwnSheet(
        variant('points:\n  rear-rаil-tip-lower: { both: [-1650, 502, 343], part: rear-rail }\n'),
      ),
      seals: 'anew',
      answer: { refused: 'text/wrong-type' },
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
      answer: { warned: 'chassis/wider-tolerance' },
    },
    {
      name: 'a sheet of the shop’s own gives a point that was not read to another part, so that no scope asks for it',
      truth: shoulderUnread,
      trick: withOwnSheet(
        variant('points:\n  tailgate-shoulder: { both: [-1702, 571, 930], part: roof, fixing: edge }\n'),
      ),
      seals: 'anew',
      answer: { warned: 'chassis/override-drops' },
    },
  ],
};
