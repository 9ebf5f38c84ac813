import type * as wire from '@framewright/schemas/wire';
import { type DrawingAnswer, drawingAnswer } from '../../editor/show/drawing';
import { drawnPlace, referencePlace } from '../../editor/show/drawing-text';
import { drawingStyles } from '../../report/drawing/drawing-styles';
import { sheetPatch } from '../../report/sheet';
import { type LineTable, linesOf } from '../../text/lines';
import { offsetsOf, type Place } from '../../text/tree';
import { unawaited } from '../../workspace/unawaited';
import { canonicalUri } from '../../workspace/uris';
import type { Analysis } from '../../workspace/workspace';
import { rangeOf } from '../convert';
import { asked, type Session, seen } from '../session';
import type { Feature } from './feature';

/** So many views are kept in mind; one beyond them is sent whole again. */
const mostViews = 8;

/** What a view shows. */
interface Shown {
  readonly uri: string;
  readonly revision: number;
  readonly answer: DrawingAnswer;
  /** Other files. */
  readonly madeFrom: readonly string[];
}

/**
 * The live drawing of a job or a chassis.
 *
 * - `framewright/drawing` { uri, view, known, section, stage, over, selected, cursor, cursorStage, width } → what is to be shown, as
 *   patches to what the view shows at the revision that it knows; null for a file without a drawing
 * - `framewright/drawingPlace` { uri, stage, point, to? } → { uri, range } of what the text says of a point, or of its distance to
 *   another, or null
 * - `framewright/referencePlace` { uri, point } → { uri, range } of where the chassis files state it, or null
 * - `framewright/drawingChanged` { uri }, to the editor: a document that was drawn has to be drawn anew
 */
export const drawing: Feature = {
  capabilities: {},
  register: (session) => {
    const { connection } = session;
    const shown = new Map<string, Shown>();
    let revision = 0;
    connection.onRequest(
      'framewright/drawing',
      async (question: wire.DrawingQuestion): Promise<wire.DrawingAnswer | null> => {
        const { uri, view, known } = question;
        const found = await seen(session, uri);
        if (found === null) return null;
        const cursor =
          question.cursor && found.lines.offsetAt(question.cursor.line, question.cursor.character);
        const last = shown.get(view);
        const before = last !== undefined && last.revision === known ? last.answer : null;
        const answer = drawingAnswer(found.analysis, { ...question, cursor, before });
        if (answer === null) return null;
        revision++;
        // put at the end: the view that was not asked for longest is the first to go
        shown.delete(view);
        shown.set(view, { uri, revision, answer, madeFrom: found.analysis.dependencies.map(canonicalUri) });
        for (const [oldest] of shown) if (shown.size > mostViews) shown.delete(oldest);
        const { drawing: _, sheets, ...plain } = answer;
        const old = new Map(before?.sheets.map((each) => [each.name, each]));
        return {
          ...plain,
          revision,
          sheets: sheets.flatMap((each) => sheetPatch(old.get(each.name) ?? null, each) ?? []),
          names: sheets.map(({ name }) => name),
          styles: known === null ? drawingStyles : null,
        };
      },
    );
    const tell = (uri: string): void =>
      unawaited(connection.sendNotification('framewright/drawingChanged', { uri }), (error) =>
        session.faults.log(uri, error),
      );
    session.onLooked((uri) => {
      if ([...shown.values()].some((each) => each.uri === uri)) tell(uri);
    });
    session.onChanged((changed) => {
      const canonical = canonicalUri(changed);
      const isOf = (each: Shown) => canonicalUri(each.uri) === canonical || each.madeFrom.includes(canonical);
      // of one that is open it is told when it was looked at again
      for (const uri of new Set([...shown.values()].filter(isOf).map((each) => each.uri)))
        if (!session.documents.get(uri)) tell(uri);
    });
    answerPlaces(session);
  },
};

interface PlaceQuestion {
  readonly uri: string;
  readonly stage: number | null;
  readonly point: string;
  readonly to?: string | null;
}

function answerPlaces(session: Session): void {
  const { connection } = session;
  connection.onRequest('framewright/drawingPlace', async ({ uri, stage, point, to }: PlaceQuestion) => {
    const found = await asked(session, uri);
    return found && filePlace(session, found, drawnPlace(found.analysis, stage, point, to));
  });
  connection.onRequest(
    'framewright/referencePlace',
    async ({ uri, point }: { uri: string; point: string }) => {
      const found = await asked(session, uri);
      return found && filePlace(session, found, referencePlace(found.analysis, point));
    },
  );
}

/** A place in lines and characters; null where its file cannot be read. */
async function filePlace(
  session: Session,
  { analysis, lines }: { readonly analysis: Analysis; readonly lines: LineTable },
  at: { readonly uri: string; readonly place: Place } | null,
): Promise<wire.FilePlace | null> {
  if (at === null) return null;
  if (at.uri === analysis.uri) return { uri: at.uri, range: rangeOf(offsetsOf(at.place), lines) };
  const other = await session.workspace.read(at.uri);
  return other.kind === 'text'
    ? { uri: at.uri, range: rangeOf(offsetsOf(at.place), linesOf(other.text)) }
    : null;
}
