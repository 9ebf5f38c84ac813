import { describe, expect, it } from 'vitest';
import { memoryFiles } from './testing/memory-files';
import { Workspace } from './workspace';
import { WorkspaceQuery } from './workspace-query';

const sheet = (parent: string | null): string =>
  `framewright: chassis/1\n${parent === null ? '' : `extends: ${parent}\n`}vehicle: Teal\n`;
const job = (chassis: string): string => `framewright: readings/1\nchassis: ${chassis}\ntimeline: []\n`;

const texts = {
  'file:///shop/.framewright.yaml': 'framewright: settings/1\nignore: [old]\n',
  'file:///shop/specs/a.chassis.yaml': sheet('./b.chassis.yaml'),
  'file:///shop/specs/b.chassis.yaml': sheet('./a.chassis.yaml'),
  'file:///shop/jobs/1.readings.yaml': job('../specs/a.chassis.yaml'),
  'file:///shop/old/2.readings.yaml': job('../../branch/c.chassis.yaml'),
  'file:///branch/c.chassis.yaml': sheet(null),
};
const names = (uris: readonly string[]): string[] => uris.map((uri) => uri.replace('file:///', '')).sort();

describe('a workspace query', () => {
  const workspace = new Workspace(memoryFiles(texts, 'file:///shop/'));

  it('goes through each file once, also where one folder holds another', async () => {
    const query = new WorkspaceQuery(workspace, ['file:///shop/', 'file:///shop/jobs', 'file:///branch']);
    expect(names(await query.uris())).toEqual(names(Object.keys(texts)));
  });

  it('leaves out what the settings ignore where that is asked for', async () => {
    const found = names(await new WorkspaceQuery(workspace, ['file:///shop/']).uris([], false));
    expect(found).not.toContain('shop/old/2.readings.yaml');
    expect(found).toContain('shop/jobs/1.readings.yaml');
  });

  it('finds the files around one that stands in no folder of the editor, and open ones, as the editor spells them', async () => {
    const opened = new Workspace(memoryFiles(texts, 'file:///shop/'));
    opened.setOpen('file:///shop/jobs/%31.readings.yaml', job('x'));
    opened.setOpen('untitled:Untitled-1', sheet(null), 'chassis');
    const found = await new WorkspaceQuery(opened, []).uris(['file:///shop/specs/a.chassis.yaml']);
    expect(found).toContain('file:///shop/specs/b.chassis.yaml');
    expect(found).toContain('file:///shop/jobs/%31.readings.yaml');
    expect(found).toContain('untitled:Untitled-1');
    expect(new Set(found).size).toBe(6);
  });

  it('follows a chain of chassis files, once round where it is a circle', async () => {
    const query = new WorkspaceQuery(workspace, []);
    expect(names(await query.chainOf('file:///shop/specs/a.chassis.yaml'))).toEqual([
      'shop/specs/a.chassis.yaml',
      'shop/specs/b.chassis.yaml',
    ]);
  });

  it('follows no path out of what belongs together', async () => {
    const query = new WorkspaceQuery(workspace, []);
    const file = await query.read('file:///shop/old/2.readings.yaml');
    expect(file.kind === 'readings' && (await query.chassisOf(file))).toBeNull();
  });
});
