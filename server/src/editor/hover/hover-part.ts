import type { Inspection } from '../../inspection/job/inspect';
import { isRenewed } from '../../inspection/pulls/job-plan/renewal';
import { pullPlan } from '../../inspection/pulls/plan';
import type { Chassis, Limits, Part } from '../../model/chassis';
import { countsAsUsual, signedBand } from '../../model/sheet-axes';
import { lengthFigure, type Unit, unitWord } from '../../model/units';
import { holdText } from '../../wording/job-plan/step-hold-words';
import { summaryLines } from '../../wording/summaries';
import { axisNames, directionWord } from '../../wording/wording';
import { escaped, table } from './markdown';

const straightenWords = {
  freely: 'may be straightened',
  minor: 'bent may be straightened, kinked may not',
  never: 'must not be straightened: replace only',
} as const;

/** A part: what it is, what the maker allows, and how it stands in this job. */
export function partHover(part: Part, chassis: Chassis, inspection: Inspection | null): string {
  const points = [...chassis.points.values()].filter((point) => point.part === part.id);
  return [
    `**${part.id}**: runs along ${axisNames[part.along]}, ${points.length} point${points.length === 1 ? '' : 's'}`,
    '',
    ...standing(part, inspection),
    ...rules(part, chassis).map((line) => `- ${line}`),
    ...(inspection === null ? [] : toInsert(part, inspection)),
  ].join('\n');
}

function rules(part: Part, chassis: Chassis): string[] {
  const { unit } = chassis;
  const heat =
    part.heat === null
      ? 'heat: nothing recorded'
      : part.heat === 'never'
        ? 'heat: never'
        : `heat: to ${part.heat.toCelsius} °C${part.heat.forSeconds === null ? '' : ` for ${part.heat.forSeconds} s`}`;
  return [
    part.steel ? `steel: ${part.steel}` : 'steel: not recorded',
    part.straighten
      ? straightenWords[part.straighten]
      : "straightening: the maker's procedure is not recorded",
    part.section ? bandText(part, part.section, unit) : 'sectioning: no band is recorded',
    heat,
    ...(part.reference ? [`procedure: ${escaped(part.reference)}`] : []),
    "the maker's procedure decides",
  ];
}

function bandText(part: Part, section: Limits, unit: Unit): string {
  const [low, high] = signedBand(part.sheetSign, section);
  const word = countsAsUsual(part) ? '' : ` (${directionWord(part.along, part.sheetSign)})`;
  return `a cut is allowed from ${lengthFigure(low, unit)} to ${lengthFigure(high, unit)} ${unitWord[unit]} along ${axisNames[part.along]}${word}`;
}

/** The newest released stage that read the part. */
function standing(part: Part, inspection: Inspection | null): string[] {
  const stage = inspection?.stages
    .filter((each) => !each.underTension)
    .findLast((each) => each.parts.some(({ part: { id } }) => id === part.id));
  if (!inspection || !stage) return [];
  const points = stage.points.filter(({ point }) => point.part === part.id);
  const count = (verdict: string) => points.filter((each) => each.verdict === verdict).length;
  const told = summaryLines(inspection, stage).flatMap(({ key, text }) =>
    key.startsWith(`${part.id} `) ? [[key.slice(part.id.length + 1), escaped(text)]] : [],
  );
  const bend = told.filter(([key]) => key === 'bend');
  const rest = told.filter(([key]) => key !== 'bend');
  return [
    `**In "${escaped(stage.name)}"**: ${count('within')} within, ${count('outside')} outside, ${count('undecided')} undecided`,
    '',
    ...(told.length === 0 ? [] : [table(['', ''], [...bend, ...holdRow(part, inspection), ...rest]), '']),
  ];
}

/** Where the plan holds the part, while there is one. */
function holdRow({ id }: Part, inspection: Inspection): string[][] {
  const plan = inspection.job.signOff === null ? pullPlan(inspection, id) : null;
  return plan?.kind === 'plan' && !isRenewed(inspection, plan)
    ? [['hold', escaped(holdText([plan], inspection.job.unit))]]
    : [];
}

/** Where to find which way to pull: a plan stands with its cautions or not at all. */
function toInsert({ id }: Part, inspection: Inspection): string[] {
  const plan = inspection.job.signOff === null ? pullPlan(inspection, id) : null;
  if (plan?.kind !== 'plan' || isRenewed(inspection, plan)) return [];
  return [
    '',
    `The action *Insert pull plan for ${id}* writes which way each chain pulls, where to hold, how far to go and what to measure then.`,
  ];
}
