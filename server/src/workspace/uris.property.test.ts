import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decoded, fileName } from '../model/file-name';
import { nodeFiles, pathOf } from '../node/files';
import { memoryFiles } from './testing/memory-files';
import {
  canonicalUri,
  encodedSegment,
  folderOf,
  hasFolder,
  isInside,
  relativePath,
  resolvedUri,
  schemeOf,
} from './uris';
import { Workspace } from './workspace';
import { WorkspaceQuery } from './workspace-query';

const piece = fc.oneof(
  fc.constantFrom(
    '\0',
    '%',
    '%00',
    '%2F',
    '%E0',
    '#',
    '?',
    '/',
    '//',
    '\\',
    '..',
    '.',
    ':',
    'C:',
    'a:',
    '[',
    '@',
    ' ',
  ),
  fc.constantFrom('\ud83d', '\udc00', '\ud83d\ude97', '\u202e', '\n', 'é', 'https://', 'file:', '~'),
  fc.integer({ min: 0, max: 0xffff }).map((code) => String.fromCharCode(code)),
  fc.constantFrom('specs', 'marten.chassis.yaml'),
);
/** Any UTF-16 units at all, halves of pairs among them. */
const anyText = fc.array(piece, { maxLength: 8 }).map((pieces) => pieces.join(''));
const name = anyText.map((text) => text.replace(/[/\\]/g, '')).filter((text) => !/^\.{0,2}$/.test(text));
const job = 'file:///shop/jobs/w.readings.yaml';
const base = fc.oneof(
  fc.constantFrom(job, 'vscode-vfs://host/shop/w.readings.yaml', 'untitled:Untitled-1', 'untitled:/shop/w'),
  anyText,
  anyText.map((text) => `file:///${text}`),
);
const settings = { numRuns: 500 };

describe('whatever text stands for a path or a URI', () => {
  it('every question to it has an answer', () => {
    fc.assert(
      fc.property(base, anyText, (uri, path) => {
        const resolved = resolvedUri(uri, path);
        for (const each of [uri, path, resolved]) {
          for (const text of [
            folderOf(each),
            schemeOf(each),
            canonicalUri(each),
            fileName(each),
            decoded(each),
          ])
            expect(typeof text).toBe('string');
          expect(typeof relativePath(uri, each)).toBe('string');
          expect(typeof isInside(each, uri)).toBe('boolean');
          expect(typeof hasFolder(each)).toBe('boolean');
          expect(pathOf(each) ?? '').not.toContain('\0');
        }
      }),
      settings,
    );
  });

  it('a name is that of a file in the same folder, and of no other', () => {
    fc.assert(
      fc.property(name, name, (one, other) => {
        const [a, b] = [one, other].map((each) => resolvedUri(job, each));
        expect(folderOf(a)).toBe('file:///shop/jobs/');
        if (!/\p{Cs}/u.test(one)) expect(decoded(a)).toBe(`file:///shop/jobs/${one}`);
        expect(a === b).toBe(one === other);
        expect(resolvedUri(job, `./${one}`)).toBe(a);
        expect(new URL(`file:///shop/jobs/${encodedSegment(one)}`).href).toBe(a);
      }),
      settings,
    );
  });

  it('a path without a name leads to no file that its own file is', () => {
    fc.assert(
      fc.property(anyText, (path) => {
        fc.pre(/[^./\\]/.test(path) && !path.endsWith('w.readings.yaml'));
        expect(resolvedUri(job, path)).not.toBe(job);
      }),
      settings,
    );
  });

  it('the disk says that there is no such file, or what is there', async () => {
    const files = nodeFiles();
    await fc.assert(
      fc.asyncProperty(name, async (each) => {
        const uri = resolvedUri('file:///no-such-folder/w.readings.yaml', each);
        expect((await files.read(uri)).kind).toMatch(/missing|unreadable/);
        expect(await files.root(uri)).toBeNull();
      }),
      settings,
    );
  });

  it('a job or a body that names it is judged, and others can be asked about', async () => {
    await fc.assert(
      fc.asyncProperty(anyText, async (path) => {
        const texts = {
          [job]: `framewright: readings/1\nchassis: ${JSON.stringify(path)}\ntimeline:\n  - measure: a\n`,
          'file:///shop/a.chassis.yaml': `framewright: chassis/1\nvehicle: Teal\nextends: ${JSON.stringify(path)}\npoints: {}\n`,
        };
        const workspace = new Workspace(memoryFiles(texts, 'file:///shop/'));
        const query = new WorkspaceQuery(workspace, ['file:///shop/']);
        for (const uri of await query.uris()) {
          const analysis = await workspace.analysis(uri);
          expect('findings' in analysis && analysis.findings.length).toBeGreaterThan(0);
          const file = await query.read(uri);
          if (file.kind === 'readings' || file.kind === 'chassis')
            expect(typeof (await query.chassisOf(file))).toMatch(/string|object/);
        }
      }),
      { numRuns: 200 },
    );
  });
});
