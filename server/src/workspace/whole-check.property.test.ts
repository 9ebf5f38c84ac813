import fc from 'fast-check';
import { expect, it } from 'vitest';
import { memoryFiles } from './testing/memory-files';
import { type Found, WholeCheck } from './whole-check';
import { Workspace } from './workspace';

const root = 'file:///shop';
const settingsUri = `${root}/.framewright.yaml`;
const chassis = (name: string): string => `${root}/specs/${name}.chassis.yaml`;
const job = (name: string): string => `${root}/jobs/${name}.readings.yaml`;
const uris = [
  settingsUri,
  chassis('teal'),
  chassis('marten'),
  job('a'),
  job('b'),
  `${root}/old/c.readings.yaml`,
];

const chassisText = (point: string, more = ''): string =>
  `framewright: chassis/1\nvehicle: Teal\n${more}source: { kind: published }\npoints:\n  ${point}: { centre: [2700, 0, 780] }\n`;
const jobText = (body: string): string =>
  `framewright: readings/1\nchassis: ../specs/${body}.chassis.yaml\ntimeline:\n  - measure: a\n    readings: { latch: [1, 2, 3] }\n`;

/** What may stand in a file of each kind. */
const textsOf = (uri: string): readonly string[] => {
  if (uri === settingsUri)
    return [
      'framewright: settings/1\n',
      'framewright: settings/1\nignore: [old]\n',
      'framewright: settings/1\nrules: { chassis/no-source: off }\n',
    ];
  if (uri.includes('/specs/'))
    return [
      chassisText('latch'),
      chassisText('lock'),
      chassisText('hook', 'extends: ./marten.chassis.yaml\n'),
    ];
  return [jobText('teal'), jobText('marten'), `${jobText('teal')}order: [`];
};

const events = fc.record({
  act: fc.constantFrom('write', 'delete', 'edit', 'close'),
  uri: fc.constantFrom(...uris),
  variant: fc.nat({ max: 2 }),
  /** Amid the work of the check rather than when it rests. */
  amid: fc.nat({ max: 5 }).map((chance) => chance > 0),
});
type Event = typeof events extends fc.Arbitrary<infer E> ? E : never;

const lineOf = (found: Found): string =>
  'findings' in found
    ? JSON.stringify(found.findings.map(({ rule, message, range }) => [rule, message, range]))
    : found.kind;

/** An editor over a disk, and what it tells a check of what is done. */
function editor(texts: Record<string, string>, turn: () => Promise<void>) {
  const disk = memoryFiles(texts, `${root}/`);
  const workspace = new Workspace(disk);
  const failures: unknown[] = [];
  const check = new WholeCheck<string>(workspace, disk, {
    turn,
    looked: async (_, found) => {
      await turn();
      return lineOf(found);
    },
    listed: () => {},
    found: () => {},
    unseen: () => {},
    gone: () => {},
    progress: () => {},
    failed: (_, error) => failures.push(error),
  });
  const onDisk = (uri: string, how: 'created' | 'changed' | 'deleted'): void => {
    if (!workspace.isOpen(uri)) check.changed(uri, how);
    else if (how !== 'changed') check.listAgain();
  };
  const open = new Map<string, string>();
  const happen = ({ act, uri, variant }: Event): void => {
    const text = textsOf(uri)[variant];
    const isThere = Object.hasOwn(texts, uri);
    if (act === 'write') {
      texts[uri] = text;
      onDisk(uri, isThere ? 'changed' : 'created');
    } else if (act === 'delete' && isThere) {
      delete texts[uri];
      onDisk(uri, 'deleted');
    } else if (act === 'edit') {
      open.set(uri, text);
      workspace.setOpen(uri, text);
      check.edited(uri, text);
    } else if (act === 'close' && open.has(uri)) {
      workspace.setClosed(uri);
      check.closed(uri, open.get(uri)!);
      open.delete(uri);
    }
  };
  const atRest = async (): Promise<void> => {
    // what an event sets off begins in the same turn or the next
    for (let quiet = 0; quiet < 3; quiet = check.isRunning ? 0 : quiet + 1)
      await new Promise((resolve) => setImmediate(resolve));
    expect(failures).toEqual([]);
  };
  return { check, workspace, happen, atRest, open };
}

it('whatever happens, and when, what is known in the end is what a new look at all finds', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(events, { maxLength: 16 }), async (all) => {
      const texts = Object.fromEntries(uris.slice(1).map((uri) => [uri, textsOf(uri)[0]]));
      const waiting: Event[] = [];
      const { check, workspace, happen, atRest, open } = editor(texts, async () => {
        const next = waiting.shift();
        if (next) happen(next);
      });
      check.lookAtAll([root], true);
      for (const event of all) {
        if (event.amid) waiting.push(event);
        else {
          await atRest();
          happen(event);
        }
      }
      await atRest();
      for (const event of waiting.splice(0)) happen(event);
      await atRest();

      const { uris: listed } = await workspace.filesIn(root, false);
      expect([...check.known()].map(({ uri }) => uri).sort()).toEqual(
        [...new Set([...listed, ...open.keys()])].sort(),
      );
      const anew = new Workspace(memoryFiles(texts, `${root}/`));
      for (const [uri, text] of open) anew.setOpen(uri, text);
      for (const uri of listed) {
        if (open.has(uri)) continue;
        expect([uri, check.of(uri)?.line]).toEqual([uri, lineOf(await anew.analysis(uri))]);
      }
    }),
    { numRuns: 150 },
  );
});
