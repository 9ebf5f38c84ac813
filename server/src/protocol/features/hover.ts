import { hoverAt } from '../../editor/hover/hover';
import { vehicleHover } from '../../editor/hover/hover-vehicle';
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
      const offset = lines.offsetAt(position.line, position.character);
      const { workspace } = session;
      const text =
        (await vehicleHover(analysis, offset, {
          list: (folder) => workspace.filesIn(folder, true),
          read: (uri) => workspace.read(uri),
          root: (uri) => workspace.rootOf(uri),
        })) ?? hoverAt(analysis, offset);
      return text && hoverOf(text, lines, session.able());
    }),
};
