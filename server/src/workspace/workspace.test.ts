import { describe, expect, it } from 'vitest';
import { memoryFiles } from './testing/memory-files';
import { Workspace } from './workspace';

const chassis =
  'framewright: chassis/1\nvehicle: Teal\nsource: { kind: published }\npoints:\n  latch: { centre: [2700, 12, 780] }\n  hook: { centre: [-900, 0, 300] }\n';
const job =
  'framewright: readings/1\nchassis: ../specs/teal.chassis.yaml\ntimeline:\n  - measure: a\n    readings: { latch: [1, 2, 3] }\n';
const texts = { 'file:///shop/jobs/w.readings.yaml': job, 'file:///shop/specs/teal.chassis.yaml': chassis };
const [jobUri, chassisUri] = Object.keys(texts);
const shop = (more: Record<string, string> = {}) =>
  new Workspace(memoryFiles({ ...texts, ...more }, 'file:///shop/'));

const rulesOf = async (workspace: Workspace, uri: string): Promise<string[]> => {
  const analysis = await workspace.analysis(uri);
  return 'findings' in analysis
    ? analysis.findings.map(({ rule }) => rule).filter((rule) => /^(text|name)\//.test(rule))
    : [analysis.kind];
};

describe('a workspace', () => {
  it('judges a job by the chassis file beside it, and says what it was made from', async () => {
    const analysis = await shop().analysis(jobUri);
    expect(analysis).toMatchObject({
      kind: 'readings',
      chassis: { vehicle: 'Teal' },
      dependencies: [chassisUri],
    });
    expect(await rulesOf(shop(), jobUri)).toEqual([]);
  });

  it('takes an open document before the file, until it is closed', async () => {
    const workspace = shop();
    workspace.setOpen(chassisUri, chassis.replace('latch', 'lock'));
    expect(await rulesOf(workspace, jobUri)).toEqual(['name/unknown-point']);
    workspace.setClosed(chassisUri);
    expect(await rulesOf(workspace, jobUri)).toEqual([]);
  });

  it('takes a document of another name for what the editor, else its own first line, says that it is', () => {
    const workspace = shop();
    workspace.setOpen('untitled:Untitled-1', '', 'chassis');
    workspace.setOpen('file:///shop/teal.yaml', chassis);
    workspace.setOpen('file:///shop/other.yaml', 'a: b\n');
    const kinds = ['untitled:Untitled-1', 'file:///shop/teal.yaml', 'file:///shop/other.yaml', jobUri];
    expect(kinds.map((uri) => workspace.kindOf(uri))).toEqual(['chassis', 'chassis', null, 'readings']);
  });

  it.each(['untitled:Untitled-1', 'untitled:/shop/jobs/w.readings.yaml'])(
    'says of %s that it is to be saved before a path can lead anywhere',
    async (uri) => {
      const workspace = new Workspace(memoryFiles(texts));
      workspace.setOpen(uri, job, 'readings');
      expect(await workspace.analysis(uri)).toMatchObject({
        chassis: null,
        findings: [{ rule: 'name/file-not-found', message: expect.stringContaining('save this file first') }],
      });
    },
  );

  it('finds an open document however its URI is escaped', async () => {
    const workspace = new Workspace(memoryFiles({}, 'file:///c%3A/shop/'));
    workspace.setOpen('file:///c%3A/shop/m%2B.chassis.yaml', chassis);
    expect(await workspace.analysis('file:///C:/shop/m+.chassis.yaml')).toMatchObject({
      kind: 'chassis',
      text: chassis,
    });
  });

  it('knows a file by its name, else by what the editor says, else by its first line', async () => {
    const workspace = shop({ 'file:///shop/x.yaml': chassis, 'file:///shop/y.yaml': job.replace('../', '') });
    expect(await workspace.analysis('file:///shop/x.yaml')).toMatchObject({ kind: 'chassis' });
    expect(await workspace.analysis('file:///shop/y.yaml')).toMatchObject({ kind: 'readings' });
    workspace.setOpen('file:///shop/z.yaml', '', 'chassis');
    expect(await workspace.analysis('file:///shop/z.yaml')).toMatchObject({ kind: 'chassis' });
    expect(workspace.kindOf('file:///shop/.framewright.yaml')).toBe('settings');
  });

  it('says why a file cannot be read', async () => {
    expect(await shop().analysis('file:///shop/none.readings.yaml')).toEqual({
      kind: 'missing',
      message: 'there is no such file',
    });
  });

  it('says what is in the way at the path of the chassis file', async () => {
    const files = memoryFiles(texts, 'file:///shop/');
    const blocked = new Workspace({
      ...files,
      read: async (uri) =>
        uri === chassisUri ? { kind: 'folder', message: 'this is a folder, not a file' } : files.read(uri),
    });
    const analysis = await blocked.analysis(jobUri);
    expect('findings' in analysis && analysis.findings.map(({ message }) => message)).toEqual([
      '../specs/teal.chassis.yaml: this is a folder, not a file',
    ]);
  });

  it('looks again for a file that was not there', async () => {
    const missing = new Workspace(memoryFiles({ [jobUri]: job }, 'file:///shop/'));
    expect(await missing.analysis(jobUri)).toMatchObject({ chassis: null, dependencies: [chassisUri] });
  });

  it('takes what the settings above a file say together, and names them', async () => {
    const workspace = shop({
      'file:///shop/.framewright.yaml': 'framewright: settings/1\ndecision-rule: guarded\n',
      'file:///shop/specs/.framewright.yaml':
        'framewright: settings/1\nrules: { chassis/no-source: error }\n',
    });
    expect(await workspace.analysis(jobUri)).toMatchObject({ settings: { decisionRule: 'guarded' } });
    expect(await workspace.analysis(chassisUri)).toMatchObject({
      settings: { decisionRule: 'guarded', severities: new Map([['chassis/no-source', 'error']]) },
      dependencies: ['file:///shop/specs/.framewright.yaml', 'file:///shop/.framewright.yaml'],
    });
  });
});

describe('a chain of files', () => {
  const extending = (path: string) => `framewright: chassis/1\nextends: ${path}\n`;

  it('that ends in nothing is told once, at the first, and judges no job', async () => {
    const workspace = shop({
      [chassisUri]: `${extending('./a.chassis.yaml')}spans:\n  - { from: latch, to: hook, distance: 3600 }\n`,
      'file:///shop/specs/a.chassis.yaml': extending('./none.chassis.yaml'),
    });
    const own = await workspace.analysis(chassisUri);
    expect('findings' in own && own.findings.map(({ rule, message }) => [rule, message])).toEqual([
      ['name/file-not-found', 'a.chassis.yaml: there is no file ./none.chassis.yaml'],
    ]);
    const judged = await workspace.analysis(jobUri);
    expect(judged).toMatchObject({
      chassis: null,
      findings: [
        { rule: 'name/file-not-found', message: expect.stringContaining('teal.chassis.yaml cannot be used') },
      ],
    });
  });

  it('that is too long is no circle', async () => {
    const long = Object.fromEntries(
      Array.from({ length: 30 }, (_, i) => [
        `file:///shop/specs/${i}.chassis.yaml`,
        extending(`./${i + 1}.chassis.yaml`),
      ]),
    );
    const analysis = await shop(long).analysis('file:///shop/specs/0.chassis.yaml');
    expect('findings' in analysis && analysis.findings.map(({ message }) => message)).toEqual([
      'more than 20 files extend each other here',
    ]);
  });
});
