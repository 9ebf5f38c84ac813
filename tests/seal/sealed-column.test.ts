import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { ZodType } from 'zod';
import {
  chassisKeys,
  instrumentSchema,
  partSchema,
  pointSchema,
  readingsKeys,
  settingsKeys,
  signOffSchema,
  spanSchema,
  timelineSchemas,
} from '../../schemas/src/index';
import { body, job, parent } from './bench-job';
import { sealsBoth } from './seals';

const page = readFileSync(new URL('../../schemas/README.md', import.meta.url), 'utf8');
const rows = page.split('\n').map((line) =>
  line
    .split('|')
    .slice(1, -1)
    .map((cell) => cell.trim()),
);
const tokens = (cell: string) => [...cell.matchAll(/`([^`]+)`/g)].map(([, token]) => token);

/** What the page says of the keys of one table with a column *sealed*, found by a key and a word of its row. */
function columnOf(key: string, word: string): Map<string, boolean> {
  const at = rows.findIndex((cells) => tokens(cells[0] ?? '').includes(key) && cells[1]?.includes(word));
  let first = at;
  while (rows[first - 1].length > 0) first--;
  if (rows[first].at(-1) !== 'sealed') throw new Error(`the table of ${key} has no column sealed`);
  const told = new Map<string, boolean>();
  for (let i = first + 2; rows[i].length > 0; i++) {
    const answer = rows[i].at(-1) ?? '';
    expect(answer).toMatch(/^(yes|no)$/);
    for (const token of tokens(rows[i][0])) told.set(token, answer === 'yes');
  }
  return told;
}

/** The same of an entry of the timeline. */
function columnOfEntry(kind: string): Map<string, boolean> {
  const head = rows.findIndex((cells) => cells.join() === 'entry,sealed,not sealed');
  const row = rows.slice(head).find((cells) => cells[0] === `\`${kind}\``);
  if (row === undefined) throw new Error(`the page does not say what is sealed of ${kind}`);
  const keys = Object.keys(timelineSchemas[kind as keyof typeof timelineSchemas].shape);
  const sealed = tokens(row[1]);
  return new Map(keys.map((key) => [key, sealed.includes(key)]));
}

type Path = readonly (string | number)[];
type File = 'body' | 'job';

interface Group {
  readonly shape: Record<string, ZodType>;
  readonly column: Map<string, boolean>;
  readonly file: File;
  /** Where each key stands, and what it becomes. */
  readonly changes: Record<string, readonly [path: Path, value: unknown]>;
}

const entry = (
  kind: string,
  index: number,
  changes: Record<string, unknown>,
  more: Group['changes'] = {},
): Group => ({
  shape: timelineSchemas[kind as keyof typeof timelineSchemas].shape,
  column: columnOfEntry(kind),
  file: 'job',
  changes: {
    note: [['timeline', index, 'note'], 'another remark'],
    ...Object.fromEntries(
      Object.entries(changes).map(([key, value]) => [key, [['timeline', index, key], value]]),
    ),
    ...more,
  },
});

const readingsChanges: Group['changes'] = {
  chassis: [['chassis'], './body.chassis.yaml'],
  order: [['order'], 'W-10'],
  technician: [['technician'], 'rk'],
  units: [['units'], 'inch'],
  instrument: [['instrument'], undefined],
  axes: [['axes'], ['forward', 'left', 'up']],
  base: [['base'], { between: [-800, 1300] }],
  conditions: [['conditions'], { powertrain: 'out' }],
  anchors: [['anchors'], ['floor-rear']],
  scope: [['scope'], ['rail.L']],
  timeline: [['timeline', 7], undefined],
  'sign-off': [['sign-off', 'by'], 'jm'],
};

const under = (at: Path, values: Record<string, unknown>): Group['changes'] =>
  Object.fromEntries(Object.entries(values).map(([key, value]) => [key, [[...at, key], value]]));

const tip: Path = ['points', 'rail-tip'];

