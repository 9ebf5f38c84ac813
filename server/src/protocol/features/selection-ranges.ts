import type { SelectionRange } from 'vscode-languageserver';
import { selectionsAt } from '../../editor/show/selection-ranges';
import { rangeOf } from '../convert';
import { asked } from '../session';
import type { Feature } from './feature';

export const selectionRanges: Feature = {
  capabilities: { selectionRangeProvider: true },
  register: (session) =>
    session.connection.onSelectionRanges(async ({ textDocument, positions }) => {
      const found = await asked(session, textDocument.uri);
      if (found === null) return null;
      const { analysis, lines } = found;
      return positions.map(({ line, character }) => {
        const outermostFirst = selectionsAt(analysis, lines.offsetAt(line, character)).reverse();
        return outermostFirst.reduce<SelectionRange | undefined>(
          (parent, range) => ({ range: rangeOf(range, lines), parent }),
          undefined,
        )!;
      });
    }),
};
