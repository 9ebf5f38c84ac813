import { describe, expect, it } from 'vitest';
import { sharedReads } from './shared-reads';
import { memoryFiles } from './testing/memory-files';

describe('files that are read for a look at many', () => {
  it('are read once where jobs share them, and each time where they are jobs', async () => {
    const asked: string[] = [];
    const files = memoryFiles({ 'file:///a.chassis.yaml': 'a', 'file:///w.readings.yaml': 'w' });
    const shared = sharedReads(files, (uri) => {
      asked.push(uri);
      return files.read(uri);
    });
    for (let i = 0; i < 3; i++) {
      expect(await shared.read('file:///a.chassis.yaml')).toEqual({ kind: 'text', text: 'a' });
      expect(await shared.read('file:///w.readings.yaml')).toEqual({ kind: 'text', text: 'w' });
      expect((await shared.read('file:///.framewright.yaml')).kind).toBe('missing');
    }
    expect(asked.filter((uri) => uri.endsWith('w.readings.yaml'))).toHaveLength(3);
    expect(asked.filter((uri) => !uri.endsWith('w.readings.yaml'))).toEqual([
      'file:///a.chassis.yaml',
      'file:///.framewright.yaml',
    ]);
  });

  it('are forgotten, the longest unused first, where there are very many', async () => {
    let reads = 0;
    const shared = sharedReads(memoryFiles({}), async () => {
      reads++;
      return { kind: 'text', text: '' };
    });
    for (let i = 0; i < 201; i++) await shared.read(`file:///${i}.chassis.yaml`);
    await shared.read('file:///200.chassis.yaml');
    expect(reads).toBe(201);
    await shared.read('file:///0.chassis.yaml');
    expect(reads).toBe(202);
  });
});
