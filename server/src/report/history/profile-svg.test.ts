import { expect, it } from 'vitest';
import { inspectionOf, jobOn, measured } from '../../testing/car';
import { profileSvg } from './profile-svg';

const rail = (inboard: number): string =>
  [
    '      rail-root-lower.L: [1760, 441, 188]',
    '      rail-root-upper.L: [1760, 445, 328]',
    `      rail-tip-lower.L: [3012, ${448 - inboard}, 210]`,
    `      rail-tip-upper.L: [3012, ${452 - inboard}, 352]`,
  ].join('\n');

const pull = `  - pull: left rail
    part: front-rail.L
    chains: [{ hook: rail-tip-upper.L, direction: [0, 1, 0] }]`;

it('a profile is laid over the first stage off load, never over a peak nor over a later stage', () => {
  const inspection = inspectionOf(
    jobOn(
      [
        measured('', 'control points only'),
        pull,
        measured(rail(-2), 'peak'),
        '  - release: all',
        measured(rail(6), 'after first pull'),
        measured(rail(3), 'after second pull'),
      ].join('\n'),
    ),
  );
  const captionIn = (name: string) => {
    const stage = inspection.stages.find((each) => each.name === name)!;
    const part = stage.parts.find((each) => each.part.id === 'front-rail.L')!;
    return profileSvg(inspection, stage, part, 600, 'p')!.markup.match(/class="fw-caption"[^>]*>([^<]*)/)![1];
  };
  expect(captionIn('peak')).toBe('front-rail.L in “peak”');
  expect(captionIn('after first pull')).toBe('front-rail.L in “after first pull”');
  expect(captionIn('after second pull')).toBe(
    'front-rail.L in “after second pull”, over “after first pull” (dashed)',
  );
});
