import { test } from 'vitest';
import { job, jobFiles } from '../../testing/body';
import { found, silent } from '../testing/kit';
import { signed } from '../testing/sign-off';

const name = 'instrument/calibration';
const calibrated = (date: string, text: string) =>
  text.replace(/^instrument: \{/m, `instrument: { calibrated: ${date},`);
const filesOf = (text: string, months: number | null = 12) => ({
  '.framewright.yaml': `framewright: settings/1\n${months === null ? '' : `calibration-months: ${months}\n`}`,
  ...jobFiles(text),
});

test('too old on the day of the measure; an instrument of its own counts for itself', async () => {
  await found(
    name,
    filesOf(
      calibrated(
        '2025-03-01',
        job(`
  - measure: as received
#   ^^^^^^^ warning: instrument/calibration the calibration of 2025-03-01 was more than 12 months old on 2026-03-02
    at: 2026-03-02T09:00
  - measure: with the other one
    at: 2026-03-02T10:00
    instrument: { uncertainty: 0.5, calibrated: 2026-01-02 }
`),
      ),
    ),
  );
});

test('by the date of the sign-off where the measure has none', async () => {
  const text = (date: string, mark = '') =>
    calibrated(date, job(`\n  - measure: finished\n${mark}`, '', signed()));
  const mark =
    '#   ^^^^^^^ warning: instrument/calibration the calibration of 2025-03-04 was more than 12 months old on 2026-03-05\n';
  await found(name, filesOf(text('2025-03-04', mark)));
  await silent(name, filesOf(text('2025-03-05')));
});

test('nothing is said where the interval, the calibration or the day is not known', async () => {
  const measured = (at: string) => `\n  - measure: as received\n${at}`;
  await silent(name, filesOf(calibrated('2020-01-01', job(measured('    at: 2026-03-02\n'))), null));
  await silent(name, filesOf(job(measured('    at: 2026-03-02\n'))));
  await silent(name, filesOf(calibrated('2020-01-01', job(measured('')))));
});

test('a calibration from after the measure says nothing about it', async () => {
  const text = (mark: string, date: string) =>
    filesOf(calibrated(date, job(`\n  - measure: as received\n${mark}    at: 2026-03-02T09:00\n`)));
  const mark =
    '#   ^^^^^^^ warning: instrument/calibration the instrument was calibrated on 2026-03-03, after this was read on 2026-03-02\n';
  await found(name, text(mark, '2026-03-03'));
  await silent(name, text('', '2026-03-02'));
});
