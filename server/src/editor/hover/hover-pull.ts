import { coverage95 } from '../../inspection/alignment/verdict';
import type { Inspection } from '../../inspection/job/inspect';
import { type ObservedPull, observedPulls } from '../../inspection/pulls/observed-pulls';
import { type ChainEffect, chainEffects } from '../../inspection/pulls/pull-checks';
import type { PullRecord } from '../../inspection/timeline/work';
import { sideOf } from '../../model/names';
import { lengthText, type Unit } from '../../model/units';
import { directionWords } from '../../wording/pull-direction';
import { certaintyText } from '../../wording/wording';
import { escaped, table } from './markdown';

/** A pull: what it moved and what came back, then which way each chain goes and whether that helps. */
export function pullHover(inspection: Inspection, record: PullRecord): string {
  const { unit } = inspection.job;
  const seen = observedPulls(inspection).filter(({ index }) => index === record.index);
  const effects = inspection.heldBack ? [] : chainEffects(inspection, record);
  const chains = effects.map((effect) => `- ${chainText(effect, unit)}`);
  return [
    `**${escaped(record.pull.title || 'pull')}**`,
    '',
    ...(seen.length === 0 ? [unseenText(inspection, record)] : seenLines(seen, unit)),
    ...(chains.length === 0 ? [] : ['', ...chains]),
    '',
    "The maker's procedure decides.",
  ].join('\n');
}

function seenLines(seen: readonly ObservedPull[], unit: Unit): string[] {
  const rows = seen.map((pull) => {
    const [[moved, both], [, back]] = pull.covariance;
    const figure = (mm: number, variance: number) =>
      `${lengthText(mm, unit)} ${certaintyText(Math.sqrt(Math.max(0, variance)), unit)}`;
    return [
      pull.partId,
      figure(pull.movementMm, moved),
      figure(pull.recoveryMm, back),
      figure(pull.movementMm - pull.recoveryMm, moved + back - 2 * both),
    ];
  });
  const points = seen.flatMap(({ pointIds }) => pointIds);
  return [
    table(['', 'moved', 'came back', 'stayed'], rows),
    '',
    `Mean of ${points.join(', ')}, ± at 95 %${seen.some(({ carried }) => carried) ? '; by the alignment from before the pull' : ''}.`,
  ];
}

const unseenText = ({ heldBack }: Inspection, { releasedAt }: PullRecord): string =>
  heldBack
    ? 'What it moved is not judged until the text is corrected.'
    : `What it moved is not known${releasedAt === null ? ' before it is released' : ''}: that takes a reading of the same points before it, under its load and after its release.`;

function chainText(effect: ChainEffect, unit: Unit): string {
  const { chain, direction, reading, along } = effect;
  const at = `at ${escaped(chain.hook.id)}`;
  if (direction === null) return `${at} no direction is written`;
  const way = `${at} it pulls ${directionWords(direction, sideOf(chain.hook.id))}`;
  if (reading === null) return `${way}; whether that helps is not known: the point was not read before`;
  if (along === null) return `${way}; whether that helps is not known: the reading before does not tell`;
  const [far, sure] = [lengthText(Math.abs(along.neededMm), unit), certaintyText(along.uncertaintyMm, unit)];
  if (Math.abs(along.neededMm) <= coverage95 * along.uncertaintyMm)
    return `${way}; nothing is certain to be left along it`;
  const by = `by “${escaped(reading.stage.name)}”`;
  return along.neededMm > 0
    ? `${way}, which **helps**: ${far} ${sure} were left along it, ${by}`
    : `${way}, which **does not help**: the point had ${far} ${sure} to go the other way, ${by}`;
}
