import { describe, expect, it } from 'vitest';
import { carChassis, inspectionOf, jobOn, measured } from '../testing/car';
import { summaryKeys, summaryLines, summaryText } from './summaries';

const textOf = (key: string, rows: string, head?: string, chassis?: string) => {
  const inspection = inspectionOf(jobOn(measured(rows), head), chassis);
  return summaryText(inspection, inspection.stages[0], key);
};
const root = '      rail-root-lower.L: [1760, 441, 188]\n      rail-root-upper.L: [1760, 445, 328]';
const tip = (y: number) =>
  `      rail-tip-lower.L: [3012, ${448 + y}, 210]\n      rail-tip-upper.L: [3012, ${452 + y}, 352]`;

describe('a summary line', () => {
  it('tells the twist station by station, outermost first, and per metre', () => {
    const rows = `${root}\n      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: [3012, 442, 352]`;
    // 10 mm over 142 mm: 4.0°; over 1.252 m: 3.2°/m
    expect(textOf('front-rail.L twist', rows)).toBe(
      '4.0° ±0.2° top leans right at 3012 mm, 0.0° ±0.2° at 1760 mm; 3.2°/m ±0.3°/m top leans right going forward over 1760–3012 mm',
    );
    expect(textOf('front-rail.L twist', '      rail-tip-lower.L: [3012, 448, 210]')).toBe(
      'twist cannot be observed, one level only',
    );
  });

  it('tells the sweep with in and out of the body, and says what is nothing without a direction', () => {
    expect(textOf('front-rail.L sweep', `${root}\n${tip(-14.2)}`)).toMatch(
      /^at 3012 mm 14\.2 mm ±0\.\d mm right \(inboard\) and 0\.0 mm ±0\.\d mm; at 1760 mm 0\.0 mm ±0\.\d mm and 0\.0 mm ±0\.\d mm; bow cannot be told from fewer than three stations$/,
    );
  });

  it('tells of stretch and bend, or why not', () => {
    const short = `${root}\n      rail-tip-lower.L: [3006, 448, 210]\n      rail-tip-upper.L: [3006, 452, 352]`;
    expect(textOf('front-rail.L stretch', short)).toMatch(/^6\.0 mm ±0\.\d mm shorter over 1760–3012 mm$/);
    expect(textOf('front-rail.L stretch', root)).toBe('length cannot be told from one station');
    expect(textOf('front-rail.L bend', short)).toBe('too few stations to tell where a bend starts');
  });

  const at = [1700, 1950, 2200, 2450, 2700, 2950];
  const chassis = carChassis.replace(
    '  latch:',
    `${at.map((x, i) => `  p${i}: { left: [${x}, 500, 300], part: front-rail }`).join('\n')}\n  latch:`,
  );
  const bentRows = (from: number, slope = 0.03) =>
    at.map((x, i) => `      p${i}.L: [${x}, ${500 - slope * Math.max(0, x - from)}, 300]`).join('\n');

  it('tells where a bend starts by a stage itself, and by all that saw it together', () => {
    const told = (second: string) => {
      const pull = '  - pull: out\n    part: front-rail.L\n  - release: all';
      const job = jobOn(`${measured(bentRows(2300))}\n${pull}\n${measured(second, 'again')}`);
      const inspection = inspectionOf(job, chassis);
      return inspection.stages.map((stage) => summaryText(inspection, stage, 'front-rail.L bend'));
    };
    const [first, again] = told(bentRows(2310, 0.015));
    expect(first).not.toContain('together');
    expect(again).toMatch(
      /^starts at 23\d\d mm .*; by “as received” and “again” together it starts at 230\d mm \(between 22\d\d and 23\d\d mm at 95 %\); hold behind 22\d\d mm$/,
    );
    expect(told(bentRows(2550))[1]).toMatch(
      /; where it starts is told differently by “as received” and “again”: anywhere between 22\d\d and 25\d\d mm; hold behind 22\d\d mm$/,
    );
    expect(told(bentRows(4000))[1]).toMatch(/^no bend can be told; by “as received” it starts at 2300 mm/);
  });

  it('tells where a bend starts, which way it goes and where to hold', () => {
    const rows = bentRows(2300);
    expect(textOf('front-rail.L bend', rows, undefined, chassis)).toMatch(
      /^starts at 2300 mm \(between 22\d\d and 23\d\d mm at 95 %\); 1\.7° ±0\.\d° to the right, 0\.0° ±0\.\d° going forward; hold on straight metal behind 22\d\d mm$/,
    );
  });

  it('tells the conditions of the body, and where nothing was measured', () => {
    const rows = `${tip(-14)}\n${tip(0).replace(/\.L: \[3012, /g, '.R: [3012, -')}`;
    expect(textOf('body', rows)).toMatch(
      /sidesway 7\.0 mm right .*; not measured on both sides behind the base$/,
    );
    expect(textOf('body', '')).toBe(
      'no condition to name; not measured on both sides ahead of the base and behind the base',
    );
  });

  it('is in the unit of the file, angles in degrees', () => {
    const inches = (rows: string) =>
      rows.replace(/-?\d+(\.\d+)?(?=[,\]])/g, (number) => String(Number(number) / 25.4));
    const inspection = inspectionOf(
      jobOn(inches(measured(`${root}\n${tip(-12.7)}`)), 'units: inch\ninstrument: { uncertainty: 0.008 }'),
    );
    expect(summaryText(inspection, inspection.stages[0], 'front-rail.L sweep')).toMatch(
      /^at 118\.6 in 0\.500 in ±0\.0\d\d in right \(inboard\)/,
    );
  });

  it('is nothing for what the stage did not read', () => {
    for (const key of [
      'front-rail.R twist',
      'front-rail.L',
      'front-rail twist',
      'front-rail.L colour',
      'twist',
      'front-rail.L twist twist',
    ])
      expect(textOf(key, root)).toBeNull();
  });

  it('says that the stage is provisional', () => {
    const inspection = inspectionOf(
      jobOn(`  - measure: as received
    readings:
      floor-front.L: [1230, 420, 95]
      floor-rear.L: [-350, 435, 110]
      floor-rear.R: [-390, -455, 60]
      cowl-hole.R: [1480, -572, 945]
      rail-tip-lower.L: [3012, 448, 210]`),
    );
    expect(summaryText(inspection, inspection.stages[0], 'front-rail.L twist')).toBe(
      'twist cannot be observed, one level only; provisional, the control points contradict each other',
    );
  });
});

