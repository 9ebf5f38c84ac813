import { instrumentOf } from '../../inspection/alignment/prepared';
import { differTooMuch, rangeOf, rangesOf } from '../../inspection/alignment/repeats';
import { allowedSpanSpreadMm, allowedSpreadMm } from '../../inspection/alignment/uncertainty';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { derived } from '../../memory/derived';
import type { Axis } from '../../model/chassis';
import type { Direction, Measure, Reading, SpanReading } from '../../model/job';
import { lengthFigure, lengthText, type Unit } from '../../model/units';
import { axisNames, listPhrase } from '../../wording/wording';
import type { Rule } from '../rule/rule';

export const repeatSpread: Rule = {
  name: 'reading/repeat-spread',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'reading',
  page: {
    summary: 'Repeats of one reading differ by more than the instrument’s repeatability allows.',
    why: 'Repeats are taken to catch a slipped tip, a car that rocked or a digit mistyped. Where they differ too much one of them is wrong, and their mean is wrong with it. Such a point or distance is undecided at best. Half of the difference counts as its standard uncertainty, so that a sign-off does not rest on it.',
    example:
      '      rail-front-lower.L: [[2690.0, 450.4, 204.8], [2690.0, 450.6, 211.8]]      # the tip slipped the second time',
    exampleIn: { place: 'row' },
    mend: 'Read the point again, and take the repeat that does not fit out of the list.',
    source:
      'ISO 5725-6: two results differ by more than √2 × 1.96 standard deviations in 5 % of cases; here three standard deviations of a difference, 3√2.',
  },
  ofJob: ({ inspection }) =>
    inspection.stages.flatMap((stage) => [
      ...repeated(stage.measure).flatMap((reading) => {
        const message = ofPoint(inspection, stage, reading);
        return message === null ? [] : [{ place: reading.key, message }];
      }),
      ...stage.spans
        .filter(({ contradictory }) => contradictory)
        .map(({ reading }) => ({ place: reading.place, message: ofDistance(inspection, stage, reading) })),
    ]),
};

/** The readings with repeats: few, so they are looked for once. */
const repeated = derived(({ readings }: Measure) => readings.filter(({ triplesMm }) => triplesMm.length > 1));

const axisOf: Record<Direction, Axis> = {
  forward: 0,
  rearward: 0,
  left: 1,
  right: 1,
  outboard: 1,
  up: 2,
  down: 2,
};

const fromTo = (range: readonly [number, number], unit: Unit): string =>
  range.map((value) => lengthFigure(value, unit)).join(' to ');

function ofPoint({ job }: Inspection, stage: Stage, { id, triplesMm }: Reading): string | null {
  const allowed = allowedSpreadMm(instrumentOf(job, stage.measure));
  const ranges = rangesOf(triplesMm);
  const wide = job.axes.flatMap((direction, i) => {
    const range = ranges[i];
    if (!differTooMuch(range, allowed)) return [];
    const apart = lengthText(range[1] - range[0], job.unit);
    return [`${apart} in ${axisNames[axisOf[direction]]} (${fromTo(range, job.unit)})`];
  });
  if (wide.length === 0) return null;
  return `the repeats of ${id} differ by ${listPhrase(wide)}; with this instrument they should stay within ${lengthText(allowed, job.unit)}. One of them is wrong, so their mean cannot show that the point is within its limit: read it again.`;
}

function ofDistance({ job }: Inspection, stage: Stage, { from, to, distancesMm }: SpanReading): string {
  const allowed = allowedSpanSpreadMm(instrumentOf(job, stage.measure));
  const range = rangeOf(distancesMm);
  return `the repeats of ${from} to ${to} differ by ${lengthText(range[1] - range[0], job.unit)} (${fromTo(range, job.unit)}); with this instrument they should stay within ${lengthText(allowed, job.unit)}. One of them is wrong, so their mean cannot show that the distance is within its limit: read it again.`;
}
