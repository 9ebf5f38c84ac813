import fc from 'fast-check';
import { expect, it } from 'vitest';
import { dependentsOf } from '../editor/dependents';
import { memoryFiles } from '../workspace/testing/memory-files';
import { isInside } from '../workspace/uris';
import { Workspace } from '../workspace/workspace';
import { changesSelected } from './select';

const root = 'file:///shop/';
const bodies = ['a', 'b', 'c', 'd', 'e'];
const bodyUri = (name: string): string => `${root}specs/${name}.chassis.yaml`;
const settingsUris = [`${root}.framewright.yaml`, `${root}jobs/new/.framewright.yaml`];

interface Shop {
  /** Of each body, the one that it extends; null: none. */
  readonly parents: readonly (number | null)[];
  readonly jobs: readonly { readonly body: number; readonly isNew: boolean }[];
}

const shops = fc.record({
  // a later body extends an earlier one, or in a circle any
  parents: fc.tuple(...bodies.map(() => fc.option(fc.nat({ max: bodies.length - 1 }), { nil: null }))),
  jobs: fc.array(fc.record({ body: fc.nat({ max: bodies.length - 1 }), isNew: fc.boolean() }), {
    maxLength: 6,
  }),
});

const textsOf = ({ parents, jobs }: Shop): Record<string, string> => ({
  ...Object.fromEntries(
    bodies.map((name, i) => {
      const parent = parents[i];
      const above = parent === null ? '' : `extends: ./${bodies[parent]}.chassis.yaml\n`;
      return [
        bodyUri(name),
        `framewright: chassis/1\nvehicle: Teal\n${above}source: { kind: published }\npoints:\n  latch: { centre: [${2700 + i}, 0, 780] }\n  hook-${name}: { centre: [${1000 + i}, 0, 500] }\n`,
      ];
    }),
  ),
  ...Object.fromEntries(
    jobs.map(({ body, isNew }, i) => [
      `${root}jobs/${isNew ? 'new/' : ''}w-${i}.readings.yaml`,
      `framewright: readings/1\nchassis: ${isNew ? '../' : ''}../specs/${bodies[body]}.chassis.yaml\ntimeline:\n  - measure: a\n    readings: { latch: [2701, 0, 780], hook-${bodies[body]}: [1, 2, 3] }\n`,
    ]),
  ),
});

/** What is done to one file. */
const changes = fc.record({
  uri: fc.constantFrom(...bodies.map(bodyUri), ...settingsUris),
  how: fc.constantFrom('edited', 'deleted'),
});

function changed(
  texts: Record<string, string>,
  { uri, how }: { uri: string; how: string },
): Record<string, string> {
  const { [uri]: old, ...others } = texts;
  if (how === 'deleted') return others;
  const text = uri.includes('/specs/')
    ? old.replace('latch:', 'lock:')
    : 'framewright: settings/1\nrules: { name/unknown-point: warning, chassis/no-source: off, name/file-not-found: warning, name/extends-cycle: warning }\n';
  return { ...others, [uri]: text };
}

/** All that a check says, by file; which other file may be meant is said of one that is not there, whatever rests on it. */
async function saidOf(texts: Record<string, string>): Promise<Map<string, string>> {
  const workspace = new Workspace(memoryFiles(texts, root));
  const said = new Map<string, string>();
  for (const uri of Object.keys(texts)) {
    const found = await workspace.analysis(uri);
    const findings = 'findings' in found ? found.findings : [];
    const words = findings.map(({ rule, severity, message }) => [
      rule,
      severity,
      message.replace(/; did you mean .*/, ''),
    ]);
    const inspection =
      'inspection' in found
        ? found.inspection?.stages.map(({ points }) => points.map(({ id, verdict }) => [id, verdict]))
        : null;
    said.set(uri, JSON.stringify([words, inspection]));
  }
  return said;
}

it('whatever a change makes say another thing in a whole check is among what rests on it', async () => {
  let seen = 0;
  await fc.assert(
    fc.asyncProperty(shops, changes, async (shop, change) => {
      const before = textsOf(shop);
      const after = changed(before, change);
      const [then, now] = [await saidOf(before), await saidOf(after)];
      const differing = Object.keys(after).filter(
        (uri) => uri !== change.uri && then.get(uri) !== now.get(uri),
      );
      seen += differing.length;
      const found = await dependentsOf(memoryFiles(after, root), root, [change.uri]);
      expect(differing.filter((uri) => !found.includes(uri))).toEqual([]);
    }),
    { numRuns: 150 },
  );
  // else nothing was tried
  expect(seen).toBeGreaterThan(100);
});

it('is no more than what rests on it', async () => {
  const texts = textsOf({
    parents: [null, 0, 1, null, null],
    jobs: [
      { body: 0, isNew: false },
      { body: 2, isNew: true },
      { body: 3, isNew: false },
    ],
  });
  const files = memoryFiles(texts, root);
  const of = async (uri: string) =>
    (await dependentsOf(files, root, [uri])).map((each) => each.slice(root.length));
  expect(await of(bodyUri('a'))).toEqual([
    'jobs/new/w-1.readings.yaml',
    'jobs/w-0.readings.yaml',
    'specs/b.chassis.yaml',
    'specs/c.chassis.yaml',
  ]);
  expect(await of(bodyUri('c'))).toEqual(['jobs/new/w-1.readings.yaml']);
  expect(await of(bodyUri('e'))).toEqual([]);
  expect(await of(settingsUris[1])).toEqual(['jobs/new/w-1.readings.yaml']);
  // where only jobs changed no other file is even listed
  const unread = { ...files, list: () => Promise.reject(new Error('listed')) };
  expect(await dependentsOf(unread, root, [`${root}jobs/w-0.readings.yaml`])).toEqual([]);
});

it('what changed is looked at with what rests on it, less what is gone and what settings ignore', async () => {
  const texts: Record<string, string> = {
    ...textsOf({
      parents: [null, 0, null, null, null],
      jobs: [
        { body: 1, isNew: false },
        { body: 1, isNew: true },
      ],
    }),
    [settingsUris[0]]: 'framewright: settings/1\nignore: [jobs/new]\n',
  };
  const { [bodyUri('a')]: _, ...after } = texts;
  const around = {
    files: memoryFiles(after, root),
    folder: root,
    pathOf: (uri: string) => uri.slice(root.length),
    wayOf: async (uri: string) => [uri],
  };
  const selected = async (within: string[]) => {
    const { targets, leftOut } = await changesSelected(
      [bodyUri('a'), `${root}read-me.md`],
      within.map((path) => ({ path, uri: root + path })),
      around,
    );
    expect(targets.every(({ uri }) => isInside(uri, root))).toBe(true);
    return [targets.map(({ path }) => path), leftOut.map(({ path }) => path)];
  };
  expect(await selected([])).toEqual([
    ['jobs/w-0.readings.yaml', 'specs/b.chassis.yaml'],
    ['jobs/new/w-1.readings.yaml'],
  ]);
  expect(await selected(['specs'])).toEqual([['specs/b.chassis.yaml'], []]);
  expect(await selected(['jobs/w-0.readings.yaml'])).toEqual([['jobs/w-0.readings.yaml'], []]);
});
