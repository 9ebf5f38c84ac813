import { expect, it } from 'vitest';
import { sampleTexts } from '../../commands/recorded.fixture';
import { recordOf, shownText } from '../sample.fixture';

const path = 'jobs/w-1217-from-the-nose.readings.yaml';

it('a record tells places as the sheet counts them, and deviations in vehicle axes', async () => {
  const html = await recordOf(sampleTexts, path);
  const text = shownText(html).replace(/\s+/g, ' ');
  expect(text).toContain('rearward, outboard, up; places along the car are told so');
  expect(text).toContain('searched between length 1600 and 4400 mm (rearward of zero)');
  expect(text).toContain('buckle on apron.L at 980 mm (rearward of zero)');
  expect(text).toContain('on front-rail.L at 1020 mm (rearward of zero)');
  expect(text).toMatch(/starts at 9\d\d mm \(rearward of zero; between \d+ and \d+ mm at 95 %\)/);
  // 700 behind the bend of 0.045: the tip stands about 32 to the right
  expect(text).toMatch(/at 188 mm \(rearward of zero\) 3\d\.\d mm ±\d\.\d mm right \(inboard\)/);
});
