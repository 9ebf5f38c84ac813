import { describe, expect, it } from 'vitest';
import { canonicalUri, folderOf, hasFolder, isInside, relativePath, resolvedUri, schemeOf } from './uris';

const job = 'file:///shop/jobs/w%201.readings.yaml';

describe('a path as written in a file', () => {
  it.each([
    ['marten.chassis.yaml', 'file:///shop/jobs/marten.chassis.yaml'],
    ['./marten.chassis.yaml', 'file:///shop/jobs/marten.chassis.yaml'],
    ['../specs/marten.chassis.yaml', 'file:///shop/specs/marten.chassis.yaml'],
    ['..\\specs\\marten.chassis.yaml', 'file:///shop/specs/marten.chassis.yaml'],
    ['../specs/marten #2, 50%.chassis.yaml', 'file:///shop/specs/marten%20%232%2C%2050%25.chassis.yaml'],
    ['/etc/hosts', 'file:///etc/hosts'],
    ['../../../../x', 'file:///x'],
  ])('%s', (path, uri) => expect(resolvedUri(job, path)).toBe(uri));

  it('stays in a virtual workspace', () => {
    expect(resolvedUri('vscode-vfs://host/shop/jobs/w.readings.yaml', '../specs/m.chassis.yaml')).toBe(
      'vscode-vfs://host/shop/specs/m.chassis.yaml',
    );
  });

  it('that is an address leads elsewhere', () =>
    expect(schemeOf(resolvedUri(job, 'https://pinefield.example/x'))).toBe('https'));
});

describe('a URI', () => {
  it('has a folder and a way from another', () => {
    expect(folderOf(job)).toBe('file:///shop/jobs/');
    expect(relativePath(job, 'file:///shop/specs/m.chassis.yaml')).toBe('../specs/m.chassis.yaml');
    expect(relativePath(job, 'file:///shop/jobs/m.chassis.yaml')).toBe('m.chassis.yaml');
  });

  it('is inside a folder, not beside one of a like name', () => {
    expect(isInside(job, 'file:///shop')).toBe(true);
    expect(isInside(job, 'file:///shop/')).toBe(true);
    expect(isInside('file:///shop-2/x', 'file:///shop')).toBe(false);
  });

  it('has a folder, unless it was never saved', () => {
    expect(['file:///shop/w', 'untitled:/shop/w', 'untitled:Untitled-1'].map(hasFolder)).toEqual([
      true,
      true,
      false,
    ]);
  });

  it('is the same however it is escaped', () => {
    expect(canonicalUri('file:///c%3A/shop/a%20b')).toBe(canonicalUri('file:///C:/shop/a b'));
  });
});
