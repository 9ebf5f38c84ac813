import { expect, test } from 'vitest';
import { body } from '../findings/testing/text-jobs';
import { memoryFiles } from './testing/memory-files';
import { Workspace } from './workspace';

/** The tip of the rail stands outside. */
const readings = [
  'floor-front.L: [1200, 420, 95]',
  'floor-front.R: [1200, -420, 95]',
  'floor-rear.L: [-350, 455, 90]',
  'floor-rear.R: [-350, -455, 90]',
  'rail-root-upper.L: [1760, 445, 328]',
  'rail-tip-lower.L: [3012, 430, 210]',
];
const measure = (name: string): string =>
  [`  - measure: ${name}`, '    readings:', ...readings.map((row) => `      ${row}`), ''].join('\n');
const job = `framewright: readings/1
chassis: marten.chassis.yaml
instrument: { name: arm, uncertainty: 0.3 }
timeline:
${measure('as received')}${measure('pulled')}${measure('again')}`;

const uri = 'file:///shop/w.readings.yaml';

/** With another tenth of a millimetre in the rail's tip of the measure that has this number. */
function edited(text: string, measureNumber: number, edit: number): string {
  const pieces = text.split('rail-tip-lower.L: [3012');
  return pieces.reduce((before, piece, i) => {
    const isEdited = i === measureNumber + 1;
    return `${before}rail-tip-lower.L: [3012${isEdited ? `.${1 + (edit % 8)}` : ''}${isEdited ? piece.replace(/^\.\d/, '') : piece}`;
  });
}

/** Everything that an object holds, what is remembered on it too; not what only its functions know. */
function heldBy(root: object): Set<object> {
  const held = new Set<object>([root]);
  for (const each of held) {
    const values: unknown[] = Reflect.ownKeys(each).map(
      (key) => Reflect.getOwnPropertyDescriptor(each, key)?.value,
    );
    if (each instanceof Map) values.push(...each.keys(), ...each.values());
    if (each instanceof Set) values.push(...each);
    for (const value of values) if (typeof value === 'object' && value !== null) held.add(value);
  }
  return held;
}

test('what is known of a job after many edits holds none of the jobs and findings before the last edit', async () => {
  const workspace = new Workspace(memoryFiles({ 'file:///shop/marten.chassis.yaml': body }));
  let text = job;
  const old = new Map<object, string>();
  let last: object | null = null;
  for (let edit = 0; edit < 9; edit++) {
    text = edited(text, edit % 3, edit);
    workspace.setOpen(uri, text);
    const analysis = await workspace.analysis(uri);
    if (!('job' in analysis) || analysis.inspection === null) throw new Error('no inspection');
    expect(analysis.findings.some(({ rule }) => rule === 'reading/outside')).toBe(true);
    const { inspection, findings } = analysis;
    last = analysis;
    if (edit === 8) break;
    for (const each of [analysis, analysis.job, inspection, inspection.job, findings])
      old.set(each, `edit ${edit}`);
  }
  const held = heldBy(last!);
  expect(held.size).toBeGreaterThan(500);
  expect([...old].flatMap(([each, when]) => (held.has(each) ? [when] : []))).toEqual([]);
});

test('after each edit the findings are those of the same text opened anew', async () => {
  const files = memoryFiles({ 'file:///shop/marten.chassis.yaml': body });
  const workspace = new Workspace(files);
  const line = '# looked at again\n';
  const below = (text: string) => text.replace('timeline:\n', `${line}timeline:\n`);
  const steps: ((text: string) => string)[] = [
    (text) => text,
    (text) => edited(text, 1, 3),
    below,
    (text) => edited(text, 0, 4),
    (text) => text.replace(line, ''),
    (text) => `${text}  - note: washed\n`,
    (text) => text.replace('measure: pulled', 'measure: pulled once'),
  ];
  let text = job;
  for (const step of steps) {
    text = step(text);
    const findingsIn = async (of: Workspace) => {
      of.setOpen(uri, text);
      const analysis = await of.analysis(uri);
      return 'findings' in analysis ? analysis.findings : [];
    };
    const findings = await findingsIn(workspace);
    expect(findings.filter(({ rule }) => rule === 'reading/outside')).toHaveLength(3);
    expect(findings).toEqual(await findingsIn(new Workspace(files)));
  }
});
