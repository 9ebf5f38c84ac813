import { type Connection, MessageType, ShowMessageNotification } from 'vscode-languageserver';
import { errorTrace } from '../text/error-words';
import { unawaited } from '../workspace/unawaited';

/** So many different faults are logged: one that comes with each keystroke must not fill the log. */
const mostLogged = 100;

const told =
  'A part of Framewright failed; the rest goes on. Please report it, with the text of the output channel.';

/** Faults of the program in one session: each is logged once, and the person told once that there was one. */
export class Faults {
  private readonly logged = new Set<string>();
  private isTold = false;

  constructor(private readonly connection: Connection) {}

  /** For what is told elsewhere, as by a finding, or what the editor refused. */
  readonly log = (where: string, error: unknown): void => {
    const words = `${where}: ${errorTrace(error)}`;
    if (this.logged.has(words) || this.logged.size >= mostLogged) return;
    this.logged.add(words);
    this.say(() => this.connection.console.error(words));
  };

  /** For what nobody else tells of. */
  readonly stray = (where: string, error: unknown): void => {
    this.log(where, error);
    if (this.isTold) return;
    this.isTold = true;
    this.say(() => {
      const shown = { type: MessageType.Error, message: told } as const;
      unawaited(this.connection.sendNotification(ShowMessageNotification.type, shown), () => {});
    });
  };

  /** Where the editor has gone there is nobody to tell, and telling must not be a fault of its own. */
  private say(act: () => void): void {
    try {
      act();
    } catch {}
  }
}
