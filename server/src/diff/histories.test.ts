import { describe, expect, it } from 'vitest';
import { bentFrom, chassisWith, measure, off, railIds } from '../testing/body';
import { linesOf, openJob, signedJob } from './histories.fixture';

const body = chassisWith();
const [signedName, openName] = ['signed.readings.yaml', 'open.readings.yaml'];
const shop = {
  'body.chassis.yaml': body,
  [signedName]: signedJob(),
  [openName]: openJob(measure('as received')),
};
const pull = '  - pull: left rail out\n    part: front-rail.L\n  - release: front-rail.L';

describe('a reference that was moved', () => {
  const moved = body.replace('both: [3012, 448, 210]', 'both: [3018, 448, 207]');

  it('is told in millimetres, with what it does to signatures and verdicts', async () => {
    const lines = await linesOf(shop, { ...shop, 'body.chassis.yaml': moved });
    expect(lines[0]).toBe(
      'body.chassis.yaml: 1 signed job no longer passes its gate; 1 signature no longer agrees; 4 verdicts changed. 2 points moved, 2 jobs rest on it',
    );
    expect(lines).toContain('  ! point rail-tip-lower.L moved 6.7 mm: 6.0 mm forward, 3.0 mm down');
    expect(lines[1]).toMatch(
      /^ {2}! job signed\.readings\.yaml: signed by rk 2026-03-05, gate passes → gate does not pass \(\d remain\), seals agree → the chassis is no longer what was signed; within → outside: rail-tip-lower\.L and rail-tip-lower\.R$/,
    );
    expect(lines[2]).toMatch(/^ {2}! job open\.readings\.yaml: .*; within → outside: rail-tip-lower/);
  });

  it('is told along the car even where it moves by less than a figure shows', async () => {
    const lines = await linesOf(shop, {
      ...shop,
      'body.chassis.yaml': body.replace('both: [3012, 448', 'both: [3012.02, 448'),
    });
    expect(lines).toContain('  ! point rail-tip-lower.L moved 0.020 mm: 0.020 mm forward');
  });
});

describe('a tolerance that was widened in a parent', () => {
  const variant = `framewright: chassis/1\nextends: body.chassis.yaml\nvehicle: Marten with tow hook\npoints:\n  sill-front: { both: [1050, 701, 150], part: sill, tolerance: 2 }\n`;
  const withVariant = {
    ...shop,
    'hook.chassis.yaml': variant,
    'hook.readings.yaml': openJob(measure('as received', off({ 'pillar-low.L': [4, 0, 0] }))).replace(
      'body.chassis',
      'hook.chassis',
    ),
  };
  const wide = body.replace('build: 0.1\n', 'build: 0.1\ntolerance: 5\n');

  it('is marked, with the variants that it reaches and the jobs that pass by it', async () => {
    const lines = await linesOf(withVariant, { ...withVariant, 'body.chassis.yaml': wide });
    expect(lines[0]).toMatch(
      /^body\.chassis\.yaml: 1 signed job no longer passes its gate; 1 signature no longer agrees; 1 verdict changed\. limits of 26 points wider \(3 axes each\), .*, 3 jobs rest on it$/,
    );
    expect(lines.find((line) => line.includes('limit wider'))).toMatch(
      /^ {2}! limit wider: each axis ±3\.0 → ±5\.0, of floor-front\.L, .* and \d+ more$/,
    );
    expect(lines.at(-1)).toMatch(
      /^ {4}passed on to hook\.chassis\.yaml: limits of 24 points wider \(3 axes each\).*; it states its own of sill-front\.L and sill-front\.R$/,
    );
    expect(lines.filter((line) => line.includes('job hook.readings.yaml'))).toEqual([
      expect.stringMatching(/^ {2}! .*outside → within: pillar-low\.L$/),
    ]);
  });

  it('is no wider the other way round', async () => {
    const lines = await linesOf(
      { ...withVariant, 'body.chassis.yaml': wide },
      { ...withVariant, 'body.chassis.yaml': body },
    );
    expect(lines[0]).toContain('limits of 26 points narrower (3 axes each)');
    expect(lines.filter((line) => line.includes('limit wider'))).toEqual([]);
  });
});

it('a variant that was added is told as a new body, and touches nobody', async () => {
  const variant = 'framewright: chassis/1\nextends: body.chassis.yaml\nvehicle: Marten with tow hook\n';
  const lines = await linesOf(shop, { ...shop, 'hook.chassis.yaml': variant });
  expect(lines).toEqual(['hook.chassis.yaml: new body of 26 points and 7 parts, no job rests on it']);
});

