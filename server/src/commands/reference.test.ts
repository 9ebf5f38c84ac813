import { describe, expect, it } from 'vitest';
import { chassisSheet } from '../model/read/chassis-from-text';
import { chassisFrom } from '../model/resolve/chassis-merge';
import { carChassis, jobOn, measured, soundBase } from '../testing/car';
import { parseText } from '../text/yaml/parse';
import { recorded, shopOf, target } from './recorded.fixture';
import { reference } from './reference';

const chassis = `# the front of the Marten\n${carChassis}# end\n`;
const rails = `      rail-tip-upper.L: [3012, 452, 352]
      rail-tip-upper.R: [3012, -452, 352]
`;
const hole = `      front-rail-hole.L: [2500.3, 440, 260]
      front-rail-hole.R: [2500.1, -440.4, 260.2]
`;
const job = (rows: string, order = 'W-1', base?: string) =>
  jobOn(
    base === undefined ? measured(rows) : `  - measure: as received\n    readings:\n${base}\n${rows}`,
    `order: ${order}\ninstrument: { name: arm, uncertainty: 0.2 }`,
  ).replace('measure: as received', 'measure: as received\n    at: 2026-02-03T10:00');

interface Options {
  readonly chassis?: string;
  readonly names?: readonly string[];
  readonly replace?: boolean;
  readonly dryRun?: boolean;
}

/** Runs the command on jobs; `written` is null where nothing was. */
async function run(jobs: readonly string[], options: Options = {}) {
  let written: string | null = null;
  const texts = Object.fromEntries(jobs.map((text, i) => [`${i}.readings.yaml`, text]));
  const files = shopOf({ ...texts, 'car.chassis.yaml': options.chassis ?? chassis });
  const said = await recorded((output) =>
    reference(files, Object.keys(texts).map(target), {
      ...output,
      into: target('car.chassis.yaml'),
      names: options.names ?? null,
      replace: options.replace ?? false,
      dryRun: options.dryRun ?? false,
      write: (text) => {
        written = text;
        return null;
      },
    }),
  );
  return { ...said, written: written === null ? null : String(written) };
}

const pointsOf = (text: string | null) =>
  chassisFrom([chassisSheet('file:///car.chassis.yaml', parseText(text ?? ''))]).points;

