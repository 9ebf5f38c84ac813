import type { DrawingAnswer, DrawingQuestion } from '@framewright/schemas/wire';
import {
  commands,
  type Disposable,
  type ExtensionContext,
  l10n,
  type TextEditor,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type NamedFile, uriOf } from '../named-file';
import { output } from '../output';
import { isDrawn } from './drawn-files';
import { type Drawn, goToPoint } from './go-to-point';
import type { FromPage, ToPage } from './messages';
import { nonce } from './nonce';
import { drawingPage } from './page';
import { pageStateOf, wantedFrom } from './page-state';
import { savePicture } from './pictures';
import { giveRowsRoom } from './room';
import { afterAnswer, firstWanted, ofAnotherFile, type Wanted } from './wanted';

const viewType = 'framewright.drawing';

/** The view *Chassis drawing* beside a file; it follows the file that is being worked on. */
export class DrawingView implements Disposable {
  private panel: WebviewPanel | undefined;
  private file: Uri | undefined;
  private wanted: Wanted = firstWanted;
  /** The newest choice that was heard of. */
  private heard = 0;
  /** The revision that the page shows; null: it is empty. */
  private known: number | null = null;
  private greeted = false;
  /** What a page that is not there yet has to be told. */
  private waiting: ToPage[] = [];
  private asking = false;
  /** The file that a click on a point last led to. */
  private ledTo: string | null = null;
  private due = false;
  private readonly subscriptions: Disposable[];

  constructor(
    private readonly context: ExtensionContext,
    private readonly client: () => BaseLanguageClient | undefined,
  ) {
    this.subscriptions = [
      commands.registerCommand('framewright.showDrawing', (given?: NamedFile, point?: string) =>
        this.show(uriOf(given), typeof point === 'string' ? point : null),
      ),
      window.registerWebviewPanelSerializer(viewType, {
        deserializeWebviewPanel: async (panel, state) => this.restore(panel, state),
      }),
      window.onDidChangeActiveTextEditor((editor) => this.follow(editor)),
      window.onDidChangeTextEditorSelection(({ textEditor }) => {
        if (this.isOf(textEditor)) this.refresh();
      }),
    ];
  }

  /** A client that was started, the first or one after a restart. */
  listenTo(client: BaseLanguageClient): void {
    client.onNotification('framewright/drawingChanged', ({ uri }: { uri: string }) => {
      if (uri === this.name()) this.refresh();
    });
    this.askAnew();
  }

  /** A server that has just started knows nothing of what the page shows. */
  askAnew(): void {
    this.known = null;
    this.refresh();
  }

  dispose(): void {
    for (const each of this.subscriptions) each.dispose();
    this.panel?.dispose();
  }

  /** @param point to be chosen in it */
  private show(uri: Uri | undefined, point: string | null): void {
    const file = uri ?? window.activeTextEditor?.document.uri;
    if (file === undefined) {
      void window.showInformationMessage(
        l10n.t('Open a job or a chassis file first: its drawing is shown beside it.'),
      );
      return;
    }
    this.turnTo(file);
    if (this.panel) this.panel.reveal(undefined, true);
    else this.open();
    if (point !== null) this.wanted = { ...this.wanted, selected: point };
    this.refresh();
  }

  private open(): void {
    const isFirstBeside = window.tabGroups.all.length === 1;
    const place = { viewColumn: ViewColumn.Beside, preserveFocus: true };
    this.fill(window.createWebviewPanel(viewType, l10n.t('Chassis drawing'), place));
    if (isFirstBeside)
      giveRowsRoom().catch((reason) => output().error(`The editors were not arranged: ${reason}`));
  }

  /** A panel that stood in the window before it was loaded anew. */
  private restore(panel: WebviewPanel, state: unknown): void {
    const pageState = wantedFrom(state);
    if (this.panel !== undefined || pageState === null) {
      panel.dispose();
      return;
    }
    this.file = Uri.parse(pageState.file);
    this.wanted = pageState.wanted;
    this.fill(panel);
  }

  private fill(panel: WebviewPanel): void {
    const folder = Uri.joinPath(this.context.extensionUri, 'dist');
    panel.webview.options = { enableScripts: true, localResourceRoots: [folder], enableCommandUris: false };
    const script = (name: string) => panel.webview.asWebviewUri(Uri.joinPath(folder, name)).toString();
    panel.webview.onDidReceiveMessage((message: FromPage) => this.hear(message));
    // nothing is asked for while nobody looks
    panel.onDidChangeViewState(() => {
      if (panel.visible) this.refresh();
    });
    panel.onDidDispose(() => {
      this.panel = undefined;
      this.known = null;
    });
    panel.webview.html = drawingPage(nonce(), {
      drawing: script('drawing-view.js'),
      solid: script('solid-view.js'),
    });
    this.panel = panel;
    this.known = null;
    this.greeted = false;
    this.waiting = [];
  }

