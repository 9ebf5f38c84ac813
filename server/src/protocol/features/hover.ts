import { hoverAt } from '../../editor/hover/hover';
import { hoverOf } from '../convert';
import { asked } from '../session';
import type { Feature } from './feature';

export const hover: Feature = {
  capabilities: { hoverProvider: true },
  register: (session) =>
    session.connection.onHover(async ({ textDocument, position }) => {
      const found = await asked(session, textDocument.uri);
      if (found === null) return null;
      const { analysis, lines } = found;
      const text = hoverAt(analysis, lines.offsetAt(position.line, position.character));
      return text && hoverOf(text, lines, session.able());
    }),
};