describe('reference', () => {
  it('writes both sides as one where they agree, with uncertainty and source, and leaves the rest of the file alone', async () => {
    const { code, written, printed } = await run([job(rails + hole)]);
    expect(code).toBe(0);
    const row = written?.split('\n').find((line) => line.includes('front-rail-hole'));
    expect(row).toMatch(
      /^ {2}front-rail-hole: \{ both: \[2500\.2, 440\.2, 260\.1\], part: front-rail, uncertainty: (\{.*?\}|[\d.]+), source: \{ kind: donor, reference: W-1, date: 2026-02-03 \} \}$/,
    );
    expect(written?.replace(`${row}\n`, '')).toBe(chassis);
    const left = pointsOf(written).get('front-rail-hole.L');
    // at least what cars vary by elsewhere (1 mm), as one car knows nothing of it
    expect(Math.min(...(left?.uncertaintyByAxisMm ?? [left?.uncertaintyMm ?? 0]))).toBeGreaterThan(1);
    expect(printed).toContain('one car: how far cars scatter here is not known');
    expect(printed).toContain('rail-tip-upper.L agrees with the file: 0.0 mm');
    expect(printed).not.toContain('unproven');
  });

  it('is repeatable: the new point is known the second time', async () => {
    const { written } = await run([job(rails + hole)]);
    const again = await run([job(rails + hole)], { chassis: written ?? '' });
    expect(again).toMatchObject({ code: 1, written: null });
    expect(again.complained).toContain('there is no new point to write');
  });

  it('writes two sides that differ apart, and says that which is off is not known', async () => {
    const uneven = hole.replace('-440.4, 260.2', '-440.4, 266.2');
    const { code, written, printed } = await run([job(rails + uneven)]);
    expect(code).toBe(0);
    expect(printed).toMatch(
      /left and right differ by 6\.2 ±[\d.]+ mm in height: which one is off is not known/,
    );
    expect(written).toMatch(/ {2}# left and right differ by 6\.2/);
    const points = pointsOf(written);
    expect(points.get('front-rail-hole.L')?.reference[2]).toBeCloseTo(260, 1);
    expect(points.get('front-rail-hole.R')?.reference).toEqual(
      [2500.1, -440.4, 266.2].map((each) => expect.closeTo(each, 1)),
    );
  });

  it('combines cars, whose scatter it says', async () => {
    const second = (rails + hole).replaceAll('260', '262').replaceAll('440', '441');
    const { code, written, printed } = await run([job(rails + hole), job(second, 'W-2')]);
    expect(code).toBe(0);
    expect(written).toContain('reference: "W-1, W-2"');
    expect(printed).toMatch(/2 cars scatter here by 0\.0 0\.7 1\.4 mm/);
    expect(pointsOf(written).get('front-rail-hole.L')?.reference[2]).toBeCloseTo(261.1, 1);
  });

  it('counts a car once', async () => {
    const { complained, written } = await run([job(rails + hole), job(rails + hole)]);
    expect(complained).toContain('W-1 is among the cars already: a car counts once');
    expect(written).toContain('reference: W-1,');
  });
});

describe('a car that is no reference', () => {
  const moved = (row: string, to: string) => soundBase.replace(row, to);
  it.each([
    [
      'a control point that moved',
      job(rails + hole, 'W-1', moved('floor-rear.R: [-350, -455, 90]', 'floor-rear.R: [-350, -455, 99]')),
      'the control point floor-rear.R has moved, or was misread',
    ],
    [
      'control points that are too few',
      job(rails + hole, 'W-1', soundBase.split('\n').slice(0, 2).join('\n')),
      'only 2 control points were read',
    ],
    [
      'control points that contradict each other',
      job(
        rails + hole,
        'W-1',
        soundBase.replaceAll(
          /floor-(front|rear)\.(.): \[(-?\d+), /g,
          (_, end, side, x) =>
            `floor-${end}.${side}: [${Number(x) + (side === 'L' ? 14 : 0) + (end === 'rear' ? 25 : 0)}, `,
        ),
      ),
      /control points? .*(moved|contradict|story|off)/,
    ],
    [
      'a car that was pulled before it was read',
      job(rails + hole).replace(
        'timeline:\n',
        'timeline:\n  - pull: straighten\n    part: front-rail.L\n  - release: all\n',
      ),
      'nothing was read in three numbers before work on it began',
    ],
    ['a file with errors', `${job(rails + hole)}  - [`, 'has errors'],
  ])('%s', async (_, text, why) => {
    const { code, written, complained } = await run([text]);
    expect(complained).toMatch(why);
    expect(code).not.toBe(0);
    expect(written).toBeNull();
  });

  it('gives no reference on a part that has moved, and says by what it shows', async () => {
    const bent = rails.replace('[3012, 452, 352]', '[3012, 452, 361]');
    const { code, written, printed, complained } = await run([job(bent + hole)]);
    expect(code).toBe(0);
    expect(printed).toMatch(
      /front-rail-hole\.L of W-1 is left out: the metal there has moved \(rail-tip-upper\.L is 9\.0 mm up\)/,
    );
    expect(complained).toBe('');
    expect([...pointsOf(written).keys()]).not.toContain('front-rail-hole.L');
    expect([...pointsOf(written).keys()]).toContain('front-rail-hole.R');
  });

  it('says where nothing shows the part to be sound', async () => {
    const { code, printed } = await run([job(hole)]);
    expect(code).toBe(0);
    expect(printed).toContain('unproven: of front-rail.L W-1 read no other point that has a reference');
  });

  it('takes nothing from a part that was seen to be damaged', async () => {
    const seen = job(rails + hole).replace(
      'timeline:\n',
      'timeline:\n  - observe: kink\n    part: front-rail.L\n',
    );
    const { printed, written } = await run([seen]);
    expect(printed).toContain('front-rail-hole.L of W-1 is left out: front-rail.L was damaged');
    expect([...pointsOf(written).keys()]).not.toContain('front-rail-hole.L');
  });
});

describe('a point that is in the file', () => {
  const shifted = job(rails.replaceAll('352]', '353.5]') + hole);
  it('is compared and never written over without a word', async () => {
    const { code, written, printed, complained } = await run([shifted], { names: ['rail-tip-upper'] });
    expect(code).toBe(1);
    expect(written).toBeNull();
    expect(complained).toContain('rail-tip-upper: it is in the file already, and stays as it is: --replace');
    expect(printed).toMatch(/rail-tip-upper\.L (agrees|does not agree) with the file: .*1\.5 mm up ±/);
  });

  it('is written anew where that is asked for, with its keys and comments', async () => {
    const commented = chassis.replace(/( {2}rail-tip-upper: .*)\n/, '$1   # the upper hole\n');
    const { code, written } = await run([shifted], {
      names: ['rail-tip-upper'],
      replace: true,
      chassis: commented,
    });
    expect(code).toBe(0);
    expect(written).toMatch(
      / {2}rail-tip-upper: \{ both: \[3012\.0, 452\.0, 353\.5\], part: front-rail, uncertainty: .*source: \{ kind: donor.*\} \} {3}# the upper hole\n/,
    );
  });

  it('is never a control point', async () => {
    const { complained, written } = await run([job(hole)], { names: ['floor-rear'], replace: true });
    expect(complained).toContain('floor-rear: it is a control point: the cars were aligned on it');
    expect(written).toBeNull();
  });
});

describe('a car of a variant', () => {
  const variant = `framewright: chassis/1
extends: car.chassis.yaml
vehicle: Marten with a long tail
points:
  rail-tip-upper: { both: [3442, 452, 352], part: front-rail }
`;
  const far = job(rails.replaceAll('3012', '3442'), 'T-1').replace('car.chassis', 'tail.chassis');
  const into = async (name: string) => {
    const files = shopOf({
      'a.readings.yaml': far,
      'tail.chassis.yaml': variant,
      'car.chassis.yaml': chassis,
    });
    let written = false;
    const said = await recorded((output) =>
      reference(files, [target('a.readings.yaml')], {
        ...output,
        into: target(name),
        names: ['rail-tip-upper'],
        replace: true,
        dryRun: false,
        write: () => {
          written = true;
          return null;
        },
      }),
    );
    return { ...said, written };
  };

  it("gives no point to the variant's parent, even where it is named", async () => {
    expect(await into('car.chassis.yaml')).toMatchObject({
      code: 1,
      written: false,
      complained: expect.stringContaining(
        'it was measured on tail.chassis.yaml, a variant of this file: its points can only go into that file',
      ),
    });
  });

  it('gives them to the variant', async () => {
    expect(await into('tail.chassis.yaml')).toMatchObject({ code: 0, written: true, complained: '' });
  });
});

describe('a point that lies off by more than its ± and its limits', () => {
  // the file has one side of it, so that it is among what the file has not
  const one = chassis.replace(
    'points:\n',
    'points:\n  front-rail-hole: { left: [2070, 440, 260], part: front-rail }\n',
  );

  it('is not written anew unless it is named', async () => {
    const { complained, written } = await run([job(rails + hole)], { chassis: one, replace: true });
    expect(written).toBeNull();
    expect(complained).toMatch(
      /front-rail-hole\.L lies 430\.\d mm forward ±[\d.]+ off the file, more than its ± and its limits: it stays as it is, unless --points names it/,
    );
  });

  it('says where it is named what it was and what its source becomes', async () => {
    const tip = chassis.replace(
      /( {2}rail-tip-upper: \{ both: \[)3012(.*) \}/,
      '$12582$2, source: { kind: published, reference: M-7 } }',
    );
    const { code, printed, complained } = await run([job(rails)], {
      chassis: tip,
      names: ['rail-tip-upper'],
      replace: true,
    });
    expect(complained).toBe('');
    expect(code).toBe(0);
    expect(printed).toContain(
      'rail-tip-upper is written anew: its source was published, M-7, and is 1 car (W-1) now',
    );
    expect(printed).toMatch(/ {2}rail-tip-upper\.R was 430\.0 mm forward ±[\d.]+ off, more than its ±/);
    expect(printed).toMatch(
      /^rail-tip-upper\.L does not agree with the file: 430\.0 mm forward ±[\d.]+ \(1 car\)$/m,
    );
  });
});

describe('a car that was repaired', () => {
  it('counts by what was read before the repair, and says so', async () => {
    const repaired = `${job(rails + hole)}\n  - pull: straighten\n    part: front-rail.L\n  - release: all\n`;
    const { code, printed } = await run([repaired]);
    expect(code).toBe(0);
    expect(printed).toContain(
      'W-1: it was worked on, so what counts was read before the repair: “as received”',
    );
    expect(printed).toMatch(/rail-tip-upper\.L agrees with the file: .* \(1 car, before the repair\)/);
  });
});

it('a point that does not agree comes before those that do', async () => {
  const { printed } = await run([job(rails.replace('-452, 352', '-452, 357') + hole)]);
  const lines = printed.split('\n').filter((line) => line.includes('with the file'));
  expect(lines[0]).toMatch(/^rail-tip-upper\.R does not agree with the file: 5\.0 mm up ±[\d.]+ \(1 car\)$/);
  expect(lines.slice(1).every((line) => line.includes(' agrees with the file: '))).toBe(true);
  expect(lines.length).toBeGreaterThan(5);
});

describe('with --dry-run', () => {
  it('prints the lines and writes nothing', async () => {
    const { code, written, printed } = await run([job(rails + hole)], { dryRun: true });
    expect(code).toBe(0);
    expect(written).toBeNull();
    expect(printed).toContain('  front-rail-hole: { both: [2500.2, 440.2, 260.1], part: front-rail');
  });
});