describe('a reading that was changed after the signature', () => {
  const bent = signedJob().replace(
    'rail-tip-lower.L: [3012, 448, 210]',
    'rail-tip-lower.L: [3012, 442, 210]',
  );
  const text = { ...shop, [signedName]: bent };

  it('is said first, and then what became of its verdict', async () => {
    const lines = await linesOf(shop, text);
    expect(lines[0]).toBe(
      'signed.readings.yaml: changed after the signature: 1 reading changed (6.0 mm), 1 verdict changed; signed by rk 2026-03-05, gate passes → gate does not pass (2 remain), seals agree → the job is no longer what was signed',
    );
    expect(lines[1]).toBe(
      '  ! after the signature: rail-tip-lower.L in “finished” read [3012, 448, 210] → [3012, 442, 210]',
    );
    expect(lines).toContain('  ! remains now: rail-tip-lower.L: outside');
    expect(lines).toContain(
      '  ! rail-tip-lower.L in “finished”: within → outside; width 0 → 6.0 right (inboard) ±0.4',
    );
  });

  it('comes before the other files of the change', async () => {
    const lines = await linesOf(shop, { ...text, 'a.readings.yaml': openJob(measure('as received')) });
    expect(lines[0]).toMatch(
      /^1 job changed after its signature; .* 2 of 2 changed files differ in meaning$/,
    );
    expect(lines[2]).toMatch(/^signed\.readings\.yaml: changed after the signature/);
  });

  it('is none where a comment was changed', async () => {
    const lines = await linesOf(shop, { ...shop, [signedName]: `# seen\n${shop[signedName]}` });
    expect(lines).toEqual([
      'signed.readings.yaml: same meaning: signed by rk 2026-03-05, gate passes, seals agree',
    ]);
  });

  it('is none where it was signed anew', async () => {
    const anew = signedJob(off({ 'rail-tip-lower.L': [0, 1, 0] }));
    const lines = await linesOf(shop, { ...shop, [signedName]: anew });
    expect(lines[0]).toBe(
      'signed.readings.yaml: signed anew: 1 reading changed (1.0 mm), no verdict changed; signed by rk 2026-03-05, gate passes, seals agree',
    );
    expect(lines[1]).toMatch(/^ {4}rail-tip-lower\.L in “finished” read /);
  });
});

it('a stage that was dropped is told, with what it had outside, and what remains by that', async () => {
  const before = openJob(`${measure('as received', bentFrom(2000))}\n${pull}\n${measure('finished')}`);
  const after = openJob(`${measure('as received', bentFrom(2000))}\n${pull}`);
  const lines = await linesOf({ ...shop, [openName]: before }, { ...shop, [openName]: after });
  expect(lines[0]).toMatch(/^open\.readings\.yaml: 1 measure dropped; open, nothing remains → \d+ remain$/);
  expect(lines).toContain('  ! measure “finished” dropped: 26 readings');
  expect(lines.filter((line) => /remains now: rail-tip-lower\.L/.test(line))).toHaveLength(1);
  const back = await linesOf({ ...shop, [openName]: after }, { ...shop, [openName]: before });
  expect(back).toContain('    measure “finished” added, behind release front-rail.L: 26 readings');
});

describe('a merge that put a reading behind a pull', () => {
  const first = measure('as received', bentFrom(2000));
  const second = measure('before the pull', bentFrom(2000), railIds('L'));
  const name = openName;

  it('is told by the measure that stands behind the pull now', async () => {
    const mine = openJob(`${first}\n${second}`);
    const merged = openJob(`${first}\n${pull}\n${second}`);
    const lines = await linesOf({ ...shop, [name]: mine }, { ...shop, [name]: merged });
    expect(lines).toContain(
      '  ! “before the pull” stands behind pull “left rail out” now, and did not: what it read counts as read after it',
    );
    const theirs = openJob(`${first}\n${pull}`);
    const fromTheirs = await linesOf({ ...shop, [name]: theirs }, { ...shop, [name]: merged });
    expect(fromTheirs).toContain(
      '    measure “before the pull” added, behind release front-rail.L: 5 readings, outside: rail-middle-lower.L, rail-front-lower.L and rail-tip-lower.L',
    );
  });

  it('is told by a row that stands in another measure now', async () => {
    const row = '      pillar-low.L: [350, 720, 420]';
    const after = measure('after', bentFrom(2000), railIds('L'));
    const before = openJob(`${first}\n${pull}\n${after}`);
    const merged = openJob(`${first.replace(`\n${row}`, '')}\n${pull}\n${after}\n${row}`);
    const lines = await linesOf({ ...shop, [name]: before }, { ...shop, [name]: merged });
    expect(lines).toContain(
      '  ! pillar-low.L in “after” was in “as received”, behind release front-rail.L: what was read before counts as read there',
    );
    expect(lines.filter((line) => line.includes('pillar-low.L in “as received” dropped'))).toEqual([]);
  });
});

