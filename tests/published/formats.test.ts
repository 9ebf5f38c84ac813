import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { checkSchema } from '@framewright/schemas';
import Ajv, { type ValidateFunction } from 'ajv';
import { beforeAll, describe, expect, it } from 'vitest';
import { validateXML } from 'xmllint-wasm';
import { type FileReport, fileReport } from '../../server/src/commands/file-report';
import { type FormatName, formats } from '../../server/src/commands/formats/format-names';
import { nodeFiles } from '../../server/src/node/files';
import { Workspace } from '../../server/src/workspace/workspace';
import { framewright, root } from '../cli/framewright';

// The published schemas are in formats/, with where they come from.
const published = (name: string): string =>
  readFileSync(path.join(import.meta.dirname, 'formats', name), 'utf8');

function validator(name: string): ValidateFunction {
  const ajv = new Ajv({
    strict: false,
    formats: { uri: URL.canParse, 'uri-reference': isReference, 'date-time': true },
  });
  // they are of draft 4, of which they use nothing but the name of `$id` that later drafts have otherwise
  const { $schema: _, id: __, ...schema } = JSON.parse(published(name));
  return ajv.compile(schema);
}

/** RFC 3986: no blank, no control character, every percent sign before two hexadecimal digits. */
const isReference = (text: string): boolean => /^(?:[!#$&-;=?-Z_a-z~[\]@]|%[\da-fA-F]{2})*$/.test(text);

const folders = ['samples', 'samples/specs', 'samples/jobs'];
const files = folders.flatMap((folder) =>
  readdirSync(path.join(root, folder))
    .filter((name) => /\.(chassis|readings)\.yaml$/.test(name))
    .map((name) => `${folder}/${name}`),
);

/** What `check` would hand to a format of each of the samples. */
const reports: FileReport[] = [];
beforeAll(async () => {
  const workspace = new Workspace(nodeFiles());
  const options = { open: true, verbose: true, summaries: true };
  for (const file of files) {
    const target = { uri: pathToFileURL(path.join(root, file)).href, path: file };
    reports.push(await fileReport(workspace, target, options));
  }
}, 60_000);

/** Of the samples one by one, of all together, and of none, as where what was named is not there. */
const asked = [...files, 'all samples', 'no file'];

/** What a format prints of one of these. */
function said(name: FormatName, what: string): string {
  const format = formats[name];
  if (format.kind !== 'document') throw new Error(`${name} is no document`);
  const found = what === 'all samples' ? reports : reports.filter((report) => report.path === what);
  const counts = { error: 0, warning: 0, information: 0 };
  const unread = what === 'no file' ? ['framewright: jobs/gone.readings.yaml: no such file'] : [];
  const end = { files: found.length, summaries: [], counts, ignored: 0, known: 0, hidden: 0, leftOut: 0 };
  return format.document({ ...end, found, unread }).join('\n');
}

it('there are samples of all kinds', () => expect(files.length).toBeGreaterThan(10));

describe.each<[FormatName, string]>([
  ['sarif', 'sarif-2.1.0.schema.json'],
  ['rdjson', 'rdjson.schema.json'],
])('%s is as its published schema has it', (format, schema) => {
  let validate: ValidateFunction;
  beforeAll(() => {
    validate = validator(schema);
  });

  it('and the schema refuses what is not', () => {
    expect(validate({ version: 3, runs: 'none', diagnostics: 'none' })).toBe(false);
  });

  it.each(asked)('%s', (what) => {
    expect(validate(JSON.parse(said(format, what))), JSON.stringify(validate.errors)).toBe(true);
  });
});

describe('junit is as its published schema has it', () => {
  const errorsOf = async (contents: string) => {
    const { errors } = await validateXML({
      xml: { fileName: 'found.xml', contents },
      schema: published('junit-10.xsd'),
    });
    return errors;
  };

  it('and the schema refuses what is not', async () => {
    expect((await errorsOf('<testsuites><testcase/></testsuites>')).length).toBeGreaterThan(0);
  });

  it.each(asked)('%s', async (what) => {
    expect(await errorsOf(said('junit', what))).toEqual([]);
  });
});

// No schema is published of these two; what their hosts' documentation says of a line, of an object.
it.each(asked)('github: every line is a workflow command, %s', (what) => {
  const property = `[a-zA-Z]+=(?:[^,:%]|%25|%0D|%0A|%3A|%2C)*`;
  const command = new RegExp(
    `^::(?:error|warning|notice) ${property}(?:,${property})*::(?:[^%]|%25|%0D|%0A)+$`,
  );
  const lines = said('github', what)
    .split('\n')
    .filter((line) => line !== '');
  for (const line of lines) expect(line).toMatch(command);
  expect(lines.length).toBeGreaterThan(what === 'all samples' ? 10 : -1);
});

it.each(asked)('gitlab: every issue has what is required, and a fingerprint of its own, %s', (what) => {
  const issues = JSON.parse(said('gitlab', what));
  for (const issue of issues)
    expect(issue).toEqual({
      description: expect.stringMatching(/./),
      check_name: expect.stringMatching(/./),
      fingerprint: expect.stringMatching(/^[0-9a-f]{64}$/),
      severity: expect.stringMatching(/^(?:info|minor|major|critical|blocker)$/),
      location: { path: expect.stringMatching(/^[^/]/), lines: { begin: expect.any(Number) } },
    });
  const prints = issues.map(({ fingerprint }: { fingerprint: string }) => fingerprint);
  expect(new Set(prints).size).toBe(prints.length);
});

it.each(asked)('json is as our own schema has it, %s', (what) => {
  const { success, error } = checkSchema.safeParse(JSON.parse(said('json', what)));
  expect(success, error?.message).toBe(true);
});

it('all formats but the one that folds tell of the same findings', () => {
  const findings = reports.flatMap((report) => report.findings);
  const told = findings.filter(({ ignored }) => ignored === null).length;
  expect(told).toBeGreaterThan(20);
  expect(JSON.parse(said('sarif', 'all samples')).runs[0].results).toHaveLength(findings.length);
  expect(JSON.parse(said('gitlab', 'all samples'))).toHaveLength(told);
  expect(JSON.parse(said('rdjson', 'all samples')).diagnostics).toHaveLength(told);
  expect(said('junit', 'all samples').match(/<(?:failure|skipped|system-out)/g)).toHaveLength(
    findings.length,
  );
});

it('the program prints the document, and that a file is not there', () => {
  const { code, out } = framewright(['check', '--format=json', 'samples/specs', 'gone.readings.yaml']);
  const answer = checkSchema.parse(JSON.parse(out));
  expect(answer.files.map((each) => each.path)).toEqual(
    files.filter((file) => file.startsWith('samples/specs/')).toSorted(),
  );
  expect(answer.unread).toEqual([expect.stringContaining('gone.readings.yaml')]);
  expect(code).toBe(2);
});
