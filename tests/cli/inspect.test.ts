// The JSON that other programs are given holds to the schema that is published beside it.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { Ajv } from 'ajv';
import { expect, test } from 'vitest';
import { framewright, root } from './framewright';

const schema = JSON.parse(readFileSync(path.join(root, 'schemas/json/inspect.schema.json'), 'utf8'));
const validate = new Ajv({ strict: false, allErrors: true }).compile(schema);
const files = ['specs', 'jobs'].flatMap((folder) =>
  readdirSync(path.join(root, 'samples', folder)).map((name) => `samples/${folder}/${name}`),
);

test.each(files)('%s', (file) => {
  const { code, out, err } = framewright(['inspect', '--json', file]);
  const output = JSON.parse(out);
  expect(validate(output), JSON.stringify(validate.errors)).toBe(true);
  expect(output.files.map((each: { path: string }) => each.path)).toEqual([file]);
  expect(err).toBe('');
  expect(code).toBe(/typing|procedure-mistakes|used-front/.test(file) ? 1 : 0);
});

test('the schema refuses what is no output', () => {
  expect(validate({ framewright: 'inspect/2', files: [] })).toBe(false);
  expect(validate({ framewright: 'inspect/1' })).toBe(false);
});

test('all at once, in the order that they were asked for', () => {
  const asked = [...files].reverse();
  const output = JSON.parse(framewright(['inspect', '--json', ...asked]).out);
  expect(validate(output), JSON.stringify(validate.errors)).toBe(true);
  expect(output.files.map((each: { path: string }) => each.path)).toEqual(asked);
});
