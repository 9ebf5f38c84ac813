import type { Part } from '../../model/chassis';
import type { Observe } from '../../model/job';

/**
 * What stands beside every plan. Common practice in the trade; the maker's procedure and the rules of the shop go before all of it.
 */

const always = [
  "The maker's procedure comes first: it decides whether, where and in what order this is pulled.",
  'Before any work airbags and belt tensioners are made safe and high voltage is switched off and secured, by someone qualified and as the maker says.',
  'A loaded chain kills when it lets go: rated gear only, a safety tether on every clamp, nobody in line with or near a chain under load.',
] as const;

/** What about a plan calls for care besides. */
interface Risks {
  readonly part: Part;
  readonly damage: readonly Observe[];
  readonly suspicious: readonly string[];
}

/** One line. */
export const cautionLine = (risks: Risks): string => cautions(risks).join(' ');

export function cautions({ part, damage, suspicious }: Risks): string[] {
  return [
    ...always,
    heatCaution(part),
    ...straightenCaution(part),
    ...damage.map(({ what }) => damageCaution(part, what)),
    ...suspicious.map((id) => `${id} is very far off: before any pull, make sure that it was not misread.`),
  ];
}

function heatCaution({ id, heat, steel }: Part): string {
  if (heat === 'never') return `No heat on ${id}: the maker forbids it.`;
  if (heat !== null) {
    const time = heat.forSeconds === null ? '' : ` for ${heat.forSeconds} s`;
    return `Heat on ${id} only as the maker's procedure says, at most ${heat.toCelsius} °C${time}.`;
  }
  const metal =
    steel === null || steel === 'mild' || steel === 'other'
      ? ''
      : ` It is ${steel === 'aluminium' ? steel : `${steel} steel`}: heat can ruin it unseen.`;
  return `No heat on ${id} unless the maker's procedure allows it; no limit is recorded.${metal}`;
}

function straightenCaution({ id, straighten }: Part): string[] {
  if (straighten === 'freely') return [];
  if (straighten === 'minor')
    return [
      `${id} may be straightened where it is bent, not where it is kinked: stop if it kinks, tears or cracks.`,
    ];
  return [`Whether ${id} may be straightened at all is not recorded: look it up before the first pull.`];
}

const damageCaution = ({ id }: Part, what: Observe['what']): string =>
  `A ${what} was seen on ${id}: do not pull on it before the maker's procedure says how.`;
