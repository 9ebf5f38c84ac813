import type { Inspection } from '../../inspection/job/inspect';
import { withoutSides } from '../../inspection/job/scope';
import { type JobPlan, jobPlan } from '../../inspection/pulls/job-plan/job-plan';
import { outOfScope } from '../../inspection/pulls/job-plan/out-of-scope';
import type { PlannedPart } from '../../inspection/pulls/plan';
import { wrapped } from '../../text/wrapped';
import { besidesPlans, nothingPlanned } from '../plan-none';
import { overAdvice } from '../undecided-words';
import { listPhrase } from '../wording';
import { controlText } from './control-words';
import { type PageStep, stepIndent } from './page-step';
import { pullStep } from './pull-step-words';
import { renewStep } from './renew-step-words';
import { outOfScopeText } from './scope-words';
import { type Signal, signalLines, signalsOf, whoDecides } from './signal-words';

/** The plan of a job on one page, in words. */
interface PlanPage {
  readonly title: string;
  readonly signals: readonly Signal[];
  /** Who decides. */
  readonly first: string;
  readonly steps: readonly PageStep[];
  /** What holds for every step, and what no step says. */
  readonly after: readonly string[];
}

const pulledParts = ({ steps }: JobPlan): PlannedPart[] =>
  steps.flatMap((step) => (step.kind === 'pull' ? step.plans : []));

/** Null where nothing can be planned: `nothingPlanned` says why. */
export function planPage(inspection: Inspection): PlanPage | null {
  if (inspection.heldBack) return null;
  const plan = jobPlan(inspection);
  const { unit, order } = inspection.job;
  if (plan.steps.length + plan.waiting.length + outOfScope(inspection).length === 0) return null;
  const stages = [
    ...new Set(
      plan.steps.flatMap((step) =>
        step.kind === 'pull' ? step.plans.map(({ stage }) => `“${stage.name}”`) : [],
      ),
    ),
  ];
  const by = stages.length === 0 ? '' : ` by ${listPhrase(stages)}`;
  const count = ['no step yet', 'one step'][plan.steps.length] ?? `${plan.steps.length} steps`;
  return {
    title: `Pull plan${order === null ? '' : ` of ${order}`}${by}: ${count}, ± at 95 %`,
    signals: plan.steps.length === 0 ? [] : signalsOf(pulledParts(plan), unit),
    first: whoDecides,
    steps: plan.steps.map((step) => (step.kind === 'pull' ? pullStep(step, unit) : renewStep(step, unit))),
    after: [...afterSteps(inspection, plan), ...waitingTexts(inspection, plan)],
  };
}

function afterSteps(inspection: Inspection, plan: JobPlan): string[] {
  if (plan.steps.length === 0) return [];
  const pulls = plan.steps.some(({ kind }) => kind === 'pull');
  const order = [
    ...(plan.steps.length > 1 ? ['Last in, first out.'] : []),
    ...(pulls ? ['Within a step first length, then sideways, then height.'] : []),
  ];
  return [
    ...(pulls
      ? [
          `Pull in small stages, relieve, release, then read: only a reading off load counts.${
            aimsUnseen(plan)
              ? ' Where only the mark is told, how far the metal springs back was not seen yet.'
              : ''
          }`,
        ]
      : []),
    ...controlTexts(inspection, plan),
    ...(order.length === 0 ? [] : [`${order.join(' ')} (Common practice.)`]),
    'Then plan anew. With nothing left to pull, `framewright check` says what stands against sign-off.',
  ];
}

const aimsUnseen = ({ steps }: JobPlan): boolean =>
  steps.some(
    (step) =>
      step.kind === 'pull' && step.hooks.some(({ aim }) => aim?.kind === 'none' && aim.why === 'not-seen'),
  );

/** The control points that decide all parts of the steps. */
function controlTexts(inspection: Inspection, plan: JobPlan): string[] {
  const partIds = pulledParts(plan).map(({ part }) => part.id);
  const text = partIds.length === 0 ? null : controlText(inspection, partIds);
  return text === null ? [] : [text];
}

function waitingTexts(inspection: Inspection, { steps, waiting }: JobPlan): string[] {
  const planned = steps.flatMap((step) =>
    step.kind === 'pull' ? step.plans.map(({ part }) => part.id) : [step.part.id],
  );
  const why = ({ why: reason, over }: JobPlan['waiting'][number]): string =>
    `${reason}${over === undefined ? '' : `: ${overAdvice(over, inspection.job.unit)}`}`;
  const besides = besidesPlans(inspection, [...planned, ...waiting.map(({ partId }) => partId)]);
  const left = outOfScopeText(inspection);
  return [
    ...[...new Set(waiting.map(why))].map((text) => {
      const ids = waiting.filter((each) => why(each) === text).map(({ partId }) => partId);
      return `No step yet for ${listPhrase(withoutSides(ids))}: ${text}.`;
    }),
    ...(left === null ? [] : [left]),
    ...(besides === null ? [] : [besides]),
  ];
}

/** In lines of 100 characters. */
export function planPageText(inspection: Inspection): string {
  const page = planPage(inspection);
  if (page === null) return nothingPlanned(inspection);
  return [
    ...wrapped('', page.title, 0),
    '',
    ...signalLines(page.signals),
    ...wrapped('', page.first, 0),
    ...page.steps.flatMap(({ title, lines }, i) => [
      '',
      ...wrapped('', `Step ${i + 1}: ${title}`, 0),
      ...lines.flatMap(([label, text]) => wrapped(`  ${label}`, text, stepIndent)),
    ]),
    '',
    ...page.after.flatMap((text) => wrapped('-', text, 2)),
  ].join('\n');
}
