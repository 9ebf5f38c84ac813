import type { FollowAnswer, FollowMark, FollowQuestion } from '@framewright/schemas/wire';
import { commands, type Disposable, l10n, StatusBarAlignment, type Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { makeEdits } from '../answers';
import { openJob } from '../jobs/open-job';
import { type NamedFile, uriOf } from '../named-file';
import { output } from '../output';
import { type FollowState, followText, followTip } from './follow-words';
import { askedTable, nameOf, tableBytes } from './table-file';

/** How often the table is looked at, ms: files outside of the workspace, and of some virtual ones, tell of no change. */
const everyMs = 700;

type Since = FollowMark | 'now' | null;

/** *Follow Table…*: rows go into a job as a table grows, until it is stopped. One table at a time. */
export const followCommands = (client: () => BaseLanguageClient | undefined): Disposable[] => {
  let following: Following | undefined;
  const stop = (why?: string): void => {
    if (why !== undefined && following)
      void window.showWarningMessage(l10n.t('{0} is no longer followed: {1}.', following.name, why));
    following?.dispose();
    following = undefined;
    void commands.executeCommand('setContext', 'framewright.following', false);
  };
  return [
    commands.registerCommand('framewright.followTable', async (named?: NamedFile, given?: Uri) => {
      const job = uriOf(named) ?? (await openJob())?.document.uri;
      if (!job) {
        void window.showInformationMessage(l10n.t('Open a job first: the rows of the table go into it.'));
        return;
      }
      const table = given ?? (await askedTable(l10n.t('Follow Table'), job));
      const since = table && (await sinceWhen(table));
      if (!table || since === undefined) return;
      stop();
      following = new Following({ job, table, client, ended: stop }, since);
      void commands.executeCommand('setContext', 'framewright.following', true);
    }),
    commands.registerCommand('framewright.stopFollowing', () => stop()),
    workspace.onDidCloseTextDocument(({ uri }) => {
      if (following?.isInto(uri)) stop('its job was closed');
    }),
    { dispose: () => stop() },
  ];
};

/** Where a table is followed from; undefined where a person wants neither. */
async function sinceWhen(table: Uri): Promise<Since | undefined> {
  const picks = [
    {
      label: l10n.t('From its beginning'),
      detail: l10n.t('What stands in it goes into the job, too.'),
      since: null,
    },
    {
      label: l10n.t('From now on'),
      detail: l10n.t('Only what is written from now on goes into the job.'),
      since: 'now',
    },
  ] as const;
  return (await window.showQuickPick(picks, { title: l10n.t('Follow {0}', nameOf(table)) }))?.since;
}

interface FollowWhat {
  readonly job: Uri;
  readonly table: Uri;
  readonly client: () => BaseLanguageClient | undefined;
  ended(why: string): void;
}

class Following implements Disposable {
  readonly name: string;
  private readonly item = window.createStatusBarItem('framewright.follow', StatusBarAlignment.Left, 9);
  private timer: ReturnType<typeof setTimeout> | undefined;
  private isOver = false;
  /** Size and time of the table as it was last read whole. */
  private seen = '';
  private state: FollowState;

  constructor(
    private readonly what: FollowWhat,
    private since: Since,
  ) {
    this.name = nameOf(what.table);
    this.state = { table: this.name, job: nameOf(what.job), rows: 0, left: 0, waits: null };
    this.item.name = l10n.t('Framewright Followed Table');
    this.item.command = 'framewright.stopFollowing';
    this.show({});
    this.item.show();
    this.again(0);
  }

  isInto(uri: Uri): boolean {
    return uri.toString() === this.what.job.toString();
  }

  dispose(): void {
    this.isOver = true;
    clearTimeout(this.timer);
    this.item.dispose();
  }

  private again(ms: number): void {
    if (this.isOver) return;
    this.timer = setTimeout(() => {
      this.look()
        .catch((reason) => output().error(`The table could not be followed: ${reason}`))
        .finally(() => this.again(everyMs));
    }, ms);
  }

  private show(change: Partial<FollowState>): void {
    this.state = { ...this.state, ...change };
    this.item.text = followText(this.state);
    this.item.tooltip = followTip(this.state);
    this.item.accessibilityInformation = {
      label: l10n.t('{0}, followed: {1}', this.name, followTip(this.state)),
    };
  }

  private async look(): Promise<void> {
    const { table, job, client } = this.what;
    const now = await stampOf(table);
    if (now === this.seen) return;
    const running = client();
    const read = await tableBytes(table);
    if ('message' in read) return this.show({ waits: read.message });
    if (!running) return this.show({ waits: 'the language server is not running' });
    const document = await workspace.openTextDocument(job);
    const { version } = document;
    const question: FollowQuestion = {
      uri: job.toString(),
      bytes: read.bytes,
      layout: null,
      since: this.since,
    };
    const answer = await running.sendRequest<FollowAnswer>('framewright/followTable', question);
    if (this.isOver) return;
    if (answer.kind === 'ended') return this.what.ended(answer.message);
    if (answer.kind !== 'followed') return this.show({ waits: answer.message });
    // what was typed meanwhile goes first: asked again in a moment
    if (document.version !== version) return;
    if (answer.edits.length > 0 && !(await makeEdits(job, answer.edits))) return;
    this.since = answer.mark;
    this.seen = now;
    this.show({ waits: null, rows: this.state.rows + answer.rows, left: this.state.left + answer.left });
  }
}

const stampOf = async (table: Uri): Promise<string> => {
  try {
    const { size, mtime } = await workspace.fs.stat(table);
    return `${size} ${mtime}`;
  } catch {
    return 'none';
  }
};
