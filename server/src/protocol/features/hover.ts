import { hoverAt } from '../../editor/hover/hover';
import type { HoverText } from '../../editor/hover/hover-text';
import { vehicleHover } from '../../editor/hover/hover-vehicle';
import type { Analysis } from '../../workspace/workspace';
import { hoverOf } from '../convert';
import { revisionOf } from '../earlier-revisions';
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
      const offset = lines.offsetAt(position.line, position.character);
      const { workspace } = session;
      const text =
        unjudgedRevision(textDocument.uri, analysis) ??
        (await vehicleHover(analysis, offset, {
          list: (folder) => workspace.filesIn(folder, true),
          read: (uri) => workspace.read(uri),
          root: (uri) => workspace.rootOf(uri),
        })) ??
        hoverAt(analysis, offset);
      return text && hoverOf(text, lines, session.able());
    }),
};

/** Of an earlier revision nothing is told as a finding: that it cannot be judged is said here. Null where it is judged. */
function unjudgedRevision(uri: string, analysis: Analysis): HoverText | null {
  if (analysis.kind !== 'readings' || analysis.inspection !== null || revisionOf(uri) === null) return null;
  return {
    markdown: 'The chassis file of this revision cannot be read: nothing is judged here.',
    range: { start: 0, end: analysis.text.length },
  };
}