  private follow(editor: TextEditor | undefined): void {
    if (this.panel === undefined || editor === undefined || !isDrawn(editor.document)) return;
    // a point without a reading leads into the chassis file: the job stays drawn
    if (editor.document.uri.toString() === this.ledTo) return;
    this.ledTo = null;
    if (this.isOf(editor)) return;
    this.turnTo(editor.document.uri);
    this.refresh();
  }

  private turnTo(file: Uri): void {
    if (file.toString() === this.name()) return;
    this.file = file;
    this.wanted = ofAnotherFile(this.wanted);
  }

  private readonly name = (): string | undefined => this.file?.toString();
  private readonly isOf = (editor: TextEditor): boolean => editor.document.uri.toString() === this.name();

  private hear(message: FromPage): void {
    switch (message.kind) {
      case 'ready':
        this.greet();
        this.want({ width: message.width || this.wanted.width });
        break;
      case 'lost':
        this.known = null;
        this.refresh();
        break;
      case 'width':
        this.want({ width: message.width });
        break;
      case 'section':
        this.want({ section: message.section });
        break;
      case 'stage':
        this.heard = message.turn;
        this.want({ stage: message.stage });
        break;
      case 'over':
        this.heard = message.turn;
        this.want({ over: message.over });
        break;
      case 'go':
        if (message.to === null) this.want({ selected: message.point });
        this.go(message).catch((reason) => output().error(`The editor could not go to the point: ${reason}`));
        break;
      case 'save':
        savePicture(this.file, message.type, message.content).catch((reason) =>
          output().error(`The picture was not saved: ${reason}`),
        );
        break;
    }
  }

  /** A page is there: the first one gets what was asked for meanwhile; one that was hidden and made anew starts empty. */
  private greet(): void {
    if (this.greeted) this.known = null;
    this.greeted = true;
    this.heard = 0;
    for (const message of this.waiting.splice(0)) this.tell(message);
  }

  private want(wish: Partial<Wanted>): void {
    this.wanted = { ...this.wanted, ...wish };
    this.refresh();
  }

  /** Asks for what changed, as often as something does but once at a time: what comes meanwhile is asked for together. */
  private refresh(): void {
    this.due = true;
    if (!this.asking) void this.work();
  }

  private async work(): Promise<void> {
    this.asking = true;
    try {
      while (this.due && this.panel?.visible && this.file) {
        this.due = false;
        await this.ask(this.panel, this.file);
      }
    } catch (reason) {
      output().error(`The drawing could not be requested: ${reason}`);
      this.tell({ kind: 'obstacle', text: 'The language server does not answer: see the output channel.' });
    } finally {
      this.asking = false;
    }
  }

  private async ask(panel: WebviewPanel, file: Uri): Promise<void> {
    const client = this.client();
    if (client === undefined) {
      this.tell({
        kind: 'obstacle',
        text: 'The language server is not running: see the output channel.',
      });
      return;
    }
    const { known, wanted, heard } = this;
    // one file may be seen twice: the cursor is where one types
    const { activeTextEditor: active, visibleTextEditors: visible } = window;
    const editor = active && this.isOf(active) ? active : visible.find((each) => this.isOf(each));
    const cursor = editor?.selection.active ?? null;
    const question: DrawingQuestion = {
      ...wanted,
      uri: file.toString(),
      view: 'drawing',
      known,
      cursor: cursor && { line: cursor.line, character: cursor.character },
    };
    const answer = await client.sendRequest<DrawingAnswer | null>('framewright/drawing', question);
    if (panel !== this.panel || file !== this.file) return;
    // the page was made anew meanwhile: what was answered does not fit it
    if (known !== this.known) {
      this.due = true;
      return;
    }
    if (answer === null) {
      this.tell({ kind: 'obstacle', text: 'This file has no drawing: open a job or a chassis file.' });
      return;
    }
    this.wanted = afterAnswer(this.wanted, wanted, answer);
    this.known = answer.revision;
    panel.title = l10n.t('Drawing: {0}', file.path.slice(file.path.lastIndexOf('/') + 1));
    const pageState = pageStateOf(file.toString(), this.wanted);
    this.tell({ kind: 'shown', section: wanted.section, answer, heard, pageState: pageState });
  }

  private tell(message: ToPage): void {
    if (this.greeted) void this.panel?.webview.postMessage(message);
    else this.waiting.push(message);
  }

  private async go(drawn: Drawn): Promise<void> {
    const [client, uri] = [this.client(), this.name()];
    if (!client || !uri) return;
    await goToPoint(client, uri, this.wanted.stage, drawn, (led) => {
      this.ledTo = led === uri ? null : led;
    });
  }
}