describe('settings', () => {
  const rule = (word: string, more = '') => `framewright: settings/1\ndecision-rule: ${word}\n${more}`;
  const nested = Object.fromEntries(
    Object.entries(shop).map(([name, text]) => [
      name.endsWith('.readings.yaml') ? `jobs/new/${name}` : name,
      text.replace('body.chassis', '../../body.chassis'),
    ]),
  );

  it('with a decision rule that asks more are told, with the signed jobs that they take out', async () => {
    const before = { ...shop, '.framewright.yaml': rule('simple') };
    const lines = await linesOf(before, { ...before, '.framewright.yaml': rule('guarded') });
    expect(lines[0]).toBe(
      '.framewright.yaml: 1 signed job no longer passes its gate; 1 signature no longer agrees. 1 setting changed: decision-rule, 2 jobs rest on it',
    );
    expect(lines).toContain('  ! decision-rule simple → guarded');
  });

  it('that ignore other files are told', async () => {
    const before = { ...shop, '.framewright.yaml': rule('simple', 'ignore: [old]\n') };
    const lines = await linesOf(before, {
      ...before,
      '.framewright.yaml': rule('simple', 'ignore: [old, jobs/bad]\n'),
    });
    expect(lines[0]).toMatch(/^\.framewright\.yaml: 1 setting changed: ignore, /);
    expect(lines).toContain('  ! ignore old → old; jobs/bad');
  });

  it('of a folder that are new or deleted are told with what they say, and what they do to jobs', async () => {
    const name = 'jobs/new/.framewright.yaml';
    const text = rule('guarded', 'rules: { chassis/no-source: off }\n');
    const added = await linesOf(nested, { ...nested, [name]: text });
    expect(added[0]).toBe(
      `${name}: 1 signed job no longer passes its gate; 1 signature no longer agrees. new settings for jobs/new/: rules, decision-rule, 2 jobs rest on it`,
    );
    expect(added).toContain('  ! decision-rule simple → guarded');
    const deleted = await linesOf({ ...nested, [name]: text }, nested);
    expect(deleted[0]).toMatch(
      /\. settings for jobs\/new\/ deleted, no longer said: decision-rule, rules, 2 jobs rest on it$/,
    );
    expect(deleted).toContain('  ! rules chassis/no-source off → nothing');
  });

  it('that were moved hold for other files: never the same meaning', async () => {
    const text = rule('guarded', 'ignore: [old]\n');
    const [was, now] = ['jobs/.framewright.yaml', 'specs/.framewright.yaml'];
    const lines = await linesOf({ ...nested, [was]: text }, { ...nested, [now]: text }, { [now]: was });
    expect(lines[0]).toMatch(
      /^specs\/\.framewright\.yaml: .*\. settings moved, they hold for specs\/ and no longer for jobs\/: decision-rule, ignore, 2 jobs rest on it$/,
    );
    expect(lines.filter((line) => line.includes('job jobs/new/signed.readings.yaml'))).toHaveLength(1);
    expect(lines).toContain('  ! ignore nothing → old');
  });
});

it('parts, distances and control points are told with their rules', async () => {
  const before = `${body}spans:\n  - { from: rail-tip-lower.L, to: rail-tip-lower.R, distance: 896, tolerance: 2 }\n`;
  const after = before
    .replace(
      'straighten: minor, section: [2450, 2700], heat: never',
      'straighten: freely, heat: { to: 200 C }',
    )
    .replace('distance: 896, tolerance: 2', 'distance: 897, tolerance: 3')
    .replace('part: floor, base: true }\n  floor-rear', 'part: floor }\n  floor-rear');
  const lines = await linesOf({ 'body.chassis.yaml': before }, { 'body.chassis.yaml': after });
  expect(lines[0]).toBe(
    'body.chassis.yaml: 1 limit of a distance wider, 2 parts changed, 2 facts of points changed, 1 distance changed, no job rests on it',
  );
  expect(lines).toContain(
    '  ! part front-rail.L: straighten minor → freely; heat never → to 200; section [2450, 2700] → nothing',
  );
  expect(lines).toContain('  ! point floor-front.L: control point yes → nothing');
  expect(lines).toContain(
    '  ! distance rail-tip-lower.L to rail-tip-lower.R: 896.0 mm → 897.0 mm; limit wider: ±2.0 → ±3.0',
  );
});

