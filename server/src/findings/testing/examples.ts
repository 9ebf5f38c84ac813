import { soundBase } from '../../testing/car';
import { headWith, type PointName, pointLines } from '../../testing/marten';
import type { ExampleIn } from '../rule/rule';

/** The Marten of the pages: every point and part that an example names. */
const names: readonly PointName[] = [
  ...(['floor-front', 'floor-middle', 'floor-rear', 'tunnel-front', 'cowl-hole', 'rear-floor'] as const),
  ...(['rail-root-lower', 'rail-root-upper', 'rail-second-lower', 'rail-middle-lower'] as const),
  ...(['rail-middle-upper', 'rail-front-lower', 'rail-tip-lower', 'rail-tip-upper'] as const),
  ...(['rear-rail-tip', 'strut-top', 'pillar-belt-front', 'rear-panel-middle', 'latch'] as const),
];
const car = headWith(names);

/** The points of the car, without those that an example writes itself. */
const pointsWithout = (example = ''): string =>
  pointLines(names.filter((name) => !example.includes(`  ${name}:`)));

const spans = `spans:
  - { from: rail-tip-lower.L, to: strut-top.R, distance: 1411.8 }
  - { from: rear-rail-tip.L, to: floor-rear.R, distance: 1234.8 }
`;

/** All control points where they belong, without those that an example reads itself. */
const baseRows = (example: string): string =>
  soundBase
    .split('\n')
    .filter((row) => !example.includes(`${row.split(':')[0]}:`))
    .map((row) => `${row}\n`)
    .join('');

const measured = (example = ''): string => `  - measure: as received\n    readings:\n${baseRows(example)}`;

const lines = (text: string): string => (text === '' || text.endsWith('\n') ? text : `${text}\n`);

export interface ExampleFiles {
  readonly files: Record<string, string>;
  /** The file with the example in it. */
  readonly name: string;
}

const jobName = 'jobs/w.readings.yaml';
const carName = 'specs/marten-hatch.chassis.yaml';
const ownName = 'specs/marten-own.chassis.yaml';

/** The example of a page in its place in a small file, with the files that it needs. */
export function exampleFiles(example: string, exampleIn: ExampleIn): ExampleFiles {
  const { place, uncertainty = 0.2, files = {} } = exampleIn;
  const [before, own, after] = [exampleIn.before ?? '', example, exampleIn.after ?? ''].map(lines);
  const whole = before + own + after;
  const has = (key: string): boolean => new RegExp(`^${key}:`, 'm').test(whole);
  const head = `framewright: readings/1\n${has('chassis') ? '' : `chassis: ../${carName}\n`}${
    has('instrument') ? '' : `instrument: { name: arm, uncertainty: ${uncertainty}, span-uncertainty: 0.5 }\n`
  }`;
  const around: Record<ExampleIn['place'], readonly [name: string, text: string]> = {
    head: [jobName, `${head}${before}${own}${has('timeline') ? after : `timeline:\n${after || measured()}`}`],
    entry: [jobName, `${head}timeline:\n${whole}`],
    row: [jobName, `${head}timeline:\n${measured(before + own)}${whole}`],
    chassis: [
      ownName,
      `framewright: chassis/1\n${whole}`.replace(/^(framewright: .*\n)(?=framewright:)/, ''),
    ],
    point: [ownName, `${car}points:\n${pointsWithout(whole)}${whole}`],
    span: [ownName, `${car}points:\n${pointsWithout()}spans:\n${whole}`],
    settings: ['.framewright.yaml', `framewright: settings/1\n${whole}`],
  };
  const [name, text] = around[place];
  return { files: { [carName]: `${car}points:\n${pointsWithout()}${spans}`, ...files, [name]: text }, name };
}
