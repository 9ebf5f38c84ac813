import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { type EditKind, editKinds, editsOf, spoilt } from './edits';
import { jobOf, outsideShare } from './generate';
import { jsonText, yamlText } from './job';
import { LanguageClient } from './language-client';
import type { ServerKind } from './servers';
import type { Splice } from './splice';

/** What one server did with one file. */
export interface ServerTimes {
  readonly server: ServerKind;
  readonly openMs: number[];
  readonly editMs: Record<EditKind, number[]>;
  /** The first edits of the session, of all kinds in turn: nothing is warm. Of ours alone. */
  readonly firstMs: number[];
  peakMemoryMb: number | null;
  /** Diagnostics at the first opening. */
  diagnostics: number;
}

export interface FileTimes {
  readonly readings: number;
  readonly outside: boolean;
  readonly servers: readonly ServerTimes[];
}

/** A quick typist's next key, ms. */
const betweenEditsMs = 25;
/** Edits of each kind that are not counted: a program that Node has not translated yet is slower. Peers get one. */
export const warmUps = 20;
/** Edits of a session that are told of apart, before any other. */
const firstEdits = 25;
/** Between starting a server and opening a file: its programs are loaded, its settings known. */
const settledMs = 800;

/** Opens one file in each server and edits it, the servers taking turns. */
export async function fileTimes(
  folder: string,
  kinds: readonly ServerKind[],
  { readings, outside, quick }: { readings: number; outside: boolean; quick: boolean },
): Promise<FileTimes> {
  const isHuge = readings > 20_000;
  const openings = quick || isHuge ? 2 : 3;
  const rounds = quick ? 2 : isHuge ? 3 : 5;
  const { body, job, chassisName } = jobOf(readings, outside ? outsideShare : 0);
  const shop = path.join(folder, `${readings}-${outside}`);
  mkdirSync(shop);
  writeFileSync(path.join(shop, chassisName), body.chassis);
  const texts = { yaml: yamlText(job), json: jsonText(job) };
  const idsWhere = (isControl: boolean) =>
    body.points
      .filter((point) => point.isControl === isControl)
      .flatMap(({ name }) => [`${name}.L`, `${name}.R`]);
  const ids = { judged: idsWhere(false), control: idsWhere(true) };

  const runs = kinds.map((server) => {
    const file = path.join(shop, `w-3000.readings.${server.text}`);
    writeFileSync(file, texts[server.text]);
    const edits = editKinds.map((kind, seed) => ({ kind, edit: editsOf(kind, server.text, ids, seed + 1) }));
    const editMs = Object.fromEntries(
      editKinds.map((kind) => [kind, [] as number[]]),
    ) as ServerTimes['editMs'];
    const times: ServerTimes = {
      server,
      openMs: [],
      editMs,
      firstMs: [],
      peakMemoryMb: null,
      diagnostics: 0,
    };
    return { server, file, edits, times };
  });
  type Run = (typeof runs)[number];

  const opened = async ({ server, file, times }: Run): Promise<LanguageClient> => {
    const client = await LanguageClient.started(server, shop);
    await pause(settledMs);
    const { milliseconds, diagnostics } = await client.open(file, texts[server.text]);
    times.openMs.push(milliseconds);
    times.diagnostics = diagnostics.length;
    return client;
  };
  const edited = async (run: Run, client: LanguageClient, times: number, counts: boolean): Promise<void> => {
    for (const { kind, edit } of run.edits) {
      for (let time = 0; time < times; time++) {
        await pause(betweenEditsMs);
        const { milliseconds } = await client.edit(edit);
        if (counts) run.times.editMs[kind].push(milliseconds);
      }
    }
  };

  for (let opening = 1; opening < openings; opening++)
    for (const run of runs) await (await opened(run)).end();
  const clients: LanguageClient[] = [];
  try {
    for (const run of runs) {
      const client = await opened(run);
      clients.push(client);
      await pause(settledMs);
      if (run.server.isOurs)
        run.times.firstMs.push(
          ...(await firstTimes(
            client,
            run.edits.map(({ edit }) => edit),
          )),
        );
      await edited(run, client, run.server.isOurs ? warmUps : 1, false);
    }
    for (let round = 0; round < rounds; round++)
      for (const [index, run] of runs.entries())
        await edited(run, clients[index], run.server.isOurs ? 8 : 1, true);
    for (const [index, { server, times }] of runs.entries()) {
      times.peakMemoryMb = clients[index].peakMemoryMb();
      // a server that does not check the format would be compared unjustly
      const { diagnostics } = await clients[index].edit(spoilt(server.text));
      if (diagnostics.length <= times.diagnostics)
        throw new Error(`${server.name} does not check the format`);
    }
  } finally {
    for (const client of clients) await client.end();
  }
  return { readings, outside, servers: runs.map(({ times }) => times) };
}

/** A session's first edits, of all kinds in turn, ms. */
async function firstTimes(
  client: LanguageClient,
  edits: readonly ((text: string) => Splice)[],
): Promise<number[]> {
  const times: number[] = [];
  for (let time = 0; time < firstEdits; time++) {
    await pause(betweenEditsMs);
    times.push((await client.edit(edits[time % edits.length])).milliseconds);
  }
  return times;
}
