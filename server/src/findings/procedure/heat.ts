import { type BreachOf, breaches } from '../../inspection/gate/procedure';
import type { HeatLimit } from '../../model/chassis';
import { figure } from '../../model/units';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { recordOf, referenceOf } from './record';

export const heat: Rule = {
  name: 'procedure/heat',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: { breach: 'heat' },
  unchangeable: true,
  page: {
    summary:
      'Heat was used on a part against what the maker allows, or where nothing is recorded and the steel is not mild.',
    why: `The strength of high-strength steel is made by heat, and heat takes it away: long before it glows, without any change of shape, and for good.
Some parts must not be heated at all, others only to so many degrees for so many seconds in all. More than a recorded limit is an error; where
the limit or the heat is not recorded, it is a warning. The maker's procedure decides.`,
    example: `  - heat: front-rail.L            # heat: never
    to: 350 C
    for: 120 s`,
    exampleIn: { place: 'entry' },
    mend: `Replace a part that was heated against its limit, as the maker's procedure says; \`- replace: front-rail.L\` settles it. Write how hot and
how long it was (\`to\`, \`for\`), and record the maker's limit under \`heat\` in the chassis file.`,
    source: "Common practice in the trade. The maker's procedure decides.",
  },
  ofJob: ({ inspection }: JobContext): Draft[] =>
    breaches(inspection).flatMap((breach): Draft[] => {
      if (breach.kind !== 'heat') return [];
      const { part, severe } = breach;
      return [
        {
          place: breach.heat.entry.part.place,
          message: `${part.id} is heated ${faultOf(breach)}${referenceOf(part)}. The maker's procedure decides.`,
          severity: severe ? 'error' : 'warning',
          related: [recordOf(part)],
        },
      ];
    }),
};

function faultOf({ part, fault, heat: { entry } }: BreachOf<'heat'>): string {
  const limit = part.heat === null || part.heat === 'never' ? null : part.heat;
  switch (fault) {
    case 'never':
      return `${used(entry.toCelsius, entry.forSeconds)}, but the maker allows no heat on it`;
    case 'hotter':
    case 'longer':
      return `${used(entry.toCelsius, entry.forSeconds)}; the maker allows ${limitText(limit!)} at most`;
    case 'not-written':
      return `without saying ${entry.toCelsius === null ? 'how hot' : 'how long'}; the maker allows ${limitText(limit!)} at most`;
    case 'no-record':
      return `and the maker's limit is not recorded; ${part.steel === null ? 'its steel is not recorded either' : `${part.steel} steel may lose its strength`}`;
  }
}

const used = (celsius: number | null, seconds: number | null): string =>
  [
    celsius === null ? '' : `to ${figure(celsius, 0)} °C`,
    seconds === null ? '' : `for ${figure(seconds, 0)} s`,
  ]
    .filter(Boolean)
    .join(' ') || 'at all';

const limitText = ({ toCelsius, forSeconds }: Exclude<HeatLimit, 'never'>): string =>
  `${figure(toCelsius, 0)} °C${forSeconds === null ? '' : ` for ${figure(forSeconds, 0)} s`}`;
