import type { Cut, Renewal } from '../../inspection/pulls/job-plan/renewal';
import type { Part } from '../../model/chassis';
import type { Observe } from '../../model/job';
import type { Unit } from '../../model/units';
import { betweenText, placeText } from '../places';
import { axisNames, listPhrase } from '../wording';
import type { PageStep } from './page-step';

/** A step that puts in new metal. */
export const renewStep = (renewal: Renewal, unit: Unit): PageStep => ({
  title: `renew ${renewal.part.id}: do not pull on it`,
  lines: [
    ['why', whyText(renewal, unit)],
    ['cut', cutText(renewal.cut, renewal.part, unit)],
    ['by', renewal.part.reference ?? "the maker's procedure"],
  ],
});

function whyText({ why, seen, part }: Renewal, unit: Unit): string {
  const damage =
    seen.length === 0 ? null : `${listPhrase(seen.map((each) => seenText(each, part, unit)))} was seen`;
  const reason = {
    never: 'the maker says: replace only, never straighten',
    'press-hardened': 'press-hardened steel, and nothing else is recorded: not to be straightened',
    kinked: 'the maker allows straightening where it is bent, not where it is kinked',
    damage: 'only new metal closes that',
  }[why];
  return `${[damage, reason].filter((each) => each !== null).join('; ')}`;
}

const seenText = ({ what, atMm }: Observe, part: Part, unit: Unit): string =>
  atMm === null ? `a ${what}` : `a ${what} at ${axisNames[part.along]} ${placeText(atMm, part, unit)}`;

function cutText(cut: Cut, part: Part, unit: Unit): string {
  const axis = axisNames[part.along];
  if (cut.kind === 'bands') {
    const bands = cut.bandsMm.map((band) => `${axis} ${betweenText(band, part, unit)}`);
    return `at ${listPhrase(bands)}: allowed there, and straight as far as it was read`;
  }
  if (cut.kind === 'whole') {
    const why =
      cut.why === 'no-straight-metal'
        ? 'no straight metal was seen on it'
        : `${part.section === null ? 'the allowed band' : `the allowed band (${axis} ${betweenText(part.section, part, unit)})`} lies in metal that is bent or was straightened`;
    return `none: renew the part; ${why}`;
  }
  if (cut.why === 'no-band') return 'none is recorded as allowed: renew the part, or look it up';
  const band = cut.bandMm === null ? '' : ` ${axis} ${betweenText(cut.bandMm, part, unit)}`;
  return `allowed at${band}, but it is not recorded where the damage is: read the part and state the place first`;
}
