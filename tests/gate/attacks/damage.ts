import { type AttackGroup, all, atTheEnd, beforeFinished, inJob, variant, withOwnSheet } from '../attack';
import {
  cracked,
  cutOutsideBand,
  inClamps,
  kinked,
  neighboursUnread,
  overheated,
  panelInClamps,
  weldedAfter,
} from '../truths';

const answered = '    answered: { by: rk, date: 2026-02-19, how: dressed and welded }\n';
const crack = '  - observe: crack\n    part: rear-rail.R\n    at: -900\n';

export const damage: AttackGroup = {
  title: 'Damage and procedure',
  attacks: [
    {
      name: 'a crack is answered in words',
      truth: cracked,
      trick: inJob(crack, crack + answered),
      seals: 'anew',
      answer: { refused: 'sign-off/open-damage' },
    },
    {
      name: 'a kink of a part that may be straightened a little only is answered in words',
      truth: kinked,
      trick: inJob('    at: -900\n', `    at: -900\n${answered}`),
      seals: 'anew',
      answer: { refused: 'sign-off/open-damage' },
    },
    {
      name: 'a kink is seen under load only, and gone after the release',
      truth: kinked,
      trick: all(
        inJob('  - observe: kink\n    part: rear-rail.L\n    at: -900\n', ''),
        inJob(
          '  - relieve: [rear-rail.L]\n',
          '  - observe: kink\n    part: rear-rail.L\n    at: -900\n  - relieve: [rear-rail.L]\n',
        ),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/open-damage' },
    },
    {
      name: 'a kink has no place, so that the cut might have taken it out',
      truth: kinked,
      trick: inJob('    part: rear-rail.L\n    at: -900\n', '    part: rear-rail.L\n'),
      seals: 'anew',
      answer: { refused: 'sign-off/open-damage' },
    },
    {
      name: 'the place of the kink has a digit too many, so that it lies beyond the cut, where the part has no metal',
      truth: kinked,
      trick: inJob('    at: -900\n', '    at: -9000\n'),
      seals: 'anew',
      answer: { refused: 'sign-off/open-damage' },
    },
    {
      name: 'the cut is entered at another place, so that it takes the kink out',
      truth: kinked,
      trick: inJob('    at: -1090', '    at: -890'),
      seals: 'anew',
      answer: { refused: 'procedure/section-band' },
    },
    {
      name: 'the cut is entered twice, one of them ahead of the kink',
      truth: kinked,
      trick: inJob('    at: -1090', '    at: [-1090, -890]'),
      seals: 'anew',
      answer: { refused: 'procedure/section-band' },
    },
    {
      name: 'the crack is entered below the replacement of the part, which was before it',
      truth: cracked,
      trick: all(
        inJob(crack, ''),
        inJob('  - replace: rear-panel\n', `  - replace: rear-rail.R\n${crack}  - replace: rear-panel\n`),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/open-damage' },
    },
    {
      name: 'a section of the other side takes the crack out',
      truth: cracked,
      trick: beforeFinished('  - section: rear-rail.L\n    at: -1090\n'),
      seals: 'anew',
      answer: { refused: 'sign-off/open-damage' },
    },
    {
      name: 'a kink of a part that may be straightened is answered without saying how',
      truth: cracked,
      trick: inJob(
        crack,
        '  - observe: kink\n    part: tailgate-opening\n    answered: { by: rk, date: 2026-02-19, how: "" }\n',
      ),
      seals: 'anew',
      answer: { refused: 'text/wrong-type' },
    },
    {
      name: 'the join is entered ahead of the cut',
      truth: inClamps,
      trick: inJob(
        '  - section: rear-rail.L',
        '  - join: [rear-rail.L, rear-panel]\n  - section: rear-rail.L',
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/not-joined' },
    },
    {
      name: 'the join is entered of the other side',
      truth: inClamps,
      trick: inJob('  - measure: finished\n', '  - join: [rear-rail.R, rear-panel]\n  - measure: finished\n'),
      seals: 'anew',
      answer: { refused: 'sign-off/not-joined' },
    },
    {
      name: 'the cut of a second section is joined by the join of the first',
      truth: inClamps,
      trick: all(
        inJob(
          '  - section: rear-rail.L',
          '  - section: rear-rail.L\n    at: -1090\n  - join: [rear-rail.L, rear-panel]\n  - section: rear-rail.L',
        ),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/not-joined' },
    },
    {
      name: 'welded after the last measuring, `to` left out so that the neighbours keep their readings',
      truth: weldedAfter,
      trick: inJob('    to: [rear-rail.R, tailgate-opening]\n', ''),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the join is said to be bolted, so that the neighbours keep their readings',
      truth: neighboursUnread,
      trick: inJob('    with: welded\n', '    with: bolted\n'),
      seals: 'anew',
      answer: { warned: 'procedure/join-alone' },
    },
    {
      name: 'a sheet of the shop’s own allows the cut that the maker does not',
      truth: cutOutsideBand,
      trick: withOwnSheet(
        variant(
          'parts:\n  rear-rail: { sided: true, steel: high-strength, straighten: minor, section: [-1180, -1000], heat: { to: 200 C, for: 90 s } }\n',
        ),
      ),
      seals: 'anew',
      answer: { warned: 'chassis/looser-part' },
    },
    {
      name: 'a sheet of the shop’s own leaves out what the maker says of heat',
      truth: overheated,
      trick: withOwnSheet(
        variant(
          'parts:\n  rear-rail: { sided: true, steel: high-strength, straighten: minor, section: [-1180, -1040] }\n',
        ),
      ),
      seals: 'anew',
      answer: { warned: 'chassis/looser-part' },
    },
    {
      name: 'a sheet of the shop’s own says that the part is only bolted, so that it needs no join',
      truth: panelInClamps,
      trick: withOwnSheet(
        variant('parts:\n  rear-panel: { steel: mild, straighten: freely, attached: bolted }\n'),
      ),
      seals: 'anew',
      answer: { warned: 'chassis/looser-part' },
    },
    {
      name: 'a sheet of the shop’s own lets a kink of the part be answered in words',
      truth: kinked,
      trick: all(
        inJob('    at: -900\n', `    at: -900\n${answered}`),
        withOwnSheet(
          variant(
            'parts:\n  rear-rail: { sided: true, steel: high-strength, straighten: freely, section: [-1180, -1040], heat: { to: 200 C, for: 90 s } }\n',
          ),
        ),
      ),
      seals: 'anew',
      answer: { warned: 'chassis/looser-part' },
    },
    {
      name: 'the work after the last measuring is entered as a relieve',
      truth: weldedAfter,
      trick: all(
        inJob('  - join: [rear-rail.L, rear-panel]\n    to: [rear-rail.R, tailgate-opening]\n', ''),
        beforeFinished('  - join: [rear-rail.L, rear-panel]\n'),
        atTheEnd('  - relieve: [rear-rail.L]\n'),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
  ],
};
