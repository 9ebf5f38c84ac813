import { type CodeLens, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { type Lens, type LensWords, lensesOf, lensWords } from '../../editor/show/code-lens';
import { pointTally, tallyText } from '../../editor/show/point-tally';
import { rangeOf } from '../convert';
import { queryOfRequest } from '../query-of-request';
import { type Session, seen } from '../session';
import type { Feature } from './feature';

/** What comes back with a lens that has come into view. */
interface Shown {
  readonly uri: string;
  readonly about: Lens['about'];
  readonly listing: number;
}

type Tallied = ReturnType<typeof pointTally>;

/** Above measures, parts and points of a chassis; words that are dear are found for those in view only. */
export const codeLens: Feature = {
  capabilities: { codeLensProvider: { resolveProvider: true } },
  register: (session) => {
    const listings = new Listings(session);
    session.documents.onDidClose(({ document }) => listings.forget(document.uri));
    session.connection.onCodeLens(async ({ textDocument: { uri } }) => {
      const found = await seen(session, uri);
      if (found === null) return null;
      const listing = listings.next(uri);
      return lensesOf(found.analysis, new Set(session.options().shows)).map(
        ({ range, about }): CodeLens => ({
          range: rangeOf(range, found.lines),
          data: { uri, about, listing } satisfies Shown,
        }),
      );
    });
    session.connection.onCodeLensResolve(async (lens): Promise<CodeLens> => {
      const shown = lens.data as Shown;
      const { title, leads } = (await words(session, listings, shown)) ?? { title: '', leads: null };
      const { shows } = session.options();
      const command =
        leads === null || !shows.includes(leads.command)
          ? { title, command: '' }
          : { title, command: leads.command, arguments: [shown.uri, ...leads.with] };
      return { ...lens, command };
    });
  },
};

async function words(
  session: Session,
  listings: Listings,
  { uri, about, listing }: Shown,
): Promise<LensWords | null> {
  if (about.kind === 'point') {
    const title = tallyText(about.name, await listings.tally(uri, listing));
    return { title: title ?? '', leads: { command: 'framewright.showUses', with: [about.name] } };
  }
  const found = await seen(session, uri);
  return found?.analysis.kind === 'readings' ? lensWords(found.analysis, about) : null;
}

/** The jobs are gone through once for all lenses of one listing; a newer listing of the same file ends that. */
class Listings {
  private count = 0;
  private readonly newest = new Map<string, { listing: number; tally: Tallied | null }>();

  constructor(private readonly session: Session) {}

  next(uri: string): number {
    this.newest.set(uri, { listing: ++this.count, tally: null });
    return this.count;
  }

  forget(uri: string): void {
    this.newest.delete(uri);
  }

  tally(uri: string, listing: number): Tallied {
    const known = this.newest.get(uri);
    if (known?.listing !== listing) throw outdated();
    const isOutdated = (): boolean => this.newest.get(uri)?.listing !== listing;
    const token = {
      get isCancellationRequested(): boolean {
        return isOutdated();
      },
      onCancellationRequested: () => ({ dispose: () => {} }),
    };
    known.tally ??= pointTally(queryOfRequest(this.session, token), uri);
    return known.tally;
  }
}

const outdated = (): ResponseError<void> =>
  new ResponseError(LSPErrorCodes.ContentModified, 'a newer list of lenses was asked for');
