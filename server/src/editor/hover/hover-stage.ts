import { standingOf, type Told } from '../../findings/standing';
import { carriedPhrase } from '../../inspection/alignment/carried';
import { type Alignment, unusable } from '../../inspection/frame/alignment';
import type { Inspection } from '../../inspection/job/inspect';
import { isEmpty, type Stage } from '../../inspection/job/stage';
import { figure, lengthText } from '../../model/units';
import { bodyPhrase } from '../../wording/body-words';
import { summaryLines } from '../../wording/summaries';
import { elsewhereText, witnessList } from '../../wording/witness-words';
import { shortList } from '../../wording/wording';
import { escaped } from './markdown';

/**
 * A measuring of the car: what it was aligned on and why, and what it shows.
 * @param told what findings say there
 */
export function stageHover(inspection: Inspection, stage: Stage, told: readonly string[] = []): string {
  const count = (verdict: string) => stage.points.filter((each) => each.verdict === verdict).length;
  return [
    `**${escaped(stage.name)}**: ${count('within')} within, ${count('outside')} outside, ${count('undecided')} undecided${count('unjudged') ? `, ${count('unjudged')} unjudged` : ''}`,
    '',
    ...baseLines(inspection, stage),
    ...(stage.underTension ? ['- read under tension: these are peaks'] : []),
    ...(stage.provisional ? ['- provisional: the base is not settled, so every figure may change'] : []),
    '',
    ...summaryLines(inspection, stage).flatMap(({ key, text }) =>
      (key === 'body' ? untoldOf(text, inspection, stage, told) : [text]).map((each) => `- ${key}: ${each}`),
    ),
  ].join('\n');
}

/** What a line of the body says besides its condition, where a finding has that word for word. */
function untoldOf(text: string, { job }: Inspection, { body }: Stage, told: readonly string[]): string[] {
  const phrase = body === null ? null : bodyPhrase(body, job.unit);
  if (phrase === null || !told.some((each) => each.includes(phrase))) return [text];
  const rest = text.slice(phrase.length).replace(/^; /, '');
  return rest === '' || rest.startsWith('provisional') ? [] : [rest];
}

function baseLines(inspection: Inspection, stage: Stage): string[] {
  const { alignment } = stage;
  const { unit } = inspection.job;
  if (stage.network)
    return [
      '- distances only: adjusted together as a network; control points are assumed near their reference, as on sound cars',
      ...(stage.network.moved.length > 0
        ? [`- moved: ${shortList(stage.network.moved.map(({ id, orElse }) => [id, ...orElse].join(' or ')))}`]
        : []),
    ];
  if (isEmpty(stage)) return ['- nothing to judge yet'];
  if (alignment === null) return ['- distances only: each is judged by itself'];
  if (unusable(alignment)) return ['- nothing is concluded: the readings are mirrored or out of scale'];
  if (alignment.base === null) return ['- no alignment: too few control points, or all on one line'];
  return [
    ...(alignment.inherited === null
      ? []
      : [`- alignment taken over from "${escaped(alignment.inherited)}": ${carriedText(alignment)}`]),
    `- base: ${shortList(alignment.baseIds, 16)}`,
    ...(alignment.movedIds.length > 0
      ? [`- moved, left out of the base: ${shortList(alignment.movedIds, 16)}`]
      : []),
    ...alternatives(alignment),
    ...(alignment.rmsMm === null
      ? []
      : [
          `- the base fits to ${lengthText(alignment.rmsMm, unit)} rms${alignment.scale === null ? '' : `; scale ${figure(alignment.scale, 4)}`}`,
        ]),
    `- assumed: control points of sound cars scatter by ${lengthText(inspection.chassis.buildMm, unit)} (standard, \`build\` of the chassis file)`,
    ...witnessLines(inspection, alignment),
  ];
}

/** Who helps to align besides the control points, and what is assumed of them. */
export function witnessLines({ chassis, job }: Inspection, { witnesses }: Alignment): string[] {
  if (witnesses === null) return [];
  return [
    `- aligned with the help of what nobody has in question, each believed so far: ${escaped(witnessList(witnesses, job.unit))}`,
    `- assumed: such points of sound cars scatter by ${elsewhereText(witnesses, chassis.buildElsewhereMm, job.unit)} (standard, \`build-elsewhere\` of the chassis file)`,
  ];
}

/** Whether it may be believed that nothing was moved between. */
function carriedText({ carried }: Alignment): string {
  if (carried?.movedTogether.length) return 'but the car or the instrument has moved since';
  if (!carried || carried.across === null) return 'nothing was moved between';
  if (carried.confirmed) return `confirmed by ${shortList(carried.agreeing, 6)}`;
  return `${carriedPhrase(carried)}, and nothing confirms it`;
}

const alternatives = (alignment: Alignment): string[] =>
  alignment.alternatives.map(
    ({ base, moved }) => `- as believable: base ${shortList(base, 16)}; then moved: ${shortList(moved, 16)}`,
  );

/** What remains before the job may leave. */
export function orderHover(told: Told): string {
  const state = standingOf(told);
  const order = escaped(told.inspection.job.order ?? 'job');
  const rule =
    state.rule === 'simple' ? 'a deviation inside its limit passes' : 'only what is certainly within passes';
  const head = state.closed
    ? `**${order}** is signed off${state.passes ? '' : ', but the sign-off does not stand'}`
    : `**${order}** is open`;
  const remaining =
    state.remaining.length === 0
      ? state.closed
        ? []
        : ['Nothing remains: the dimensions may be signed off.']
      : ['What remains:', '', ...state.remaining.map((each) => `- ${each}`)];
  return [
    head,
    '',
    ...remaining,
    '',
    `Decision rule: ${state.rule} (${rule}). It covers dimensions only: not welds, corrosion protection, wheel alignment, restraints or calibrations.`,
  ].join('\n');
}
