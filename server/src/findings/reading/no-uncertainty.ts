import { instrumentOf } from '../../inspection/alignment/prepared';
import { assumedUncertaintyMm } from '../../inspection/alignment/uncertainty';
import type { Inspection } from '../../inspection/job/inspect';
import { hasNumbers, type Instrument } from '../../model/job';
import { lengthText } from '../../model/units';
import { listPhrase } from '../../wording/wording';
import type { Draft, Rule } from '../rule/rule';

export const noUncertainty: Rule = {
  name: 'reading/no-uncertainty',
  severity: 'information',
  since: '0.1',
  failsCheck: 'closed',
  page: {
    summary: 'Readings rely on an uncertainty that their instrument does not state; an assumption was made.',
    why: 'Whether a point 2 mm off is in tolerance depends on how well the instrument measures. Where the file does not say, 1 mm on each axis is assumed, and √2 times that for a distance. That is a guess: it may be too small for a worn arm and too large for a new one.',
    example: 'instrument: { name: borrowed arm }',
    exampleIn: { place: 'head' },
    mend: 'State it: `instrument: { name: bench arm 2, uncertainty: 0.5 }`, from the last check against known lengths. It is a standard uncertainty: half of the ± that holds in 95 % of cases.',
    source:
      'JCGM 100:2008, Guide to the expression of uncertainty in measurement. The 1 mm is an assumption of this program.',
  },
  ofJob: ({ inspection }) => draftsOf(inspection),
};

function draftsOf(inspection: Inspection): Draft[] {
  const { job } = inspection;
  /** What each instrument was used for without saying how well it does it. */
  const lacking = new Map<Instrument | null, { readings: boolean; spans: boolean }>();
  for (const { measure } of inspection.stages) {
    const instrument = instrumentOf(job, measure);
    if (instrument?.uncertaintyMm != null) continue;
    const readings = measure.readings.some(hasNumbers);
    const spans = instrument?.spanUncertaintyMm == null && measure.spans.some((span) => !span.unreachable);
    if (!readings && !spans) continue;
    const known = lacking.get(instrument);
    lacking.set(instrument, {
      readings: readings || known?.readings === true,
      spans: spans || known?.spans === true,
    });
  }
  return [...lacking].map(([instrument, { readings, spans }]) => ({
    place: instrument?.place ?? job.head,
    message: messageOf(inspection, instrument, readings, spans),
  }));
}

function messageOf(
  { job: { unit } }: Inspection,
  instrument: Instrument | null,
  readings: boolean,
  spans: boolean,
): string {
  const taken = [
    ...(readings ? [`${lengthText(assumedUncertaintyMm, unit)} on each axis of a reading`] : []),
    ...(spans ? [`${lengthText(Math.SQRT2 * assumedUncertaintyMm, unit)} for a distance`] : []),
  ];
  const who =
    instrument === null
      ? 'no instrument is stated'
      : `${instrument.name ?? 'the instrument'} states no uncertainty`;
  return `${who}: ${listPhrase(taken)} ${taken.length === 1 ? 'is' : 'are'} assumed (standard uncertainty). State it, such as \`uncertainty: 0.5\`, because every verdict rests on it.`;
}
