import fc from 'fast-check';
import { expect, it } from 'vitest';
import { Document, isMap, isScalar, isSeq, visit } from 'yaml';
import { body, job, parent } from './bench-job';
import { sealsBoth } from './seals';

/** How a file is written: none of it changes what is sealed. */
interface Writing {
  readonly comments: boolean;
  readonly flow: readonly boolean[];
  readonly decimals: number;
  readonly order: readonly number[];
  readonly indent: number;
  readonly lineBreak: string;
}

const writing: fc.Arbitrary<Writing> = fc.record({
  comments: fc.boolean(),
  flow: fc.array(fc.boolean(), { minLength: 1, maxLength: 5 }),
  decimals: fc.integer({ min: 0, max: 4 }),
  order: fc.array(fc.nat(100), { minLength: 1, maxLength: 7 }),
  indent: fc.integer({ min: 1, max: 5 }),
  lineBreak: fc.constantFrom('\n', '\r\n'),
});

/** A value as text in one of many writings. The first key stays first: it says the kind of a file, and of an entry. */
function written(value: unknown, how: Writing): string {
  const document = new Document(value);
  let count = 0;
  visit(document, (_key, node) => {
    count++;
    if (isMap(node)) {
      const [first, ...rest] = node.items;
      const rank = (i: number) => how.order[i % how.order.length];
      const shuffled = rest.map((item, i) => ({ item, by: rank(i) })).sort((a, b) => a.by - b.by);
      node.items = [first, ...shuffled.map(({ item }) => item)];
    }
    if ((isMap(node) || isSeq(node)) && node !== document.contents && !how.comments)
      node.flow = how.flow[count % how.flow.length];
    if (isScalar(node) && typeof node.value === 'number' && node.value !== 0.2)
      node.minFractionDigits = how.decimals;
    if (isScalar(node) && how.comments && count % 3 === 0) node.comment = ` remark ${count}`;
  });
  return document.toString({ indent: how.indent, lineWidth: 0 }).replaceAll('\n', how.lineBreak);
}

const unused = {
  parts: { ...body.parts, hatch: { sided: true, steel: 'mild' } },
  points: { ...body.points, 'hatch-lock': { both: [-1900, 300, 700], part: 'hatch' } },
};
const noted = {
  ...job,
  order: 'W-10',
  timeline: [{ note: 'first' }, ...job.timeline.slice(0, 4), { note: 'again' }, ...job.timeline.slice(4)],
};

it('comments, order of keys, layout, spelling of numbers, unused points, notes and line ends change no seal', async () => {
  const { seals } = await sealsBoth({ parent, body, job });
  await fc.assert(
    fc.asyncProperty(writing, fc.boolean(), async (how, more) => {
      const files = { parent, body: more ? { ...body, ...unused } : body, job: more ? noted : job };
      const { seals: now, unread } = await sealsBoth({
        parent: written(files.parent, how),
        body: written(files.body, how),
        job: written(files.job, how),
      });
      expect(unread).toEqual([]);
      expect(now).toEqual(seals);
    }),
    { numRuns: 60 },
  );
});

it('the unit in which lengths are written changes none, where the numbers say the same', async () => {
  const inInches = (value: unknown, key = ''): unknown => {
    if (typeof value === 'number') return key === 'judged-by' || key === 'direction' ? value : value / 25.4;
    if (Array.isArray(value)) return value.map((each) => inInches(each, key));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, inInches(each, name)]));
  };
  const { seals } = await sealsBoth({ parent, body, job });
  const now = await sealsBoth({
    parent,
    body: { ...(inInches(body) as object), units: 'inch' },
    job: { ...(inInches(job) as object), units: 'inch' },
  });
  expect(now.unread).toEqual([]);
  expect(now.seals).toEqual(seals);
});

const ignored = (line: string) => `framewright: readings/1
chassis: body.chassis.yaml
timeline:
  - note: begun
  - measure: as received
    readings:
      rail-tip.L: [2985.4, 489.8, 522.2]${line}
      latch: [3046, 10, 782]
sign-off: { by: rk, date: 2026-03-05, chassis: seal1-0000000000000000, readings: seal1-0000000000000000 }
`;

it('a silenced line is sealed with its rule, place and reason, wherever the comment stands', async () => {
  const sealsOf = async (text: string) => (await sealsBoth({ parent, body, job: text })).seals.readings;
  const behind = ignored('    # framewright-ignore reading/outside: wax on it');
  const above = ignored('').replace(
    '      rail-tip.L',
    '      # framewright-ignore reading/outside: wax on it\n      rail-tip.L',
  );
  const plain = await sealsOf(ignored(''));
  const silenced = await sealsOf(behind);
  expect(silenced).not.toBe(plain);
  expect(await sealsOf(above)).toBe(silenced);
  expect(await sealsOf(behind.replaceAll('\n', '\r\n'))).toBe(silenced);
  expect(await sealsOf(behind.replace('  - note: begun\n', ''))).toBe(silenced);
  for (const other of [
    behind.replace('wax', 'rust'),
    behind.replace('reading/outside', 'reading/undecided'),
    ignored('').replace('782]', '782]    # framewright-ignore reading/outside: wax on it'),
    ignored('').replace('received', 'received    # framewright-ignore reading/outside: wax on it'),
  ])
    expect(await sealsOf(other)).not.toBe(silenced);
  // no word in it: it silences nothing
  expect(await sealsOf(ignored('    # framewright-ignore reading/outside: 1'))).toBe(plain);
});
