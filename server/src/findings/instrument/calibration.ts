import { dayOf, monthsAfter } from '../../model/dates';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const calibration: Rule = {
  name: 'instrument/calibration',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary:
      'A measure was read with an instrument whose calibration was too old, or later than the measure.',
    why: `How well an instrument reads is known from its calibration, and for as long as the shop's procedure says. \`calibration-months\` of the settings says how long; the date of the
measure (\`at\`), else that of the sign-off, says how old it was. Where either is missing nothing is said: no clock is asked.
A calibration that is dated after the measure says nothing about it.`,
    example: `instrument: { name: bench arm 1, uncertainty: 0.3, calibrated: 2025-01-10 }
timeline:
  - measure: as received          # the settings say calibration-months: 12
    at: 2026-03-02T09:10`,
    exampleIn: {
      place: 'head',
      files: { '.framewright.yaml': 'framewright: settings/1\ncalibration-months: 12\n' },
    },
    mend: 'Calibrate the instrument and measure again, or correct the date of its calibration.',
    source:
      'Common practice in the trade; the interval is the choice of the shop and of the instrument’s maker.',
  },
  ofJob: ({ inspection: { job }, settings }: JobContext): Draft[] => {
    const months = settings.calibrationMonths;
    if (months === null) return [];
    return job.timeline.flatMap((entry): Draft[] => {
      if (entry.kind !== 'measure') return [];
      const calibrated = (entry.instrument ?? job.instrument)?.calibrated ?? null;
      const read = entry.at ?? job.signOff?.date ?? null;
      if (calibrated === null || read === null) return [];
      const message = complaint(dayOf(calibrated), dayOf(read), months);
      return message === null ? [] : [{ place: entry.keyPlace, message }];
    });
  },
};

function complaint(calibrated: string, read: string, months: number): string | null {
  if (read > monthsAfter(calibrated, months))
    return `the calibration of ${calibrated} was more than ${months} months old on ${read}: what is read may be less certain than stated`;
  return calibrated > read
    ? `the instrument was calibrated on ${calibrated}, after this was read on ${read}: how certain it was then is not known`
    : null;
}
