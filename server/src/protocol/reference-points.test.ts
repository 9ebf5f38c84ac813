import type { ReferencePointsAnswer } from '@framewright/schemas/wire';
import { afterEach, expect, it } from 'vitest';
import { carChassis, jobOn, measured, soundBase } from '../testing/car';
import { memoryFiles } from '../workspace/testing/memory-files';
import { InProcessClient } from './testing/in-process';

const root = 'file:///shop';
const uri = `${root}/w.readings.yaml`;
const bodyUri = `${root}/car.chassis.yaml`;
const rows = `      rail-tip-upper.L: [3012, 452, 352]
      front-rail-hole.L: [2500.3, 440, 260]`;
const job = jobOn(measured(rows), 'order: W-1\ninstrument: { name: arm, uncertainty: 0.2 }');

let client: InProcessClient;
afterEach(() => client.request('shutdown'));

async function answered(text: string, of = uri, opensBody = false): Promise<ReferencePointsAnswer> {
  client = new InProcessClient(memoryFiles({ [uri]: text, [bodyUri]: carChassis }, root));
  await client.initialize({}, { workspaceFolders: [{ uri: root, name: 'shop' }] });
  if (opensBody) await client.open(bodyUri, 'framewright-chassis', `# as typed\n${carChassis}`);
  return client.request<ReferencePointsAnswer>('framewright/referencePoints', { uri: of });
}

it('new points come as edits of the chassis file, with what is known of them and how the others compare', async () => {
  const answer = await answered(job);
  expect(answer).toMatchObject({
    uri: bodyUri,
    version: null,
    given: 1,
    edits: [{ newText: expect.stringMatching(/front-rail-hole: +\{ left: \[2500\.3, 440\.0, 260\.0\]/) }],
    refused: [],
    compared: expect.arrayContaining([
      expect.stringMatching(/^rail-tip-upper\.L .*(agrees|does not agree) with the file/),
    ]),
  });
  expect('said' in answer && answer.said.join('\n')).toContain(
    'one car: how far cars scatter here is not known',
  );
});

it('they are edits of the file as it is being typed, whose version is told', async () => {
  const [closed, open] = [await answered(job), await answered(job, uri, true)];
  if ('message' in closed || 'message' in open) throw new Error('refused');
  expect(open.version).toBe(1);
  expect(open.edits[0].range.start.line).toBe(closed.edits[0].range.start.line + 1);
});

it('a car with nothing new gives no edit, and is compared all the same', async () => {
  const answer = await answered(job.replace(/\n {6}front-rail-hole.*/, ''));
  expect(answer).toMatchObject({ given: 0, edits: [], refused: [] });
  expect('compared' in answer && answer.compared.length).toBeGreaterThan(0);
});

it.each([
  [
    'whose control point has moved',
    job.replace(soundBase, soundBase.replace('[-350, -455, 90]', '[-350, -455, 99]')),
    uri,
    /as received/,
  ],
  ['whose text has errors', `${job}  - measure\n`, uri, /has errors/],
  ['without its chassis file', job.replace('car.chassis', 'other.chassis'), uri, /cannot be read/],
  ['that is none', job, bodyUri, /not a job/],
])('a job %s is refused in words', async (_, text, of, why) => {
  expect(await answered(text, of)).toEqual({ message: expect.stringMatching(why) });
});
