import { withoutSides } from '../../inspection/job/scope';
import type { PullStep } from '../../inspection/pulls/job-plan/job-plan';
import type { StepHook } from '../../inspection/pulls/job-plan/step-hooks';
import type { PlannedPart } from '../../inspection/pulls/plan';
import type { PlannedHook } from '../../inspection/pulls/plan-hooks';
import { mirroredId } from '../../model/names';
import type { Unit } from '../../model/units';
import { placeText } from '../places';
import { axisNames, listPhrase } from '../wording';
import { aimText } from './aim-words';
import { hookText, twistText } from './hook-words';
import { movesText } from './move-words';
import type { PageStep } from './page-step';
import { holdText } from './step-hold-words';

/** A step that pulls. */
export function pullStep(step: PullStep, unit: Unit): PageStep {
  const ids = withoutSides(step.plans.map(({ part }) => part.id));
  const several = step.plans.length > 1;
  return {
    title: `pull ${listPhrase(ids)}${several ? ` together: ${togetherText[step.together]}` : ''}`,
    lines: [
      ...step.braces.map(({ member, mounts }): [string, string] => [
        'brace',
        `first, between ${listPhrase(withoutSides(mounts))}: ${member} is out, and what held the metal there is gone (common practice).`,
      ]),
      ...step.hooks.map((hook): [string, string] => ['hook', hookText(hook)]),
      ...twistLines(step),
      ...alongLines(step),
      ['hold', holdText(step.plans, unit)],
      ...step.hooks.map((hook): [string, string] => ['aim', aimText(hook, isCouple(step, hook), unit)]),
      ['to go', movesText(step, unit)],
      ...relieveLines(step, unit),
      ...seamLines(step),
      ['read', readText(step.plans, step.hooks)],
    ],
  };
}

const togetherText: Record<PullStep['together'], string> = {
  motion: 'they moved as one',
  seam: 'they are joined and have to go the same way',
  gap: 'their seam has opened (common practice)',
};

/** Parts that the others carry. */
function alongLines({ plans, hooks }: PullStep): [string, string][] {
  const carried = plans
    .filter((plan) => hooks.every((hook) => hook.plan !== plan))
    .map(({ part }) => part.id);
  const whose = carried.length === 1 ? 'a chain of its own' : 'chains of their own';
  return carried.length === 0 ? [] : [['along', `${listPhrase(withoutSides(carried))}, without ${whose}`]];
}

/** Of each part that is twisted at its hook. */
const twistLines = ({ plans, hooks }: PullStep): [string, string][] =>
  plans.flatMap((plan): [string, string][] => {
    const own = hooks.filter((hook) => hook.plan === plan);
    const text = twistText(plan, own);
    return text === null ? [] : [[own.length > 1 ? 'both' : 'twist', text]];
  });

const isCouple = ({ hooks }: PullStep, { plan }: StepHook): boolean =>
  hooks.filter((hook) => hook.plan === plan).length > 1;

/** The neighbours that stay behind; the word before the line is read with it. */
function seamLines({ seams }: PullStep): [string, string][] {
  if (seams.length === 0) return [];
  const parts = withoutSides([...new Set(seams.map(({ to }) => to.id))]);
  const places = withoutSides([...new Set(seams.map(({ nearId }) => nearId))]);
  return [
    [
      'seam',
      `to ${listPhrase(parts)}, not pulled along, will open near ${listPhrase(places)}: stop if it tears`,
    ],
  ];
}

/** The bends, whose places stand at the holds, and what was seen besides. */
function relieveLines({ plans, buckles }: PullStep, unit: Unit): [string, string][] {
  const bent = plans.filter(({ hold }) => hold.kind === 'before-bend').map(({ part }) => part.id);
  const seen = buckles.map(({ what, part: mention, atMm }) => {
    const part = plans.find(({ part: { id } }) => id === mention?.id)?.part;
    const place =
      atMm === null || part === undefined
        ? ''
        : ` at ${axisNames[part.along]} ${placeText(atMm, part, unit)}`;
    return `the ${what} on ${mention?.id ?? 'it'}${place}`;
  });
  const where = [...(bent.length === 0 ? [] : [`the bend of ${listPhrase(withoutSides(bent))}`]), ...seen];
  return where.length === 0 ? [] : [['relieve', listPhrase(where)]];
}

/** What is read under load, and what after release. */
export function readText(plans: readonly PlannedPart[], hooks: readonly PlannedHook[]): string {
  const underLoad = [...new Set(hooks.map(({ move }) => move.id))];
  const counts = plans.map(({ part, moves, notRead }) => ({
    id: part.id,
    count: moves.length + notRead.length,
  }));
  const texts = counts.flatMap(({ id, count }) => {
    const other = counts.find((each) => each.id === mirroredId(id));
    if (other === undefined || other.count !== count) return [`${pointsText(count)} of ${id}`];
    return id.endsWith('.L') ? [`${pointsText(count)} of each ${id.slice(0, -2)}`] : [];
  });
  return `${listPhrase(underLoad)} under load; after release ${listPhrase(texts)}`;
}

const pointsText = (count: number): string => (count === 1 ? 'the point' : `all ${count} points`);