describe('the keys of a summary', () => {
  const keysOf = (head?: string) => {
    const inspection = inspectionOf(jobOn(measured(`${root}\n      strut-top.L: [2250, 561, 830]`), head));
    return { inspection, stage: inspection.stages[0] };
  };

  it('are the parts of the scope that were read, else those read beside the base', () => {
    const { inspection, stage } = keysOf();
    expect(summaryKeys(inspection, stage, 'twist')).toEqual(['apron.L twist', 'front-rail.L twist']);
    expect(summaryKeys(inspection, stage, 'body')).toEqual(['body']);
    expect(summaryKeys(inspection, stage, 'spring-back')).toEqual([]);
    const scoped = keysOf('scope: [front-rail, floor]');
    expect(summaryKeys(scoped.inspection, scoped.stage, 'sweep')).toEqual([
      'floor sweep',
      'front-rail.L sweep',
    ]);
  });

  it('all have a line', () => {
    const { inspection, stage } = keysOf();
    expect(summaryLines(inspection, stage).map(({ key }) => key)).toEqual([
      'apron.L twist',
      'apron.L sweep',
      'apron.L bend',
      'apron.L stretch',
      'front-rail.L twist',
      'front-rail.L sweep',
      'front-rail.L bend',
      'front-rail.L stretch',
      'body',
    ]);
  });
});