const groups: Record<string, Group> = {
  chassis: {
    shape: chassisKeys,
    column: columnOf('framewright', 'chassis/1'),
    file: 'body',
    changes: under([], {
      vehicle: 'Teal',
      extends: './base.chassis.yaml',
      units: 'inch',
      axes: ['rearward', 'outboard', 'down'],
      source: { kind: 'donor', uncertainty: 0.9 },
      conditions: { powertrain: 'out' },
      datum: { length: 'rear holes' },
      build: 0.7,
      'build-elsewhere': 1.4,
      tolerance: 5,
      parts: { rail: { sided: true } },
      points: { ...body.points, 'rail-root': { both: [1745, 438, 191], part: 'rail' } },
      spans: [],
      members: { subframe: { mounts: ['rail-root'] } },
    }),
  },
  point: {
    shape: pointSchema.shape,
    column: columnOf('both', 'one position'),
    file: 'body',
    changes: {
      ...under(tip, {
        left: [3005, 446, 213],
        right: [3005, 446, 213],
        part: 'floor',
        base: true,
        tolerance: { length: 1 },
        fixing: 'hole',
        uncertainty: 0.4,
      }),
      both: [
        ['points', 'rail-root', 'both'],
        [1745, 438, 191],
      ],
      centre: [
        ['points', 'latch', 'centre'],
        [3046, 11, 782],
      ],
      source: [['points', 'latch', 'source'], { kind: 'donor', uncertainty: 0.8 }],
    },
  },
  part: {
    shape: partSchema.shape,
    column: columnOf('sided', 'one on each side'),
    file: 'body',
    changes: under(['parts', 'rail'], {
      sided: false,
      along: 'height',
      steel: 'mild',
      straighten: 'freely',
      section: [2400, 2700],
      heat: 'never',
      attached: 'bolted',
      joined: ['floor'],
      reference: 'manual 32',
    }),
  },
  span: {
    shape: spanSchema.shape,
    column: columnOf('from', 'its two ends'),
    file: 'body',
    changes: {
      ...under(['spans', 0], { distance: 1402, pairs: 'straight', level: true, tolerance: 3 }),
      from: [['spans', 1, 'from'], 'rail-tip.R'],
      to: [['spans', 1, 'to'], 'rail-root.L'],
    },
  },
  readings: {
    shape: readingsKeys,
    column: columnOf('framewright', 'readings/1'),
    file: 'job',
    changes: readingsChanges,
  },
  instrument: {
    shape: instrumentSchema.shape,
    column: columnOf('uncertainty', 'one reading'),
    file: 'job',
    changes: under(['instrument'], {
      name: 'arm 9',
      serial: 'B-2',
      calibrated: '2026-02-01',
      uncertainty: 0.4,
      repeatability: 0.2,
      'span-uncertainty': 0.6,
    }),
  },
  'sign-off': {
    shape: signOffSchema.shape,
    column: columnOf('judged-by', 'version'),
    file: 'job',
    changes: under(['sign-off'], {
      by: 'jm',
      date: '2026-03-06',
      readings: 'seal1-0000000000000001',
      chassis: 'seal1-0000000000000001',
      'judged-by': 0.1,
      accepted: [{ point: 'latch', reason: 'rests on rubber' }],
      earlier: undefined,
    }),
  },
  measure: entry('measure', 0, {
    measure: 'first',
    by: 'jm',
    at: '2026-03-03',
    instrument: { name: 'arm 3' },
    conditions: { suspension: 'in' },
    'set-up': 'same',
    readings: { 'rail-tip.L': [2985.4, 489.8, 522.3] },
    spans: [['rail-tip.L', 'rail-root.R', 1400.4]],
    summary: { twist: 'some' },
  }),
  observe: entry('observe', 1, { observe: 'gap', part: 'rail.R', at: 2211, answered: undefined }),
  pull: entry(
    'pull',
    2,
    {
      pull: 'in',
      part: 'rail.R',
      chains: [{ hook: 'rail-tip.L', direction: [1, 0, 0], force: '17 kN' }],
      hold: 'floor-front',
      plan: 'another',
    },
    under(['timeline', 3], { hook: 'rail-root.L', direction: [1, 0.6, 0], force: '9.5 kN' }),
  ),
  relieve: entry('relieve', 4, { relieve: 'rail.R' }),
  release: entry('release', 5, { release: 'rail.L' }),
  section: entry('section', 6, { section: 'rail.L', at: 2501, beyond: 'low' }),
  replace: entry('replace', 7, { replace: 'floor' }),
  join: entry('join', 8, { join: 'rail', with: ['welded', 'bolted'], to: undefined }),
  heat: entry('heat', 9, { heat: 'rail.R', to: '181 C', for: '61 s' }),
  note: entry('note', 10, {}),
};

/** A copy in which one place is another. */
function changed(value: unknown, path: Path, to: unknown): unknown {
  const copy = structuredClone(value);
  // biome-ignore lint/suspicious/noExplicitAny: any file, any key
  let holder: any = copy;
  for (const step of path.slice(0, -1)) holder = holder[step];
  const last = path[path.length - 1];
  if (to !== undefined) holder[last] = to;
  else if (Array.isArray(holder)) holder.splice(Number(last), 1);
  else delete holder[last];
  return copy;
}

describe.each(Object.entries(groups))('the column sealed, of %s', (_, { shape, column, file, changes }) => {
  const keys = Object.keys(shape).filter((key) => key !== 'framewright');

  it('speaks of every key, and every key is tried', () => {
    expect(keys.filter((key) => !column.has(key))).toEqual([]);
    expect(Object.keys(changes).sort()).toEqual([...keys].sort());
  });

  it.each(keys)('is right about %s', async (key) => {
    const [path, value] = changes[key];
    const { seals } = await sealsBoth({ parent, body, job });
    const files = { parent, body, job, [file]: changed({ body, job }[file], path, value) };
    const { seals: now, unread } = await sealsBoth(files);
    expect(unread).toEqual([]);
    const isChanged = now.readings !== seals.readings || now.chassis !== seals.chassis;
    expect(isChanged).toBe(column.get(key));
  });
});

it('the files of this test are well written', async () => {
  expect((await sealsBoth({ parent, body, job })).unread).toEqual([]);
});

it('of the settings the decision rule alone is sealed', async () => {
  const column = columnOf('framewright', 'settings/1');
  expect(Object.keys(settingsKeys).filter((key) => column.get(key))).toEqual(['decision-rule']);
  const simple = await sealsBoth({ parent, body, job });
  const guarded = await sealsBoth({ parent, body, job }, 'guarded');
  expect(guarded.seals.readings).not.toBe(simple.seals.readings);
  expect(guarded.seals.chassis).toBe(simple.seals.chassis);
});