it('base, stages and repeats of a job are told before and after', async () => {
  const before = openJob(measure('as received', off({ 'cowl-hole.L': [0, 0, 6] })));
  const after = before
    .replace(
      'scope: [front-rail.L, centre-pillar]',
      'scope: [front-rail.L]\nbase: [floor-front.L, floor-front.R, floor-rear.L, tunnel-front.R]',
    )
    .replace('measure: as received', 'measure: first look');
  const lines = await linesOf({ ...shop, [openName]: before }, { ...shop, [openName]: after });
  expect(lines).toContain('  ! scope front-rail.L; centre-pillar → front-rail.L');
  expect(lines).toContain('  ! base nothing → floor-front.L; floor-front.R; floor-rear.L; tunnel-front.R');
  expect(lines).toContain('    measure “as received” is called “first look”');
  expect(lines.find((line) => line.startsWith('  ! “first look”: base '))).toMatch(
    / → floor-front\.L; floor-front\.R; floor-rear\.L; tunnel-front\.R$/,
  );
});

it('an observation that was dropped is said, and that it changes no verdict', async () => {
  const seen = openJob(`  - observe: kink\n    part: front-rail.L\n${measure('as received')}`);
  const lines = await linesOf(
    { ...shop, [openName]: seen },
    { ...shop, [openName]: openJob(measure('as received')) },
  );
  expect(lines[0]).toMatch(/^open\.readings\.yaml: 1 observation dropped, no verdict changed; open, /);
});

describe('a limit of one job that is wider', () => {
  it('marks the verdict that got better, where no reading of the job is another', async () => {
    const bent = openJob(measure('as received', off({ 'pillar-low.L': [4, 0, 0] })));
    const before = {
      'body.chassis.yaml': body,
      'wide.chassis.yaml': body.replace('build: 0.1\n', 'build: 0.1\ntolerance: 5\n'),
      [openName]: bent,
    };
    const lines = await linesOf(before, {
      ...before,
      [openName]: bent.replace('body.chassis', 'wide.chassis'),
    });
    expect(lines.filter((line) => line.includes('outside → within'))).toEqual([
      expect.stringMatching(/^ {2}! pillar-low\.L in “as received”: outside → within/),
    ]);
  });

  it('is no mark where it was read anew', async () => {
    const [bent, mended] = [
      [4, 0, 0],
      [0, 0, 0],
    ].map((by) => openJob(measure('as received', off({ 'pillar-low.L': [by[0], by[1], by[2]] }))));
    const lines = await linesOf({ ...shop, [openName]: bent }, { ...shop, [openName]: mended });
    expect(lines.find((line) => line.includes('outside → within'))).toMatch(/^ {4}pillar-low\.L/);
  });
});

it('distances with the same wider limit stand in one line', async () => {
  const spans = (mm: number) =>
    `${body}spans:\n  - { from: rail-tip-lower.L, to: rail-tip-lower.R, distance: 896, tolerance: ${mm} }\n  - { from: floor-front.L, to: floor-front.R, distance: 900, tolerance: ${mm} }\n`;
  const lines = await linesOf({ 'body.chassis.yaml': spans(2) }, { 'body.chassis.yaml': spans(3) });
  expect(lines.slice(1)).toEqual([
    '  ! limit wider: ±2.0 → ±3.0, of distances rail-tip-lower.L to rail-tip-lower.R and floor-front.L to floor-front.R',
  ]);
});

it('a side with errors is named, with the line of the first', async () => {
  const broken = body.replace('build: 0.1\n', 'build: 0.1\nbuild: [\n');
  const lines = await linesOf({ 'body.chassis.yaml': body }, { 'body.chassis.yaml': broken });
  const at = body.split('\n').indexOf('build: 0.1') + 2;
  expect(lines[1]).toMatch(
    new RegExp(
      `^ {2}! now: body\\.chassis\\.yaml has errors, the first in line ${at}: what could not be read there`,
    ),
  );
});
