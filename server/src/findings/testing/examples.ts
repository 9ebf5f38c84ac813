import type { ExampleIn } from '../rule/rule';

/** The car of the pages: every point and part that an example names. */
const car = `framewright: chassis/1
vehicle: Marten five-door hatchback
source: { kind: published }
conditions: { powertrain: in }
build: 0.1
parts:
  floor: { steel: mild, straighten: freely }
  front-rail: { sided: true, steel: high-strength, straighten: minor, section: [2450, 2700], heat: never }
  apron: { sided: true, steel: mild, straighten: freely }
  centre-pillar: { sided: true, along: height, steel: press-hardened, straighten: never }
  rear-panel: { steel: high-strength }
`;

const points: Record<string, string> = {
  'floor-front': '{ both: [1200, 420, 95], part: floor, base: true }',
  'floor-middle': '{ both: [425, 437.5, 92.5], part: floor, base: true }',
  'floor-rear': '{ both: [-350, 455, 90], part: floor, base: true }',
  'tunnel-front': '{ both: [905, 188, 242], part: floor, base: true }',
  'cowl-hole': '{ both: [1480, 612, 905], part: floor, base: true }',
  'rear-floor': '{ both: [-1050, 388, 296], part: floor, base: true }',
  'rail-root-lower': '{ both: [1760, 441, 188], part: front-rail }',
  'rail-root-upper': '{ both: [1760, 445, 328], part: front-rail }',
  'rail-second-lower': '{ both: [2070, 443, 193], part: front-rail }',
  'rail-middle-lower': '{ both: [2381, 444, 199], part: front-rail }',
  'rail-middle-upper': '{ both: [2381, 442.6, 338.2], part: front-rail }',
  'rail-front-lower': '{ both: [2690, 450, 205], part: front-rail }',
  'rail-tip-lower': '{ both: [3012, 448, 210], part: front-rail }',
  'rail-tip-upper': '{ both: [3012, 452, 352], part: front-rail }',
  'rear-rail-tip': '{ both: [-1097, 512, 268] }',
  'strut-top': '{ both: [2250, 561, 830], part: apron }',
  'pillar-belt-front': '{ both: [352, 741, 868], part: centre-pillar }',
  'rear-panel-middle': '{ centre: [-1120, 0, 500], part: rear-panel }',
  latch: '{ centre: [3050, 0, 780] }',
};

/** The points of the car, without those that an example writes itself. */
const pointLines = (example = ''): string =>
  Object.entries(points)
    .filter(([name]) => !example.includes(`  ${name}:`))
    .map(([name, value]) => `  ${name}: ${value}\n`)
    .join('');

const spans = `spans:
  - { from: rail-tip-lower.L, to: strut-top.R, distance: 1411.8 }
  - { from: rear-rail-tip.L, to: floor-rear.R, distance: 1234.8 }
`;

/** All control points where they belong, without those that an example reads itself. */
const baseRows = (example: string): string =>
  ['floor-front', 'floor-rear', 'tunnel-front', 'cowl-hole']
    .flatMap((name) => {
      const [x, y, z] = [...points[name].matchAll(/-?\d+/g)].map(Number);
      return [`      ${name}.L: [${x}, ${y}, ${z}]\n`, `      ${name}.R: [${x}, ${-y}, ${z}]\n`];
    })
    .filter((row) => !example.includes(`${row.split(':')[0]}:`))
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
    point: [ownName, `${car}points:\n${pointLines(whole)}${whole}`],
    span: [ownName, `${car}points:\n${pointLines()}spans:\n${whole}`],
    settings: ['.framewright.yaml', `framewright: settings/1\n${whole}`],
  };
  const [name, text] = around[place];
  return { files: { [carName]: `${car}points:\n${pointLines()}${spans}`, ...files, [name]: text }, name };
}
