/** Records to look at: of the samples, of hostile texts, of a crowded body. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect } from 'vitest';
import { framewright, root } from '../cli/framewright';

/** A folder that goes away again. */
export function workshop(): { folder: string; gone(): void } {
  const folder = mkdtempSync(path.join(tmpdir(), 'framewright-record-'));
  return { folder, gone: () => rmSync(folder, { recursive: true, force: true }) };
}

export const samplePath = (name: string): string => path.join(root, `samples/jobs/${name}.readings.yaml`);

/** Writes the record of a job and says where. */
export function recordOf(job: string, page: string, ...flags: string[]): string {
  const said = framewright(['report', job, '-o', page, ...flags]);
  expect(said).toEqual({ code: 0, out: '', err: '' });
  return page;
}

const hostile = `<script>alert(1)</script> "quoted" 'single' & &amp; </title></style><img src=x onerror=alert(2)> \\u202eright to left \\u05e9\\u05dc\\u05d5\\u05dd `;
const asYaml = (text: string): string => `"${text.replaceAll('"', '\\"')}"`;

/** The signed sample with hostile texts wherever a person writes some, and a note of 10,000 characters. */
export function hostileJob(folder: string): string {
  const job = readFileSync(samplePath('w-1174-finished'), 'utf8');
  const chassis = ['marten-hatch', 'teal-estate'].map((name) => `${name}.chassis.yaml`);
  for (const name of chassis)
    writeFileSync(path.join(folder, name), readFileSync(path.join(root, 'samples/specs', name), 'utf8'));
  const long = 'x'.repeat(10_000);
  const text = job
    .replace('../specs/', '')
    .replace(/^order: .*$/m, `order: ${asYaml(hostile + long)}`)
    .replace(/^technician: .*$/m, `technician: ${asYaml(hostile)}`)
    .replace(
      '- measure: as received',
      `- note: ${asYaml(hostile + long)}\n  - measure: ${asYaml(hostile + long)}`,
    )
    .replace('- measure: after first pull', `- measure: ${asYaml(hostile)}`);
  const file = path.join(folder, 'hostile.readings.yaml');
  writeFileSync(file, text);
  return file;
}

/** 120 points close together, all of them far out of place, half of them one way and half the other. */
export function crowdedJob(folder: string): string {
  const control = [
    ['floor-front', 1200, 420, 95],
    ['floor-rear', -350, 455, 90],
    ['tunnel-front', 905, 188, 242],
    ['cowl-hole', 1480, 612, 905],
  ] as const;
  const crowd = Array.from({ length: 56 }, (_, i) => {
    const place = [2600 + (i % 8) * 18, 420 + Math.floor(i / 8) * 14, 300 + ((i * 37) % 11) * 9] as const;
    return [`crowded-flange-hole-${i + 1}`, ...place] as const;
  });
  const line = ([name, ...at]: readonly [string, number, number, number], base: boolean) =>
    `  ${name}: { both: [${at.join(', ')}]${base ? ', base: true' : ', part: front-rail'} }`;
  writeFileSync(
    path.join(folder, 'crowd.chassis.yaml'),
    `framewright: chassis/1
vehicle: Marten five-door hatchback
parts:
  front-rail: { sided: true, along: length, steel: high-strength, straighten: freely }
points:
${[...control.map((each) => line(each, true)), ...crowd.map((each) => line(each, false))].join('\n')}
`,
  );
  const rows = [...control, ...crowd].flatMap(([name, length, width, height], i) =>
    (['L', 'R'] as const).map((side) => {
      const off = i < control.length ? 0 : 9 + (i % 7) * (side === 'L' ? 1 : -1);
      const across = side === 'L' ? width : -width;
      return `      ${name}.${side}: [${length - off}, ${across + off}, ${height + off / 3}]`;
    }),
  );
  const file = path.join(folder, 'crowd.readings.yaml');
  writeFileSync(
    file,
    `framewright: readings/1
chassis: crowd.chassis.yaml
order: W-1300
instrument: { name: bench arm 1, uncertainty: 0.3 }
timeline:
  - measure: as received
    readings:
${rows.join('\n')}
`,
  );
  return file;
}
