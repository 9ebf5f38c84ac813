import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { planReport } from '../../commands/plan';
import { analysed } from '../../findings/testing/analysed';
import { carWith, inspectionOf, jobOn, measured } from '../../testing/car';

const sample = (path: string) =>
  readFileSync(new URL(`../../../../samples/${path}`, import.meta.url), 'utf8');

async function pageOf(job: string, chassis = sample('specs/marten-hatch.chassis.yaml')): Promise<string[]> {
  const files = { 'specs/marten-hatch.chassis.yaml': chassis, 'jobs/job.readings.yaml': job };
  const analysis = await analysed(files, 'jobs/job.readings.yaml');
  if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('no inspection');
  return (planReport(analysis.inspection) ?? '').split('\n');
}

const received = sample('jobs/w-1187-as-received.readings.yaml');

describe('the page of the as-received sample', () => {
  it('has 60 lines of 100 characters at most', async () => {
    const lines = await pageOf(received);
    expect(lines.length).toBeLessThanOrEqual(60);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(100);
  });

  it('says each signal word once, the worst first, before the first step', async () => {
    const lines = await pageOf(received);
    const at = ['DANGER', 'WARNING', 'CAUTION'].map((word) =>
      lines.flatMap((line, i) => (line.includes(word) ? [i] : [])),
    );
    const step = lines.findIndex((line) => line.startsWith('Step 1: '));
    for (const found of at) expect(found).toHaveLength(1);
    expect([...at.flat(), step]).toEqual([...at.flat(), step].sort((a, b) => a - b));
  });

  it('says when somebody may come near a chain to read or relieve', async () => {
    const text = (await pageOf(received)).join(' ').replace(/\s+/g, ' ');
    const [danger] = text.slice(text.indexOf('DANGER')).split('WARNING');
    expect(danger).toContain("only where the maker's procedure and the rig allow it, load held steady");
    expect(danger).toContain('else release first');
  });

  it('gives each hazard a line of its own', async () => {
    const lines = await pageOf(received);
    expect(lines.filter((line) => /^(WARNING| {7}) {2}(Airbags|Heat|Straighten)\b/.test(line))).toHaveLength(
      3,
    );
  });

  it('has hook, direction, hold and aim of the first step in its first 25 lines', async () => {
    const top = (await pageOf(received)).slice(0, 25).join('\n');
    expect(top).toMatch(/^Step 1: pull apron\.L and front-rail\.L together: their seam has opened/m);
    expect(top).toMatch(/^ {2}hook {5}rail-tip-upper\.L: left \(outboard\) and forward, slightly down/m);
    expect(top).toMatch(/^ {2}hook {5}strut-top\.L: left \(outboard\) and forward, slightly down/m);
    expect(top).toMatch(/^ {2}hold {5}apron\.L at length 1930 mm or farther rearward/m);
    expect(top).toMatch(/^ {2}aim {6}rail-tip-upper\.L 41\.6 mm ±1\.0 to its mark, not past it$/m);
    expect(top).toMatch(/^ {2}aim {6}strut-top\.L 10\.7 mm ±0\.9 to its mark, not past it$/m);
  });

  it('tells which seams open, none of them to metal behind the holds', async () => {
    const seams = (await pageOf(received))
      .join(' ')
      .replace(/\s+/g, ' ')
      .match(/ seam to .*?: stop/g);
    expect(seams).toEqual([
      ' seam to radiator-support, not pulled along, will open near radiator-lower.L: stop',
      ' seam to front-rail (both sides), not pulled along, will open near rail-tip-lower (both sides): stop',
      ' seam to apron.R and radiator-support, not pulled along, will open near wing-mount-front.R and radiator-lower.R: stop',
    ]);
  });

  it('pulls bent and buckled parts each its own way, with and without a gap', async () => {
    const shut = received.replace(/ {2}- observe: gap\n.*\n.*\n/, '');
    const text = (await pageOf(shut)).join('\n');
    expect(text).not.toContain('together');
    expect(text).toMatch(/^ {2}hook {5}strut-top\.L: left \(outboard\) and forward, slightly down; 57°/m);
  });

  it('breaks no figure from its unit', async () => {
    for (const line of await pageOf(received)) {
      expect(line).not.toMatch(/\d$(?<!W-\d+)/);
      expect(line).not.toMatch(/^ *(mm|±)/);
    }
  });
});

