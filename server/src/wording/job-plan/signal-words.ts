import { withoutSides } from '../../inspection/job/scope';
import type { JobPlan } from '../../inspection/pulls/job-plan/job-plan';
import type { PlannedPart } from '../../inspection/pulls/plan';
import type { Part } from '../../model/chassis';
import { listPhrase } from '../wording';

/**
 * What can happen, once, before anything else. The signal words as ANSI Z535.6 and ISO 3864-2 grade them: DANGER where it kills or maims,
 * WARNING where it can, CAUTION where it hurts. What to do against it is common practice in the trade; the maker's procedure goes first.
 */
export interface Signal {
  readonly word: 'DANGER' | 'WARNING' | 'CAUTION';
  readonly text: string;
}

export function signalsOf({ steps }: JobPlan): Signal[] {
  const plans = steps.flatMap((step) => (step.kind === 'pull' ? step.plans : []));
  const parts = plans.map(({ part }) => part);
  const danger: Signal[] =
    plans.length === 0
      ? []
      : [
          {
            word: 'DANGER',
            text: 'A chain that lets go under load kills: rated gear only, a safety tether on every clamp, nobody in line with a chain or near it.',
          },
        ];
  return [
    ...danger,
    {
      word: 'WARNING',
      text: [
        'Airbags, belt tensioners and high voltage can kill: someone qualified makes them safe before any work.',
        ...metalWarnings(parts),
      ].join(' '),
    },
    {
      word: 'CAUTION',
      text: [
        'Bent and torn metal cuts, and springs when it is cut or let go: gloves and eye protection.',
        ...misread(plans),
      ].join(' '),
    },
  ];
}

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
      ? [`on ${named(unknown)} only if the maker's procedure allows it (no limit is recorded)`]
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
