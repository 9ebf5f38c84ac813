import {
  type AttackGroup,
  all,
  atTheEnd,
  type Change,
  inFinished,
  inJob,
  variant,
  withOwnSheet,
} from '../attack';
import { jobPath } from '../shop';
import { hingeOutside, rootUnread, shoulderUnread, tipOutside, weldedAfter } from '../truths';
import { acceptEverything } from './readings';
import { hingeIgnoredFor, hingeLeftOut } from './reasons';

/** Rules that meet the attacks below. The constant turns with them: a test holds it against the list of rules. */
export const awaitedRules = [
  'reading/copied',
  'settings/empty-reason',
  'chassis/wider-tolerance',
  'chassis/override-drops',
] as const;
export const awaitedRulesAreThere: boolean = true;

/** All rows of the last measure once more, as one after the join. */
const copied: Change = (shop) => {
  const text = shop[jobPath];
  const from = text.indexOf('  - measure: finished\n');
  const finished = text.slice(from, text.indexOf('  - join:', from));
  return atTheEnd(
    finished
      .replace('measure: finished', 'measure: finished, after welding')
      .replace('2026-02-20T15:30', '2026-02-20T17:00'),
  )(shop);
};

const wide = (tolerance: string): string =>
  `points:\n  rear-rail-tip-lower: { both: [-1650, 508, 343], part: rear-rail, fixing: bolt${tolerance} }\n  rear-rail-tip-upper: { both: [-1650, 511, 435], part: rear-rail, fixing: bolt${tolerance} }\n`;

export const awaited: AttackGroup = {
  title: 'Copies, empty reasons, and sheets that drop what their parent says',
  attacks: [
    {
      name: 'after the welding the measure from before it is copied, number for number',
      truth: weldedAfter,
      trick: copied,
      seals: 'anew',
      answer: { warned: 'reading/copied' },
    },
    {
      name: 'the copy is an alias of YAML',
      truth: weldedAfter,
      trick: all(
        inFinished('    readings:\n', '    readings: &finished\n'),
        atTheEnd('  - measure: finished, after welding\n    at: 2026-02-20T17:00\n    readings: *finished\n'),
      ),
      seals: 'anew',
      answer: { warned: 'reading/copied' },
    },
    {
      name: 'the copy says of the tip that it is as before',
      truth: weldedAfter,
      trick: all(copied, (shop) => {
        const text = shop[jobPath];
        const at = text.indexOf('measure: finished, after welding');
        const behind = text.slice(at).replace(/^( +rear-rail-tip-(?:lower|upper)\.L:).*$/gm, '$1 as-before');
        return { ...shop, [jobPath]: text.slice(0, at) + behind };
      }),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the instrument is said to be uncertain, and every point is accepted with “ok”',
      truth: tipOutside,
      trick: all(
        inJob(/^instrument: .*$/m, 'instrument: { name: bench arm 1, uncertainty: 2 }'),
        acceptEverything('ok'),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/undecided' },
    },
    {
      name: 'a part outside of the scope that stands wrong is ignored with “n/a”',
      truth: hingeOutside,
      trick: all(hingeLeftOut, hingeIgnoredFor('n/a')),
      seals: 'anew',
      answer: { refused: 'reading/outside' },
    },
    {
      name: 'a sheet of the shop’s own gives the point a wider tolerance',
      truth: tipOutside,
      trick: withOwnSheet(variant(wide(', tolerance: 10'))),
      seals: 'anew',
      answer: { warned: 'chassis/wider-tolerance' },
    },
    {
      name: 'a sheet of the shop’s own states a wide tolerance for the whole file, and repeats the point under it',
      truth: tipOutside,
      trick: withOwnSheet(variant(`tolerance: 10\n${wide('')}`)),
      seals: 'anew',
      answer: { warned: 'chassis/wider-tolerance' },
    },
    {
      name: 'a sheet of the shop’s own repeats a point that was not read, without its part, so that no scope asks for it',
      truth: shoulderUnread,
      trick: withOwnSheet(
        variant('points:\n  tailgate-shoulder: { both: [-1702, 571, 930], fixing: edge }\n'),
      ),
      seals: 'anew',
      answer: { warned: 'chassis/override-drops' },
    },
    {
      name: 'a sheet of the shop’s own repeats a control point that was not read, without `base` and its part',
      truth: rootUnread,
      trick: withOwnSheet(
        variant('points:\n  rear-rail-root-lower: { both: [-560, 478, 176], fixing: hole }\n'),
      ),
      seals: 'anew',
      answer: { warned: 'chassis/override-drops' },
    },
  ],
};
