import { scatterSchema } from '@framewright/schemas';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../tests/published/seeded-random';
import { jobOn } from '../testing/car';
import { type Place, type PointName, placeOf } from '../testing/marten';
import { recorded, shopOf, target } from './recorded.fixture';
import { scatter } from './scatter';

const control: readonly PointName[] = ['floor-front', 'floor-rear', 'tunnel-front', 'cowl-hole'];
const others: readonly PointName[] = ['rail-root-lower', 'rail-tip-lower', 'strut-top'];

/** Jobs that read their cars twice; cars scatter by 0.4 mm, an arm that states 0.2 mm by 0.3 mm. */
function jobs(count: number, damage: (car: number, id: string) => number = () => 0): Record<string, string> {
  const random = seededRandom(11);
  const texts: Record<string, string> = {};
  for (let i = 0; i < count; i++) {
    const places = [...control, ...others].flatMap((name) =>
      (['L', 'R'] as const).map((side): readonly [string, Place] => {
        const [x, y, z] = placeOf(name);
        const up = damage(i, `${name}.${side}`);
        const off = () => random.normal(0.4);
        return [`${name}.${side}`, [x + off(), (side === 'L' ? y : -y) + off(), z + off() + up]];
      }),
    );
    const rows = () =>
      places
        .map(
          ([id, place]) =>
            `      ${id}: [${place.map((mm) => (mm + random.normal(0.3)).toFixed(2)).join(', ')}]`,
        )
        .join('\n');
    const measures = ['as received', 'finished'].map(
      (name) => `  - measure: ${name}\n    readings:\n${rows()}`,
    );
    texts[`${i}.readings.yaml`] = jobOn(
      measures.join('\n'),
      `order: W-${i}\ninstrument: { name: arm, uncertainty: 0.2 }`,
    );
  }
  return texts;
}

async function run(texts: Record<string, string>, asJson = true) {
  const said = await recorded((output) => scatter(shopOf(texts), [target('.')], asJson, output));
  return { ...said, json: asJson ? scatterSchema.parse(JSON.parse(said.printed)) : null };
}

const measuredIn = (json: Awaited<ReturnType<typeof run>>['json'], of: string) => {
  const found = json?.bodies[0].scatters.find((each) => each.of === of);
  if (found === undefined) throw new Error(`no ${of}`);
  return found;
};

describe('scatter', () => {
  it('measures build, all else and the instrument over jobs, and says what is contradicted', async () => {
    const { code, json } = await run(jobs(14));
    expect(code).toBe(0);
    expect(json?.bodies).toHaveLength(1);
    expect(json?.bodies[0]).toMatchObject({ path: 'car.chassis.yaml', cars: 14, leftOut: 0 });
    for (const [of, truth] of [
      ['build', 0.4],
      ['build-elsewhere', 0.4],
      ['instrument', 0.3],
    ] as const) {
      const { interval, cars } = measuredIn(json, of);
      expect(cars).toBe(14);
      expect(interval?.[0]).toBeLessThan(truth);
      expect(interval?.[1]).toBeGreaterThan(truth);
    }
    // the file states a build of 0.1 mm and the arm 0.2 mm
    expect(measuredIn(json, 'build')).toMatchObject({ stated: 0.1, contradicted: true });
    expect(measuredIn(json, 'instrument')).toMatchObject({ name: 'arm', stated: 0.2, contradicted: true });
  });

  it('is not misled by cars with damage that nobody declared', async () => {
    const bent = jobs(14, (car, id) => (car % 5 === 0 && id.startsWith('rail-tip') ? 9 : 0));
    const { json } = await run(bent);
    expect(json?.bodies[0].leftOut).toBeGreaterThanOrEqual(3);
    expect(measuredIn(json, 'build-elsewhere').measured).toBeLessThan(0.6);
  });

  it('tells in words, and changes no file', async () => {
    const texts = jobs(6);
    const before = JSON.stringify(texts);
    const { code, printed } = await run(texts, false);
    expect(code).toBe(0);
    expect(printed).toMatch(/^car\.chassis\.yaml: 6 cars, \d+ readings/);
    expect(printed).toMatch(
      / {2}build \(how far control points of sound cars differ from the sheet\): stated 0\.10, measured 0\.\d\d mm \(0\.\d\d to 0\.\d\d at 95 %\), 6 cars/,
    );
    expect(printed).toContain('these jobs contradict the stated 0.10 mm (χ², 99 %)');
    expect(JSON.stringify(texts)).toBe(before);
  });

  it('says where cars are too few, and where nothing was read a second time', async () => {
    expect((await run(jobs(2), false)).printed).toBe('car.chassis.yaml: 2 cars are too few: 3 are needed');
    const once = Object.fromEntries(
      Object.entries(jobs(5)).map(([path, text]) => [
        path,
        text.replace(/ {2}- measure: finished[\s\S]*/, ''),
      ]),
    );
    const { json } = await run(once);
    expect(measuredIn(json, 'instrument')).toMatchObject({ measured: null, contradicted: false });
    expect(measuredIn(json, 'build').measured).not.toBeNull();
  });

  it('goes on where a file cannot be read, and says so', async () => {
    const { code, json } = await run({
      ...jobs(4),
      'broken.readings.yaml': 'framewright: readings/1\ntimeline: [',
    });
    expect(code).toBe(0);
    expect(json?.bodies.find(({ path }) => path === 'car.chassis.yaml')?.cars).toBe(4);
  });
});