describe('parts that the stated scope leaves out', () => {
  const specs = ['specs/teal-estate.chassis.yaml', 'specs/marten-hatch.chassis.yaml'];
  const teal = Object.fromEntries(specs.map((path) => [path, sample(path)]));
  async function tealPlan(path: string, part?: string, edit = (text: string) => text): Promise<string> {
    const files = { ...teal, 'jobs/job.readings.yaml': edit(sample(`jobs/${path}.readings.yaml`)) };
    const analysis = await analysed(files, 'jobs/job.readings.yaml');
    if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('no inspection');
    return (planReport(analysis.inspection, part) ?? '').replace(/\s+/g, ' ');
  }

  it('get no step, but a line with their worst figure', async () => {
    const text = await tealPlan('w-1216-undeclared-rear');
    expect(text).toMatch(/: one step,.*Step 1: pull front-rail\.R/);
    expect(text).not.toMatch(/Step 2|pull rear-rail/);
    expect(text).toMatch(
      /Not planned, outside the scope: rear-rail \(both sides\) \(13\.4 mm too far down ±1\.4 at rear-rail-tip-lower\.L\)\. Damage that was not declared, or wrong references\? Settle that first\./,
    );
    expect(await tealPlan('w-1216-undeclared-rear', 'rear-rail.L')).toContain(
      'outside the scope of this job',
    );
    expect(await tealPlan('w-1216-undeclared-rear', 'front-rail.R')).not.toContain('outside the scope');
  });

  it('and neither where only corrosion was seen on them', async () => {
    const text = await tealPlan('w-1205-moved-control-point');
    expect(text).not.toContain('pull sill.R');
    expect(text).toMatch(/outside the scope: sill\.R \(/);
  });

  it('are planned where their damage is declared, or no scope is', async () => {
    const kinked = (text: string) => text.replace('- observe: corrosion', '- observe: buckle');
    expect(await tealPlan('w-1205-moved-control-point', undefined, kinked)).toContain('renew sill.R');
    const unstated = (text: string) => text.replace(/^scope: .*$/m, '');
    expect(await tealPlan('w-1216-undeclared-rear', undefined, unstated)).toContain('pull rear-rail.L');
  });

  it('are named where nothing else is out', async () => {
    const rear = (text: string) => text.replace(/^ *rail-(rear|middle|front|tip)-\w+\.R:.*\n/gm, '');
    const text = await tealPlan('w-1216-undeclared-rear', undefined, rear);
    expect(text).toMatch(/^Pull plan of W-1216.*: no step yet/);
    expect(text).toContain('Not planned, outside the scope: rear-rail (both sides)');
  });
});

/** The front of a car on a sound base; what is off stands in the rows. */
const rows = (left: readonly number[], right: readonly number[], strut: readonly number[] = [0, 0, 0]) => {
  const at = (id: string, place: readonly number[], by: readonly number[]) =>
    `      ${id}: [${place.map((mm, k) => (mm + by[k]).toFixed(1)).join(', ')}]`;
  return [
    at('rail-root-lower.L', [1760, 441, 188], [0, 0, 0]),
    at('rail-root-upper.L', [1760, 445, 328], [0, 0, 0]),
    at('rail-tip-lower.L', [3012, 448, 210], left),
    at('rail-tip-upper.L', [3012, 452, 352], left),
    at('rail-root-lower.R', [1760, -441, 188], [0, 0, 0]),
    at('rail-root-upper.R', [1760, -445, 328], [0, 0, 0]),
    at('rail-tip-lower.R', [3012, -448, 210], right),
    at('rail-tip-upper.R', [3012, -452, 352], right),
    at('strut-top.L', [2250, 561, 830], strut),
    at('strut-top.R', [2250, -561, 830], [0, 0, 0]),
  ].join('\n');
};
const page = (job: string, facts: Record<string, string> = {}, more = ''): string =>
  planReport(inspectionOf(job, carWith(facts) + more)) ?? '';
const joined = { 'front-rail': '{ sided: true, straighten: freely, joined: [apron] }' };

describe('seams', () => {
  const moved = jobOn(measured(rows([0, 9, 0], [0, 0, 0], [0, 9, 0])));

  it('takes joined parts together that have to go the same way where they meet', () => {
    expect(page(moved)).toMatch(/^Step 2: /m);
    expect(page(moved, joined)).toMatch(
      /^Step 1: pull front-rail\.L and apron\.L together: they moved as one$/m,
    );
    expect(page(moved, joined)).toMatch(/^ {2}along {4}apron\.L, without a chain of its own$/m);
    expect(page(moved, joined)).not.toMatch(/^Step 2: /m);
  });

  it('say where they open when one part is pulled alone', () => {
    const alone = jobOn(measured(rows([0, 9, 0], [0, 0, 0])));
    expect(page(alone)).not.toContain('seam');
    expect(page(alone, joined)).toMatch(
      /^ {2}seam {5}to apron\.L, not pulled along, will open near strut-top\.L: stop if it tears$/m,
    );
  });

  it('pull a neighbour along where a gap was seen, though it has to go another way', () => {
    const apart = jobOn(measured(rows([0, 9, 0], [0, 0, 0], [0, -9, 0])));
    expect(page(apart, joined)).toMatch(/^Step 2: /m);
    const gap = `${apart}  - observe: gap\n    part: apron.L\n`;
    expect(page(gap, joined)).toMatch(/together: their seam has opened/);
    expect(page(gap)).toMatch(/^Step 2: /m);
  });
});

describe('a member that was taken out', () => {
  const members = 'members:\n  subframe: { mounts: [rail-root-lower] }\n';
  const job = (conditions: string, hold = '') =>
    jobOn(
      `${hold}${measured(rows([0, 9, 0], [0, 0, 0]))}`,
      `instrument: { name: arm, uncertainty: 0.2 }\nconditions: { subframe: ${conditions} }`,
    );

  it('asks for a brace between its mounts before a pull near them', () => {
    expect(page(job('out'), {}, members)).toMatch(
      /^ {2}brace {4}first, between rail-root-lower \(both sides\): subframe is out/m,
    );
    expect(page(job('in'), {}, members)).not.toContain('brace');
    expect(page(job('out'))).not.toContain('brace');
  });

  it('counts a recorded hold at all its mounts as that brace', () => {
    const hold = (points: string) =>
      `  - pull: first\n    part: front-rail.L\n    hold: [${points}]\n  - release: all\n`;
    expect(page(job('out', hold('rail-root-lower.L, rail-root-lower.R')), {}, members)).not.toContain(
      'brace',
    );
    expect(page(job('out', hold('rail-root-lower.L')), {}, members)).toContain('brace');
  });
});

describe('new metal', () => {
  const kinked = (at: number) =>
    `${jobOn(measured(rows([0, 9, 0], [0, 0, 0])))}  - observe: tear\n    part: front-rail.L\n    at: ${at}\n`;
  const withBand = (band: string) => ({
    'front-rail': `{ sided: true, straighten: freely, section: ${band}, reference: manual 31 }`,
  });

  it('stands in the order of the work, with a cut in straight metal of the allowed band', () => {
    const text = page(kinked(2900), withBand('[1700, 2900]'));
    expect(text).toMatch(/^Step 1: renew front-rail\.L: do not pull on it$/m);
    expect(text).toMatch(/^ {2}cut {6}at length between 1700 and 1760 mm/m);
    expect(text).not.toContain('DANGER');
  });

  it('is the whole part where the band lies in bent metal', () => {
    expect(page(kinked(2900), withBand('[2450, 2700]'))).toMatch(
      /^ {2}cut {6}none: renew the part; the allowed band/m,
    );
  });
});
