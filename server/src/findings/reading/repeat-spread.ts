import { assumedUncertaintyMm, instrumentOf } from '../../inspection/alignment/prepared';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { derived } from '../../memory/derived';
import type { Axis } from '../../model/chassis';
import type { Direction, Instrument, Measure, Reading } from '../../model/job';
import { lengthFigure, lengthText } from '../../model/units';
import { axisNames, listPhrase } from '../../wording/wording';
import type { Rule } from '../rule/rule';

export const repeatSpread: Rule = {
  name: 'reading/repeat-spread',
  severity: 'warning',
  page: {
    summary: 'Repeats of one reading differ by more than the instrument’s repeatability allows.',
    why: 'Repeats are taken to catch a slipped tip, a car that rocked or a digit mistyped. Where they differ too much one of them is wrong, and their mean is wrong with it.',
    example:
      '      rail-front-lower.L: [[2690.0, 450.4, 204.8], [2690.0, 450.6, 211.8]]      # the tip slipped the second time',
    mend: 'Read the point again, and take the repeat that stands apart out of the list.',
    source:
      'ISO 5725-6: two results differ by more than √2 × 1.96 standard deviations in 5 % of cases; here three standard deviations of a difference, 3√2.',
  },
  ofJob: ({ inspection }) =>
    inspection.stages.flatMap((stage) =>
      repeated(stage.measure).flatMap((reading) => {
        const message = messageOf(inspection, stage, reading);
        return message === null ? [] : [{ place: reading.key, message }];
      }),
    ),
};

/** The readings with repeats: few, so they are looked for once. */
const repeated = derived(({ readings }: Measure) => readings.filter(({ triplesMm }) => triplesMm.length > 1));

/** Most that repeats may differ on an axis, mm. */
function allowedMm(instrument: Instrument | null): number {
  const u = instrument?.uncertaintyMm ?? assumedUncertaintyMm;
  return 3 * Math.SQRT2 * Math.max(instrument?.repeatabilityMm ?? 0, u);
}

const axisOf: Record<Direction, Axis> = {
  forward: 0,
  rearward: 0,
  left: 1,
  right: 1,
  outboard: 1,
  up: 2,
  down: 2,
};

function messageOf({ job }: Inspection, stage: Stage, { id, triplesMm }: Reading): string | null {
  if (triplesMm.length < 2) return null;
  const allowed = allowedMm(instrumentOf(job, stage.measure));
  const wide = job.axes.flatMap((direction, i) => {
    let [low, high] = [triplesMm[0][i], triplesMm[0][i]];
    for (const triple of triplesMm) {
      low = Math.min(low, triple[i]);
      high = Math.max(high, triple[i]);
    }
    // readings are typed to a tenth or less: rounding noise is no spread
    if (high - low <= allowed + 1e-9) return [];
    const [from, to] = [low, high].map((value) => lengthFigure(value, job.unit));
    return [`${lengthText(high - low, job.unit)} in ${axisNames[axisOf[direction]]} (${from} to ${to})`];
  });
  if (wide.length === 0) return null;
  return `the repeats of ${id} differ by ${listPhrase(wide)}; with this instrument they should stay within ${lengthText(allowed, job.unit)}. One of them is wrong: read the point again.`;
}
