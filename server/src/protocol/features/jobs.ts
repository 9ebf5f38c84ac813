import type { ChassisPoints, Entry, Listing, OutsidePlace } from '@framewright/schemas/wire';
import type { CancellationToken, Connection } from 'vscode-languageserver';
import { pointEntries } from '../../editor/show/jobs';
import { outsidePlaces } from '../../editor/show/outside';
import { readingOrder } from '../../inspection/job/reading-order';
import { throwIfCancelled } from '../cancellation';
import { rangeOf } from '../convert';
import { entryOf } from '../job-entry';
import { nextTurn } from '../next-turn';
import { asked, type Session } from '../session';
import type { Feature } from './feature';

const folders = { filters: [{ pattern: { glob: '**', matches: 'folder' as const } }] };

/**
 * What the views of an editor show, as plain data. Ranges are in lines and characters.
 *
 * - `framewright/jobs` {} → { entries: Entry[], left, unread, checking }: every job and chassis file of the workspace's folders, and each that
 *   is open, in the order of their URIs. From small summaries: nothing is read for it. `left`: how many files there are beyond the most
 *   that are looked after; `unread`: { uri, message }[], folders and links that were not looked
 *   into; `checking`: some are still to be looked at. From the first such request on the editor is told
 * - `framewright/jobsChanged` { entries: Entry[], gone: uri[], left, unread, checking }: what changed since; `gone` is dropped first, then entries
 *   take the place of those with the same URI. Several changes are told at once.
 * - `framewright/jobEntries` { uris } → { entries: Entry[] }: these files, looked at where they were not; in small portions, please
 * - `framewright/chassisPoints` { uri } → { points: { id, position, part, base, range }[], order: id[] }: in the order of the file, and that of reading
 * - `framewright/outside` { uri } → { places: { range, words }[] }: rows outside tolerance of a document
 * - the editor may tell `framewright/checkWorkspace` {}: list and look at everything anew
 *
 * An Entry is one of (see `schemas/src/wire.ts`)
 * - { kind: 'job', uri, order, state, stage, counts: { within, outside, undecided, unjudged }, worst: { id, words, range } | null,
 *   remaining, chassis, errors, warnings }; `state`: open, ready, signed, sign-off-fails, text-errors, no-chassis, unmeasured
 * - { kind: 'chassis', uri, vehicle, points, controlPoints, errors, warnings }
 * - { kind: 'unreadable', uri, message }
 * - { kind: 'unchecked', uri, of: 'job' | 'chassis' }
 */
export const jobs: Feature = {
  capabilities: {
    // a folder that goes takes its files with it, and those are not told of
    workspace: { fileOperations: { didDelete: folders, didRename: folders } },
  },
  register: (session) => {
    const { connection, repository } = session;
    connection.onRequest('framewright/jobs', (): Promise<Listing> => repository.jobs());
    connection.onRequest(
      'framewright/jobEntries',
      async ({ uris }: { uris: string[] }, token: CancellationToken): Promise<{ entries: Entry[] }> => {
        const entries: Entry[] = [];
        for (const uri of uris) {
          await turn(token);
          entries.push(await entryNow(session, uri));
        }
        return { entries };
      },
    );
    connection.onNotification('framewright/checkWorkspace', () => session.checkAll());
    connection.workspace.onDidDeleteFiles(() => repository.listAgain());
    connection.workspace.onDidRenameFiles(() => repository.listAgain());
    answerPlaces(session, connection);
  },
};

function answerPlaces(session: Session, connection: Connection): void {
  connection.onRequest(
    'framewright/chassisPoints',
    async ({ uri }: { uri: string }): Promise<ChassisPoints> => {
      const found = await asked(session, uri);
      if (found?.analysis.kind !== 'chassis') return { points: [], order: [] };
      const { lines } = found;
      return {
        points: pointEntries(found.analysis).map((point) => ({
          ...point,
          range: point.range && rangeOf(point.range, lines),
        })),
        order: readingOrder(found.analysis.chassis),
      };
    },
  );
  connection.onRequest(
    'framewright/outside',
    async ({ uri }: { uri: string }): Promise<{ places: OutsidePlace[] }> => {
      const found = await asked(session, uri);
      if (found === null) return { places: [] };
      const { analysis, lines } = found;
      return {
        places: outsidePlaces(analysis).map(({ range, words }) => ({ words, range: rangeOf(range, lines) })),
      };
    },
  );
}

/** A file's line as it stands now; what cannot be read says why. */
async function entryNow(session: Session, uri: string): Promise<Entry> {
  if (!session.isFile(uri)) return { kind: 'unreadable', uri, message: 'it is not a file of the workspace' };
  const isOpen = session.documents.get(uri) !== undefined;
  const known = isOpen ? null : session.repository.knownEntry(uri);
  if (known !== null) return known;
  const found =
    (isOpen ? (await session.shown(uri))?.analysis : null) ?? (await session.workspace.analysis(uri));
  return (
    entryOf(uri, found) ?? { kind: 'unreadable', uri, message: 'it is neither a job nor a chassis file' }
  );
}

/** Lets what is waiting go first, and ends where nobody waits for the answer any more. */
async function turn(token: CancellationToken): Promise<void> {
  await new Promise<void>(nextTurn);
  throwIfCancelled(token);
}
