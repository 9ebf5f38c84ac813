import { mustNotBeStraightened } from '../../inspection/gate/procedure';
import { type PartHistory, partHistories, replacedBetween } from '../../inspection/job/part-history';
import type { Chassis } from '../../model/chassis';
import type { Place } from '../../text/tree';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { placeOfPull, recordOf } from './record';

export const unrecorded: Rule = {
  name: 'procedure/unrecorded',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  page: {
    summary: 'A part was pulled, heated or cut, and the chassis file does not record what the maker allows.',
    why: `Whether a part may be straightened, and where it may be cut, cannot be seen on it: it depends on its steel and on how the maker wants it to fold.
As long as nobody has looked it up, no warning about wrong work is possible here. The maker's procedure decides, so it has to be looked up.`,
    example: `  - pull: rear panel back
    part: rear-panel              # in the chassis file: { steel: high-strength }, no straighten`,
    exampleIn: { place: 'entry' },
    mend: `Look the part up in the maker's repair manual and record it in the chassis file: \`straighten: freely\`, \`minor\` or \`never\`, and \`section\` as
the band of a cut, with the page as \`reference\`.`,
    source: "Common practice in the trade. The maker's procedure decides.",
  },
  ofJob: ({ inspection }: JobContext): Draft[] =>
    partHistories(inspection).flatMap((history) => [
      ...straightening(history, inspection.chassis),
      ...cutting(history),
    ]),
};

/** One for a part: at the first such work, the later ones beside it. */
function straightening(history: PartHistory, chassis: Chassis): Draft[] {
  const { part } = history;
  if (part.straighten !== null) return [];
  const pulls = mustNotBeStraightened(part)
    ? [] // a press-hardened part that is pulled is an error of its own
    : history.pulls.map(({ entry, index }) => ({
        index,
        place: placeOfPull(entry, part, chassis),
        what: 'pulled',
      }));
  const heats = history.heats.map(({ entry, index }) => ({ index, place: entry.part.place, what: 'heated' }));
  return draftsOf(
    history,
    [...pulls, ...heats],
    (what) => `${part.id} is ${what}, and whether the maker allows it to be straightened`,
  );
}

const cutting = (history: PartHistory): Draft[] =>
  history.part.section !== null
    ? []
    : draftsOf(
        history,
        history.sections.map(({ entry, index }) => ({ index, place: entry.part.place, what: 'cut' })),
        (what) => `${history.part.id} is ${what}, and where the maker allows a cut`,
      );

function draftsOf(
  history: PartHistory,
  works: readonly { index: number; place: Place; what: string }[],
  about: (what: string) => string,
): Draft[] {
  const left = works
    .filter(({ index }) => !replacedBetween(history, index))
    .sort((a, b) => a.index - b.index);
  if (left.length === 0) return [];
  const what = [...new Set(left.map((each) => each.what))].join(' and ');
  return [
    {
      place: left[0].place,
      message: `${about(what)} is not recorded. Look it up: the maker's procedure decides.`,
      related: [
        recordOf(history.part),
        ...left.slice(1).map(({ place, what }) => ({ message: `${what} here too`, place })),
      ],
    },
  ];
}
