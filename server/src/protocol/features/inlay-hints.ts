import type { InlayHint } from 'vscode-languageserver';
import { type HintChoice, inlayHints as hintsIn } from '../../editor/show/inlay-hints';
import type { Verdict } from '../../inspection/alignment/verdict';
import { type Session, seen } from '../session';
import type { Feature } from './feature';

/** How far off each reading is, beside it, as far as the editor's user wants it. */
export const inlayHints: Feature = {
  capabilities: { inlayHintProvider: true },
  register: (session) =>
    session.connection.languages.inlayHint.on(async ({ textDocument, range: { start, end } }) => {
      const found = await seen(session, textDocument.uri);
      if (found?.analysis.kind !== 'readings') return null;
      const { analysis, lines, row } = found;
      const range = {
        start: lines.offsetAt(start.line, start.character),
        end: lines.offsetAt(end.line, end.character),
      };
      const hints = hintsIn(analysis, range, choiceOf(session)).map(
        ({ offset, text, tooltip, verdict }): InlayHint => ({
          position: lines.positionAt(offset),
          label: unbroken(`${signs[verdict]}${text}`),
          tooltip,
          paddingLeft: true,
          data: verdict,
        }),
      );
      return hints.filter(({ position }) => position.line !== row?.line);
    }),
};

/** What is past its limit, or may be, is told by a sign. */
const signs: Readonly<Record<Verdict, string>> = { outside: '! ', undecided: '? ', within: '', unjudged: '' };

/** A figure without its word, at the end of a wrapped line, would read as another. */
const unbroken = (text: string): string => text.replaceAll(' ', '\u00A0');

function choiceOf(session: Session): HintChoice {
  const { stages, certainty, show } = (session.configuration().inlayHints ?? {}) as Partial<HintChoice>;
  return {
    stages: stages === 'off' || stages === 'all' ? stages : 'newest',
    certainty: certainty === true,
    show: show === 'not-within' ? show : 'all',
  };
}
