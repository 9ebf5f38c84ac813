import { withoutSides } from '../../inspection/job/scope';
import type { PlannedPart } from '../../inspection/pulls/plan';
import type { Part } from '../../model/chassis';
import type { Unit } from '../../model/units';
import { wrapped } from '../../text/wrapped';
import { placeText } from '../places';
import { axisNames, listPhrase } from '../wording';

/**
 * What can happen, once, before anything else. The signal words as ANSI Z535.6 and ISO 3864-2 grade them: DANGER where it kills or maims,
 * WARNING where it can, CAUTION where it hurts. What to do against it is common practice in the trade; the maker's procedure goes first.
 */
export interface Signal {
  readonly word: 'DANGER' | 'WARNING' | 'CAUTION';
  /** One for each hazard. */
  readonly texts: readonly string[];
}

/** Stands below the signal words: it grades no hazard. */
export const whoDecides =
  "The maker's procedure decides whether, where and in what order this is pulled. This plan is advice on geometry alone: strength, anchoring, chains and how hard to pull are yours to settle.";

/** @param plans the parts that are pulled; none where metal is only renewed */
export function signalsOf(plans: readonly PlannedPart[], unit: Unit): Signal[] {
  const danger: Signal[] =
    plans.length === 0
      ? []
      : [
          {
            word: 'DANGER',
            texts: [
              'A chain that lets go under load kills: rated gear only, a safety tether on every clamp, nobody in line with a chain or near it.',
              "Reading or relieving under load brings you near the chain: only where the maker's procedure and the rig allow it, load held steady, never in line with it; else release first.",
            ],
          },
        ];
  return [
    ...danger,
    {
      word: 'WARNING',
      texts: [
        'Airbags, belt tensioners, high voltage can kill: someone qualified makes them safe first.',
        ...metalWarnings(plans.map(({ part }) => part)),
        ...damageWarnings(plans),
        ...hookWarnings(plans, unit),
      ],
    },
    {
      word: 'CAUTION',
      texts: [
        'Bent and torn metal cuts, and springs when it is cut or let go: gloves and eye protection.',
        ...misread(plans),
      ],
    },
  ];
}

/** Where the text of a line begins, in characters. */
const signalIndent = 9;

/** In lines of 100 characters, a hazard on a line of its own. */
export const signalLines = (signals: readonly Signal[]): string[] =>
  signals.flatMap(({ word, texts }) =>
    texts.flatMap((text, i) => wrapped(i === 0 ? word : '', text, signalIndent)),
  );

/** All in one line of text. */
export const signalText = (signals: readonly Signal[]): string =>
  signals.map(({ word, texts }) => `${word}: ${texts.join(' ')}`).join(' ');

const named = (parts: readonly Part[]): string => listPhrase(withoutSides(parts.map(({ id }) => id)));

/** Metal that was ruined unseen lets go in the next crash. */
function metalWarnings(parts: readonly Part[]): string[] {
  const never = parts.filter(({ heat }) => heat === 'never');
  const unknown = parts.filter(({ heat }) => heat === null);
  const limited = parts.filter(({ heat }) => heat !== null && heat !== 'never');
  const minor = parts.filter(({ straighten }) => straighten === 'minor');
  const unrecorded = parts.filter(({ straighten }) => straighten === null);
  const heats = [
    ...(never.length > 0 ? [`none on ${named(never)}, as the maker says`] : []),
    ...(unknown.length > 0
      ? [`on ${named(unknown)} only if the maker's procedure allows it (no limit recorded)`]
      : []),
    ...grouped(limited, limitText).map(([limit, alike]) => `on ${named(alike)} ${limit}`),
  ];
  return [
    ...(heats.length > 0 ? [`Heat can weaken metal unseen: ${heats.join('; ')}.`] : []),
    ...(minor.length > 0
      ? [
          `Straighten ${named(minor)} only where bent, not where kinked: stop at once if metal kinks, tears or cracks.`,
        ]
      : []),
    ...(unrecorded.length > 0
      ? [`Whether ${named(unrecorded)} may be straightened is not recorded: look it up first.`]
      : []),
  ];
}

const damageWarnings = (plans: readonly PlannedPart[]): string[] =>
  plans.flatMap(({ part, damage }) =>
    damage.map(
      ({ what }) =>
        `A ${what} was seen on ${part.id}: do not pull on it before the maker's procedure says how.`,
    ),
  );

const hookWarnings = (plans: readonly PlannedPart[], unit: Unit): string[] =>
  plans.flatMap(({ part, hooks }) =>
    hooks.flatMap(({ move, flaw }): string[] => {
      if (flaw === null) return [];
      if (flaw.kind === 'ignored')
        return [
          `What is found at the reading of ${move.id} is ignored in the file (“${flaw.reason}”), and there is no better hook: check it before any pull.`,
        ];
      const { atMm } = flaw.seen;
      const place = atMm === null ? '' : ` at ${axisNames[part.along]} ${placeText(atMm, part, unit)}`;
      return [`Corrosion was seen on ${part.id}${place}, at the hook ${move.id}: a clamp can tear out.`];
    }),
  );

/** Parts of which the same is said, in order. */
function grouped(parts: readonly Part[], textOf: (part: Part) => string): [string, readonly Part[]][] {
  const texts = [...new Set(parts.map(textOf))];
  return texts.map((text) => [text, parts.filter((part) => textOf(part) === text)]);
}

function limitText({ heat }: Part): string {
  if (heat === null || heat === 'never') return '';
  const time = heat.forSeconds === null ? '' : ` for ${heat.forSeconds} s`;
  return `at most ${heat.toCelsius} °C${time}, as the maker's procedure says`;
}

function misread(plans: readonly PlannedPart[]): string[] {
  const far = plans.flatMap(({ suspicious }) => suspicious);
  return far.length === 0
    ? []
    : [
        `${listPhrase(withoutSides(far))} read very far off: before any pull, make sure that it was not misread.`,
      ];
}
