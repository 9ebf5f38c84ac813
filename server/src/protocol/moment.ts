import type { Moment } from '../editor/actions/code-action';
import type { Session } from './session';

/** The one place where the clock is asked: what is written into a file gets its day from here. */
export const momentOf = (session: Session): Moment => ({
  today: new Date().toISOString().slice(0, 10),
  shows: new Set(session.options().shows),
});
