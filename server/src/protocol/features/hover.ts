import { hoverAt } from '../../editor/hover/hover';
import { hoverOf } from '../convert';
import { asked, seen } from '../session';
import type { Feature } from './feature';

export const hover: Feature = {
  capabilities: { hoverProvider: true },
  register: (session) =>
    session.connection.onHover(async ({ textDocument, position }) => {
      const shown = await seen(session, textDocument.uri);
      const isTyped = shown?.row?.line === position.line;
      const found = isTyped ? await asked(session, textDocument.uri) : shown;
      if (found === null) return null;
      const { analysis, lines } = found;
      const text = hoverAt(analysis, lines.offsetAt(position.line, position.character));
      return text && hoverOf(text, lines, session.able());
    }),
};
