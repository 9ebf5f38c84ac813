// Parts of the server fail, one after another, on one document: it says so under its newest version, and nothing else changes.
import { PassThrough } from 'node:stream';
import { afterEach, describe, expect, test } from 'vitest';
import {
  type Connection,
  createConnection,
  createMessageConnection,
  type Diagnostic,
  type MessageConnection,
  ProposedFeatures,
  type PublishDiagnosticsParams,
  ResponseError,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { files, folder, spoilt, texts } from '../../server/src/commands/faults.fixture';
import { startSession } from '../../server/src/doors/start';
import { StreamWriter } from '../../server/src/node/messages';
import { type Judges, ownJudges } from '../../server/src/workspace/judges';
import { Waiting } from './waiting';

const uri = folder + spoilt;
const beside = `${folder}jobs/w-1205-moved-control-point.readings.yaml`;
const closed = `${folder}jobs/w-1187-as-received.readings.yaml`;
/** The text that they fail on. */
const badText = `${texts[uri]}# now\n`;

const fails = (): never => {
  throw new TypeError('it is not a function');
};
const isBad = (text: string): boolean => text === badText;

const judges = (part: Partial<Judges>): Judges => ({ ...ownJudges, ...part });
const failingParser = judges({
  parse: (text, previous) => (isBad(text) ? fails() : ownJudges.parse(text, previous)),
});
/** The inspection sees no comment: that the text is the bad one is known from its reading, just before. */
const failingLater = (later: (isNow: (of: string) => boolean) => Partial<Judges>): Judges => {
  let isNow = false;
  return judges({
    parse: (text, previous) => {
      if (text.startsWith(texts[uri])) isNow = isBad(text);
      return ownJudges.parse(text, previous);
    },
    ...later((of) => isNow && of === uri),
  });
};
const failingRule = (): Judges =>
  failingLater((isNow) => ({
    rules: ownJudges.rules.map((rule) =>
      rule.name === 'reading/coverage'
        ? {
            ...rule,
            ofJob: (context) => (isNow(context.inspection.job.uri) ? fails() : (rule.ofJob?.(context) ?? [])),
          }
        : rule,
    ),
  }));
const failingInspection = (): Judges =>
  failingLater((isNow) => ({
    inspect: (job, chassis) => (isNow(job.uri) ? fails() : ownJudges.inspect(job, chassis)),
  }));

class Editor {
  readonly published: PublishDiagnosticsParams[] = [];
  readonly logged: string[] = [];
  readonly shown: string[] = [];
  readonly server: Connection;
  readonly client: MessageConnection;
  private readonly waiting = new Waiting();
  private version = 0;

  constructor(given: Judges, tamper: (connection: Connection) => void = () => {}) {
    const up = new PassThrough();
    const down = new PassThrough();
    this.server = createConnection(ProposedFeatures.all, new StreamMessageReader(up), new StreamWriter(down));
    startSession(this.server, files, null, given);
    tamper(this.server);
    this.client = createMessageConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
    this.client.onNotification('textDocument/publishDiagnostics', (params) => {
      this.published.push(params);
      this.waiting.look();
    });
    this.client.onNotification('window/logMessage', ({ message }) => {
      this.logged.push(message);
      this.waiting.look();
    });
    this.client.onNotification('window/showMessage', ({ message }) => {
      this.shown.push(message);
    });
    for (const refused of ['workspace/inlayHint/refresh', 'workspace/codeLens/refresh'])
      this.client.onRequest(refused, () => new ResponseError(-32603, 'the editor would rather not'));
    this.client.listen();
  }

  async start(): Promise<this> {
    const support = { refreshSupport: true };
    await this.client.sendRequest('initialize', {
      processId: null,
      rootUri: null,
      workspaceFolders: [{ uri: folder.slice(0, -1), name: 'shop' }],
      capabilities: { workspace: { workspaceFolders: true, inlayHint: support, codeLens: support } },
    });
    await this.client.sendNotification('initialized', {});
    await this.open(beside, texts[beside]);
    await this.open(uri, texts[uri]);
    await this.until(() => [closed, beside].every((each) => this.newest(each) !== undefined));
    return this;
  }

  async open(of: string, text: string): Promise<void> {
    const textDocument = { uri: of, languageId: 'framewright-readings', version: ++this.version, text };
    await this.client.sendNotification('textDocument/didOpen', { textDocument });
  }

  /** Writes a text and waits for what is said of it, under its own version. */
  async typed(text: string): Promise<Diagnostic[]> {
    const version = ++this.version;
    const params = { textDocument: { uri, version }, contentChanges: [{ text }] };
    await this.client.sendNotification('textDocument/didChange', params);
    await this.until(() => this.newest(uri)?.version === version);
    return this.newest(uri)!.diagnostics;
  }

  newest(of: string): PublishDiagnosticsParams | undefined {
    return this.published.findLast((each) => each.uri === of);
  }

  until(fits: () => boolean): Promise<void> {
    return this.waiting.until(fits, 15_000, () => JSON.stringify([this.logged, this.published.slice(-2)]));
  }

  end(): void {
    this.client.dispose();
    this.server.dispose();
  }
}

let editor: Editor;
afterEach(() => editor.end());

const hover = () =>
  editor.client.sendRequest('textDocument/hover', {
    textDocument: { uri: beside },
    position: { line: 0, character: 2 },
  });
const codes = (all: readonly Diagnostic[]) => all.map(({ code }) => code);

/** Fails where the editor would show findings of an older text, or of one that it does not have. */
const failsToPublish = (connection: Connection): void => {
  const send = connection.sendDiagnostics.bind(connection);
  connection.sendDiagnostics = (params) =>
    params.version !== undefined &&
    params.uri === uri &&
    !codes(params.diagnostics).includes('internal/fault')
      ? Promise.reject(new Error('cannot be sent'))
      : send(params);
};

describe.each([
  ['rule', failingRule, /^not judged by reading\/coverage: .*please report it/],
  ['parser', () => failingParser, /^not judged: the program failed in reading its text .*please report it/],
  ['inspection', failingInspection, /^not judged: the program failed in the inspection .*please report it/],
] as const)('a %s that fails on a text', (_, given, says) => {
  test('is said of its version at once, in place of older findings, and is gone with the next text', async () => {
    editor = await new Editor(given()).start();
    const sound = await editor.typed(`${texts[uri]}# as before\n`);
    expect(codes(sound)).not.toContain('internal/fault');
    const others = [beside, closed].map((each) => editor.newest(each)?.diagnostics);
    const faulty = await editor.typed(badText);
    const [fault, ...more] = faulty.filter(({ code }) => code === 'internal/fault');
    expect(more).toEqual([]);
    expect(fault).toMatchObject({ severity: 1, range: { start: { line: 0, character: 0 } } });
    expect(fault.message).toMatch(says);
    if (!says.source.includes('coverage')) expect(codes(faulty)).not.toContain('reading/outside');
    expect(await editor.typed(`${texts[uri]}# as after\n`)).toEqual(sound);
    expect([beside, closed].map((each) => editor.newest(each)?.diagnostics)).toEqual(others);
    expect(editor.logged.filter((line) => line.includes('it is not a function'))).toHaveLength(1);
    expect(editor.shown).toEqual([]);
  });

  test('is said in the list of jobs instead of what would not hold', async () => {
    editor = await new Editor(given()).start();
    await editor.typed(badText);
    const { entries } = await editor.client.sendRequest<{ entries: { uri: string }[] }>('framewright/jobs');
    const [entry] = entries.filter((each) => each.uri === uri);
    expect(entry).toMatchObject({ kind: 'unreadable', message: expect.stringMatching(says) });
    expect(entries.filter((each) => 'kind' in each && each.kind === 'job')).toHaveLength(3);
  });
});

test('findings that cannot be published are not left as they were: the version says that it is not judged', async () => {
  editor = await new Editor(ownJudges, failsToPublish).start();
  const [only, ...more] = await editor.typed(`${texts[uri]}# now\n`);
  expect(only.message).toMatch(/^not judged: the program failed in telling what was found \(Error: cannot/);
  expect(more).toEqual([]);
});

test('a feature that throws answers its own question with an error, and the next one is answered', async () => {
  editor = await new Editor(ownJudges, (connection) => connection.onHover(fails)).start();
  await expect(hover()).rejects.toThrow('it is not a function');
  const symbols = await editor.client.sendRequest('textDocument/documentSymbol', {
    textDocument: { uri: beside },
  });
  expect(symbols).not.toEqual([]);
  expect(codes(await editor.typed(`${texts[uri]}# later\n`))).toContain('reading/outside');
});

test('a timer that throws is logged, told once, and the session goes on', async () => {
  editor = await new Editor(ownJudges, (connection) => {
    const send = connection.sendNotification.bind(connection) as (...all: unknown[]) => Promise<void>;
    connection.sendNotification = ((...all: unknown[]) =>
      all[0] === 'framewright/jobsChanged' ? fails() : send(...all)) as Connection['sendNotification'];
  }).start();
  await editor.client.sendRequest('framewright/jobs');
  for (const round of ['first', 'second']) {
    const before = editor.published.length;
    await editor.typed(`${texts[uri]}# ${round}\n`);
    expect(editor.published.length).toBeGreaterThan(before);
    await editor.until(() => editor.logged.some((line) => line.startsWith('the list of jobs: TypeError')));
  }
  expect(editor.shown).toEqual([
    expect.stringMatching(/A part of Framewright failed; the rest goes on.*report/),
  ]);
});

test('an editor that refuses to show things anew is not asked to show a fault', async () => {
  editor = await new Editor(ownJudges).start();
  await editor.until(
    () => editor.logged.filter((line) => line.includes('the editor would rather not')).length === 2,
  );
  expect(editor.shown).toEqual([]);
  expect(codes(await editor.typed(`${texts[uri]}# later\n`))).toContain('reading/outside');
});
