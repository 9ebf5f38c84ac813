import { type ChainAgainst, chainsAgainst } from '../../inspection/pulls/pull-checks';
import { lengthText, type Unit } from '../../model/units';
import { directionWords } from '../../wording/pull-direction';
import { certaintyText, movesPhrase } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const pullAgainst: Rule = {
  name: 'procedure/pull-against',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  page: {
    summary: 'A chain pulls its hook’s point away from where it belongs.',
    why: `The direction of a chain is written in the car's own axes: forward, left, up. One wrong sign, left taken for right or a side mixed up, and the damage is
pulled further. It is judged by the last released reading of the hook's point before the pull, beyond twice its uncertainty.`,
    example: `      pillar-belt-front.R: [352, -732.5, 868]      # 8.5 mm too far left (inboard)
  - pull: right pillar out
    part: centre-pillar.R
    chains:
      - { hook: pillar-belt-front.R, direction: [0, 1, 0] }    # left: farther in`,
    exampleIn: { place: 'row' },
    mend: `Correct the direction if it was written wrong: [forward, left, up], so right is negative. Where the pull is meant to do that (one half of a couple,
a point that is to be let past its mark), say so with \`# framewright-ignore procedure/pull-against: reason\`. Whether and in what order
a part is pulled at all, the maker's procedure decides.`,
    source: 'Common practice in the trade: pull opposite to the way the metal was driven in.',
  },
  ofJob: ({ inspection }: JobContext): Draft[] =>
    chainsAgainst(inspection).map((against) => ({
      place: against.chain.hook.place,
      message: messageOf(against, inspection.job.unit),
      related: [
        {
          message: `${against.chain.hook.id} in "${against.reading.stage.name}"`,
          place: against.reading.judged.reading.key,
        },
      ],
    })),
};

function messageOf(
  { chain, direction, neededMm, reading, alongMm, uncertaintyMm }: ChainAgainst,
  unit: Unit,
): string {
  const { side } = reading.judged.point;
  return (
    `the chain at ${chain.hook.id} pulls ${directionWords(direction, side)}, but in "${reading.stage.name}" the point still has to go ` +
    `${movesPhrase(neededMm, side, unit)}: along the chain, that is ${lengthText(-alongMm, unit)} in the opposite direction, certain to ` +
    `${certaintyText(uncertaintyMm, unit)} (95 %).`
  );
}
