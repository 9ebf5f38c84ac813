import { type OpenDamage, openDamage as openDamageOf } from '../../inspection/job/open-damage';
import type { Unit } from '../../model/units';
import { placeText } from '../../wording/places';
import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnly, coversDimensionsOnlyPage, ofClosed } from './state';

export const openDamage: Rule = {
  name: 'sign-off/open-damage',
  severity: 'error',
  since: '0.2',
  failsCheck: 'closed',
  inGate: 'always',
  inRecord: 'standing',
  unchangeable: true,
  wholeJob: true,
  page: {
    summary: 'A job is signed off while damage that somebody saw is still in the car.',
    why: `A part can measure within tolerance and have a crack or a sharp fold in it. What an \`observe\` tells stays open until the part is replaced or a \`section\`
renews the metal at that place. A buckle, a gap or corrosion, and a kink on a part that may be straightened freely, may also be closed in words: \`answered\`
says who decided, when, and what was done. Words never close a tear or crack, nor a kink on a part that is \`minor\`, \`never\` or not recorded. ${coversDimensionsOnlyPage}`,
    example: `  - observe: crack
    part: front-rail.L
    at: 2400
sign-off: { by: rk, date: 2026-03-05, chassis: sha256-3f9a61c2, judged-by: 0.2 }`,
    exampleIn: { place: 'entry' },
    mend: `Renew the metal as the maker's procedure wants it, and write that: \`replace: front-rail.L\`, or \`section: front-rail.L\` with \`at\` on the base's side of it, then the
\`join\`. A section needs the place of the damage (\`at\` of the \`observe\`); without it, or where
it is not on the part, only a replacement counts. Where words are enough, write
\`answered: { by: rk, date: 2026-03-04, how: dressed flat }\`.`,
    source:
      "Common practice in the trade: torn, cracked or sharply folded metal is renewed. The maker's procedure decides.",
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (_, signOff) => {
      const open = openDamageOf(context.inspection);
      if (open.length === 0) return [];
      const { unit } = context.inspection.job;
      const hints = [
        ...(open.some(({ answerable }) => !answerable) ? ['Renew that metal'] : []),
        ...(open.some(({ answerable }) => answerable)
          ? ['Say under `answered` who decided, when and what was done about what may stay']
          : []),
      ];
      return [
        {
          place: signOff.keyPlace,
          message: `signed off with damage not answered: ${shortList(open.map((each) => damageText(each, unit)))}. ${hints.join('. ')}. ${coversDimensionsOnly}`,
          related: open.map(({ seen, answerable, answeredInVain }) => ({
            message: answeredInVain
              ? `seen here; ${answerable ? 'its `how` says nothing' : 'words do not close this'}`
              : 'seen here',
            place: seen.entry.keyPlace,
          })),
        },
      ];
    }),
};

function damageText({ part, seen: { entry }, isOffPart }: OpenDamage, unit: Unit): string {
  const place = entry.atMm === null ? '' : ` at ${placeText(entry.atMm, part, unit)}`;
  return `${entry.what} on ${part.id}${place}${isOffPart ? ', which is not on the part' : ''}`;
}
