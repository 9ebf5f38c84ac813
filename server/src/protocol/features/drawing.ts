import type * as wire from '@framewright/schemas/wire';
import { type DrawingAnswer, drawingAnswer } from '../../editor/show/drawing';
import { drawnPlace } from '../../editor/show/drawing-text';
import { drawingStyles } from '../../report/drawing/drawing-styles';
import { sheetPatch } from '../../report/sheet';
import { linesOf } from '../../text/lines';
import { offsetsOf } from '../../text/tree';
import { unawaited } from '../../workspace/unawaited';
import { canonicalUri } from '../../workspace/uris';
import { rangeOf } from '../convert';
import { asked, type Session } from '../session';
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
        const found = await asked(session, uri);
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

function answerPlaces(session: Session): void {
  session.connection.onRequest(
    'framewright/drawingPlace',
    async ({
      uri,
      stage,
      point,
      to,
    }: {
      uri: string;
      stage: number | null;
      point: string;
      to?: string | null;
    }): Promise<wire.FilePlace | null> => {
      const found = await asked(session, uri);
      const at = found && drawnPlace(found.analysis, stage, point, to);
      if (!found || at === null) return null;
      if (at.uri === uri) return { uri, range: rangeOf(offsetsOf(at.place), found.lines) };
      const other = await session.workspace.read(at.uri);
      return other.kind === 'text'
        ? { uri: at.uri, range: rangeOf(offsetsOf(at.place), linesOf(other.text)) }
        : null;
    },
  );
}
