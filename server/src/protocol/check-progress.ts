import type { Connection, WorkDoneProgressServerReporter } from 'vscode-languageserver';
import { errorWords } from '../text/error-words';
import { unawaited } from '../workspace/unawaited';

/** A check of fewer files is over before a person has read of it. */
const fewestShown = 50;
/** Editors show what can be stopped in a window of its own: only worth it where there is time to. */
const fewestToStop = 500;
const betweenReportsMs = 100;

/** How far the check of the workspace has come, in the editor's own way of showing it. */
export class CheckProgress {
  /** Stands for the check that is shown, from the asking on. */
  private shown: object | null = null;
  private reporter: WorkDoneProgressServerReporter | null = null;
  private reportedAt = 0;
  private percentage = 0;
  private latest: readonly [done: number, of: number] = [0, 0];

  constructor(
    private readonly connection: Connection,
    private readonly stop: () => void,
  ) {}

  show(done: number, of: number): void {
    this.latest = [done, of];
    if (done >= of) this.end();
    else if (this.shown === null && of - done >= fewestShown)
      unawaited(this.begin(of - done >= fewestToStop), (error) =>
        this.connection.console.warn(`no progress is shown: ${errorWords(error)}`),
      );
    else this.report();
  }

  private async begin(canBeStopped: boolean): Promise<void> {
    const own = {};
    this.shown = own;
    const reporter = await this.connection.window.createWorkDoneProgress();
    // over before the editor was ready to show it
    if (this.shown !== own) return;
    this.reporter = reporter;
    this.percentage = 0;
    reporter.begin('Framewright: checking the workspace', 0, undefined, canBeStopped);
    reporter.token.onCancellationRequested(this.stop);
    this.report();
  }

  private report(): void {
    if (this.reporter === null || Date.now() - this.reportedAt < betweenReportsMs) return;
    this.reportedAt = Date.now();
    const [done, of] = this.latest;
    // more files may have become due: what was shown is not taken back
    this.percentage = Math.max(this.percentage, Math.floor((100 * done) / of));
    this.reporter.report(this.percentage, `${done} of ${of} files`);
  }

  private end(): void {
    this.reporter?.done();
    this.reporter = null;
    this.shown = null;
  }
}
