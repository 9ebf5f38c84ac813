import type { Listing, ListingChange } from '@framewright/schemas/wire';
import { commands, type Disposable, EventEmitter, Uri } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { output } from '../output';
import { type Change, EntryList } from './job-entries';

/** The list of jobs and chassis files, kept up by what the server tells. */
export class JobList extends EntryList implements Disposable {
  private readonly changes = new EventEmitter<Change>();
  /** Null: files came, went or changed their order. */
  readonly onDidChange = this.changes.event;

  constructor() {
    super((uri) => Uri.parse(uri).toString());
  }

  /** Before a server starts: nothing that another one said holds any more. */
  listenTo(client: BaseLanguageClient): void {
    this.take();
    void saidToBeListed(false);
    this.changes.fire(null);
    client.onNotification('framewright/jobsChanged', (change: ListingChange) => {
      this.changes.fire(this.apply(change));
    });
  }

  /** The first listing of a server that has started; all later ones it sends by itself. */
  async ask(client: BaseLanguageClient): Promise<void> {
    try {
      this.take(await client.sendRequest<Listing>('framewright/jobs', {}));
      this.changes.fire(null);
      await saidToBeListed(true);
    } catch (reason) {
      output().warn(`The jobs of the workspace could not be listed: ${reason}`);
    }
  }

  dispose(): void {
    this.changes.dispose();
  }
}

/** Before that nobody knows whether there is a job, and no view may say that there is none. */
const saidToBeListed = (isListed: boolean): Thenable<unknown> =>
  commands.executeCommand('setContext', 'framewright.listed', isListed);
