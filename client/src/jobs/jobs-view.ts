import type { Entry, LineRange, OutsidePlace, PointLine } from '@framewright/schemas/wire';
import {
  commands,
  type Disposable,
  EventEmitter,
  l10n,
  Range,
  ThemeColor,
  ThemeIcon,
  type TreeDataProvider,
  TreeItem,
  TreeItemCollapsibleState,
  Uri,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { output } from '../output';
import { lineOf } from './entry-words';
import type { JobList } from './job-list';

type Node =
  | { readonly kind: 'entry'; readonly uri: string }
  | { readonly kind: 'place'; readonly uri: string; readonly place: OutsidePlace }
  | { readonly kind: 'point'; readonly uri: string; readonly point: PointLine };

/** So long a list whose order changes is left in peace, ms: while a large workspace is read it changes all the time. */
const peaceMs = 500;

/** The two views, *Jobs* and *Chassis Files*. */
export const jobViews = (list: JobList, client: () => BaseLanguageClient | undefined): Disposable[] =>
  (['jobs', 'chassis'] as const).flatMap((which) => {
    const tree = new EntryTree(list, which, client);
    const view = window.createTreeView(`framewright.${which}`, { treeDataProvider: tree });
    const tell = (): void => {
      view.message = list.message;
    };
    return [tree, view, list.onDidChange(tell)];
  });

/** *Open*, in the menu of a line. */
export const openJobCommand = (): Disposable =>
  commands.registerCommand('framewright.openJob', (chosen?: Node) =>
    chosen === undefined ? undefined : commands.executeCommand('vscode.open', Uri.parse(chosen.uri)),
  );

class EntryTree implements TreeDataProvider<Node>, Disposable {
  private readonly changes = new EventEmitter<Node | undefined>();
  readonly onDidChangeTreeData = this.changes.event;
  /** The same object for the same file, by which the editor knows a line again. */
  private readonly nodes = new Map<string, Node>();
  private readonly listening: Disposable;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly list: JobList,
    private readonly which: 'jobs' | 'chassis',
    private readonly client: () => BaseLanguageClient | undefined,
  ) {
    this.listening = list.onDidChange((change) => {
      if (change === null) this.timer ??= setTimeout(() => this.readAnew(), peaceMs);
      else
        for (const { uri } of change) {
          const node = this.nodes.get(uri);
          // a line of the other view: this one stays as it is
          if (node) this.changes.fire(node);
        }
    });
  }

  private readAnew(): void {
    this.timer = undefined;
    this.nodes.clear();
    this.changes.fire(undefined);
  }

  async getChildren(node?: Node): Promise<Node[]> {
    if (!node) return this.list[this.which]().map(({ uri }) => this.nodeOf(uri));
    if (node.kind !== 'entry') return [];
    const { uri } = node;
    try {
      if (this.which === 'jobs') {
        const { places } = await this.asked<{ places: OutsidePlace[] }>('framewright/outside', uri);
        return places.map((place): Node => ({ kind: 'place', uri, place }));
      }
      const { points } = await this.asked<{ points: PointLine[] }>('framewright/chassisPoints', uri);
      return points.map((point): Node => ({ kind: 'point', uri, point }));
    } catch (reason) {
      output().warn(`What ${uri} holds could not be listed: ${reason}`);
      return [];
    }
  }

  private asked<T>(question: string, uri: string): Promise<T> {
    const running = this.client();
    if (!running) throw new Error('the language server is not running');
    return running.sendRequest<T>(question, { uri });
  }

  private nodeOf(uri: string): Node {
    const known = this.nodes.get(uri);
    if (known) return known;
    const node: Node = { kind: 'entry', uri };
    this.nodes.set(uri, node);
    return node;
  }

  getTreeItem(node: Node): TreeItem {
    if (node.kind === 'place') return placeItem(node.uri, node.place);
    if (node.kind === 'point') return pointItem(node.uri, node.point);
    const entry = this.list.get(node.uri);
    return entry ? entryItem(entry) : new TreeItem(Uri.parse(node.uri));
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.listening.dispose();
    this.changes.dispose();
  }
}

const entryItem = (entry: Entry): TreeItem => {
  const uri = Uri.parse(entry.uri);
  const { label, description, tooltip, spoken, icon, colour, context } = lineOf(
    entry,
    workspace.asRelativePath(uri),
  );
  const item = new TreeItem(label);
  const holds = entry.kind === 'chassis' ? entry.points : entry.kind === 'job' ? entry.counts.outside : 0;
  if (holds > 0) item.collapsibleState = TreeItemCollapsibleState.Collapsed;
  // a line that can be opened is another line: else the editor keeps it closed for good
  item.id = `${entry.uri} ${holds > 0}`;
  item.description = description;
  item.tooltip = tooltip;
  item.iconPath = new ThemeIcon(icon, colour === null ? undefined : new ThemeColor(colour));
  item.contextValue = context;
  item.accessibilityInformation = { label: spoken };
  item.command = opening(uri, null);
  return item;
};

const placeItem = (uri: string, { words, range }: OutsidePlace): TreeItem => {
  const item = new TreeItem(words);
  item.iconPath = new ThemeIcon('arrow-small-right');
  item.tooltip = words;
  item.contextValue = 'place';
  item.accessibilityInformation = { label: l10n.t('outside tolerance: {0}', words) };
  item.command = opening(Uri.parse(uri), range);
  return item;
};

const pointItem = (uri: string, { id, position, part, base, range }: PointLine): TreeItem => {
  const item = new TreeItem(id);
  const told = [
    ...(base ? [l10n.t('control point')] : []),
    ...(part === null ? [] : [l10n.t('on {0}', part)]),
  ];
  item.description = position;
  item.tooltip = [`${id}: ${position}`, ...told].join('\n');
  item.iconPath = new ThemeIcon(base ? 'target' : 'circle-small-filled');
  item.contextValue = 'point';
  item.accessibilityInformation = { label: [id, position, ...told].join(', ') };
  item.command = opening(Uri.parse(uri), range);
  return item;
};

/** Opens the file; with a range, on it. */
const opening = (uri: Uri, range: LineRange | null) => ({
  title: l10n.t('Open'),
  command: 'vscode.open',
  arguments: range
    ? [
        uri,
        {
          selection: new Range(
            range.start.line,
            range.start.character,
            range.start.line,
            range.start.character,
          ),
        },
      ]
    : [uri],
});
