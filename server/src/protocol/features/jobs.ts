import {
  type CancellationToken,
  type Connection,
  LSPErrorCodes,
  type Range,
  ResponseError,
} from 'vscode-languageserver';
import { fileEntry, pointEntries } from '../../editor/jobs';
import { outsidePlaces } from '../../editor/outside';
import { linesOf } from '../../text/lines';
import { Survey } from '../../workspace/survey';
import { rangeOf } from '../convert';
import { asked, type Session } from '../session';
import type { Feature } from './feature';

/** So many files are listed; a workspace with more is told so. */
const mostFiles = 5000;

/**
 * What the views of an editor show, as plain data.
 *
 * - `framewright/jobFiles` {} → { uris, left }: jobs and chassis files of the workspace; `left`: how many beyond the most
 * - `framewright/jobEntries` { uris } → { entries }: a line for each; asked for in small portions, so that edits go between
 * - `framewright/chassisPoints` { uri } → { points }
 * - `framewright/outside` { uri } → { places }: rows outside tolerance of a document
 */
export const jobs: Feature = {
  capabilities: {},
  register: (session) => {
    const { connection, workspace } = session;
    connection.onRequest('framewright/jobFiles', async (_: unknown, token: CancellationToken) => {
      const survey = new Survey(workspace, session.roots(), () => turn(token));
      const found = (await survey.uris([], false)).filter((uri) => workspace.kindOf(uri) !== 'settings');
      return { uris: found.slice(0, mostFiles), left: Math.max(0, found.length - mostFiles) };
    });
    connection.onRequest(
      'framewright/jobEntries',
      async ({ uris }: { uris: string[] }, token: CancellationToken) => {
        const entries = [];
        for (const uri of uris) {
          await turn(token);
          entries.push(await entryOf(session, uri));
        }
        return { entries };
      },
    );
    answerPlaces(session, connection);
  },
};

function answerPlaces(session: Session, connection: Connection): void {
  connection.onRequest('framewright/chassisPoints', async ({ uri }: { uri: string }) => {
    const found = await asked(session, uri);
    if (found?.analysis.kind !== 'chassis') return { points: [] };
    const { lines } = found;
    return {
      points: pointEntries(found.analysis).map((point) => ({
        ...point,
        range: point.range && rangeOf(point.range, lines),
      })),
    };
  });
  connection.onRequest('framewright/outside', async ({ uri }: { uri: string }) => {
    const found = await asked(session, uri);
    if (found === null) return { places: [] };
    const { analysis, lines } = found;
    return {
      places: outsidePlaces(analysis).map(({ range, words }) => ({ words, range: rangeOf(range, lines) })),
    };
  });
}

/** A line of the list, its offsets as positions; what cannot be read says why. */
async function entryOf(session: Session, uri: string): Promise<object> {
  const isOpen = session.documents.get(uri) !== undefined;
  const analysis = (isOpen ? await session.current(uri) : null) ?? (await session.workspace.analysis(uri));
  if (!('findings' in analysis)) return { kind: 'unreadable', uri, message: analysis.message };
  const entry = fileEntry(analysis);
  if (entry === null) return { kind: 'unreadable', uri, message: 'it is neither a job nor a chassis file' };
  if (entry.kind !== 'job' || entry.worst === null) return entry;
  const range: Range = rangeOf(entry.worst.range, linesOf(analysis.text));
  return { ...entry, worst: { ...entry.worst, range } };
}

/** Lets what is waiting go first, and ends where nobody waits for the answer any more. */
async function turn(token: CancellationToken): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, 0));
  if (token.isCancellationRequested)
    throw new ResponseError(LSPErrorCodes.RequestCancelled, 'nobody waits for this any more');
}
