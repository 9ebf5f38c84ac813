import { ruleNamed } from '../../findings/rule-list';
import { carriedPhrase } from '../../inspection/alignment/carried';
import { type Alignment, unusable } from '../../inspection/frame/alignment';
import type { Inspection } from '../../inspection/job/inspect';
import { provisionalReason } from '../../inspection/job/provisional';
import { withoutSides } from '../../inspection/job/scope';
import { isEmpty, type Stage } from '../../inspection/job/stage';
import type { Chassis } from '../../model/chassis';
import { figure, lengthText, type Unit } from '../../model/units';
import { elsewhereText, witnessList } from '../../wording/witness-words';
import { type Markup, markup, quoted, shortened } from '../markup';
import { instrumentText } from './record-facts';
import { list, message, type RecordContext, section, table, timeMarkup, written } from './record-input';

/** Every measuring: who, when, on which control points and why on those. */
export function stagesSection(context: RecordContext): Markup {
  const { inspection, unit, findings } = context;
  const said = findings.filter(
    ({ rule, ignored }) => ruleNamed(rule)?.inRecord === 'stages' && ignored === null,
  );
  return section(
    'stages',
    'Stages, and the control points that each stands on',
    inspection.stages.length === 0
      ? markup`<p>There are none.</p>`
      : table(
          'stages',
          ['Stage', 'Read', 'Control points of the base', 'Why these'],
          inspection.stages.map((stage, i) => [
            markup`${i + 1} ${quoted(shortened(stage.name, 200))}`,
            readText(stage, context),
            baseText(stage),
            markup`${whyText(inspection, stage)}${fitText(stage, unit)}`,
          ]),
        ),
    said.length === 0
      ? null
      : markup`<h3>What was found about them</h3>${list(said.map((finding) => message(finding.message)))}`,
  );
}

function readText(
  { measure, underTension, points, spans, unreachable, asBefore }: Stage,
  { unit, job }: RecordContext,
): Markup {
  const counts = [
    `${points.length} points`,
    ...(unreachable.length > 0 ? [`${unreachable.length} out of reach`] : []),
    ...(asBefore.length > 0 ? [`${asBefore.length} as before, not read again`] : []),
    ...(spans.length > 0 ? [`${spans.length} distances`] : []),
  ].join(', ');
  const own =
    measure.instrument === null ? null : markup`; instrument: ${instrumentText(measure.instrument, unit)}`;
  const conditions =
    measure.conditions === null || measure.conditions.size === 0
      ? null
      : markup`; ${quoted([...measure.conditions].map(([key, { text }]) => `${key} ${text}`).join(', '))}`;
  return markup`${underTension ? markup`<b>under load</b>; ` : null}${counts}; by ${written(measure.by ?? job.technician)}; ${measure.at === null ? 'no time stated' : timeMarkup(measure.at)}${conditions}${own}`;
}

const baseText = ({ alignment }: Stage): Markup | string => {
  if (alignment === null || alignment.inherited !== null) return '–';
  return quoted(withoutSides(alignment.baseIds).join(', ') || 'none');
};

function whyText(inspection: Inspection, stage: Stage): Markup {
  const { alignment, network } = stage;
  if (network) {
    const provisional = provisionalReason(inspection, stage);
    return markup`Distances only, adjusted together; control points near their reference.${provisional === null ? null : markup` <b>Provisional: ${quoted(provisional)}.</b>`}`;
  }
  if (isEmpty(stage)) return markup`Nothing to judge yet.`;
  if (alignment === null) return markup`Distances only: each is judged by itself.`;
  if (unusable(alignment)) return markup`Nothing is concluded: the readings are mirrored or out of scale.`;
  if (alignment.base === null) return markup`No alignment: too few control points, or all on one line.`;
  const provisional = provisionalReason(inspection, stage);
  return markup`${chosenText(inspection, alignment)}${provisional === null ? null : markup` <b>Provisional: ${quoted(provisional)}.</b>`}`;
}

function carriedText({ carried }: Alignment): Markup | string {
  if (carried?.movedTogether.length) return 'the car or the instrument has moved since';
  if (!carried || carried.across === null) return 'nothing was moved between';
  if (carried.confirmed)
    return quoted(`confirmed by ${carried.agreeing.join(', ')}, which stand where it has them`);
  return `${carriedPhrase(carried)}; nothing confirms it`;
}

function chosenText({ job, chassis }: Inspection, alignment: Alignment): Markup {
  if (alignment.inherited !== null)
    return markup`Taken over from ${quoted(`“${shortened(alignment.inherited, 60)}”`)}: ${carriedText(alignment)}.`;
  if (job.base.kind === 'ids') return markup`Named by the technician.`;
  const moved =
    alignment.movedIds.length === 0
      ? 'all that were read agree with each other.'
      : `these agree with each other; left out, as they do not: ${alignment.movedIds.join(', ')}.`;
  const others = alignment.alternatives.map(({ base }) => ` As believable: ${base.join(', ')}.`).join('');
  return markup`Searched: ${quoted(moved)}${others === '' ? null : quoted(others)}${witnessText(job.unit, chassis, alignment)}`;
}

const witnessText = (unit: Unit, chassis: Chassis, { witnesses }: Alignment): Markup | null =>
  witnesses &&
  markup` Aligned with the help of what nobody has in question, each believed so far: ${quoted(witnessList(witnesses, unit))}. Such points of sound cars are taken to scatter by ${elsewhereText(witnesses, chassis.buildElsewhereMm, unit)} (standard).`;

const fitText = ({ alignment }: Stage, unit: RecordContext['unit']): string =>
  alignment === null || alignment.rmsMm === null || alignment.inherited !== null
    ? ''
    : ` They fit to ${lengthText(alignment.rmsMm, unit)} rms${alignment.scale === null ? '' : `, scale ${figure(alignment.scale, 4)}`}.`;
