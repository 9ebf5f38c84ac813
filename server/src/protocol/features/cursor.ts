import type { CursorNote } from '@framewright/schemas/wire';
import type { Feature } from './feature';

/**
 * Where somebody types: an editor that said `tellsCursor` at its start is not told of a row before it is complete or left.
 *
 * - the editor tells `framewright/cursor` { uri, line } (`CursorNote` in `schemas/src/wire.ts`) whenever the cursor comes to another line
 */
export const cursor: Feature = {
  capabilities: {},
  register: (session) => {
    session.connection.onNotification('framewright/cursor', ({ uri, line }: CursorNote) =>
      session.cursorAt(uri, line),
    );
  },
};
