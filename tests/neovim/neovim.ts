/** Neovim without a window, driven from outside: keys as a person types them, and questions to it in Lua. */
import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { promisify } from 'node:util';
import { installedNeovim } from './installed-neovim.mjs';

const limitMs = 30_000;
const run = promisify(execFile);

export class Neovim {
  private constructor(
    private readonly program: string,
    private readonly socket: string,
    private readonly editor: ChildProcess,
    /** Removed at the end; Neovim keeps its own files in it. */
    private readonly home: string,
    readonly errors: () => string,
  ) {}

  /**
   * @param folder that the editor is started in
   * @param init its configuration, in Lua
   * @param bin folder of programs that go before those on the path
   */
  static async start(folder: string, file: string, init: string, bin: string): Promise<Neovim> {
    const program = installedNeovim();
    const home = mkdtempSync(path.join(tmpdir(), 'framewright-neovim-'));
    const socket = path.join(home, 'socket');
    const initFile = path.join(home, 'init.lua');
    writeFileSync(initFile, init);
    const own = Object.fromEntries(
      ['CONFIG', 'DATA', 'STATE', 'CACHE'].map((name) => [`XDG_${name}_HOME`, path.join(home, name)]),
    );
    for (const each of Object.values(own)) mkdirSync(each);
    const editor = spawn(program, ['--headless', '--clean', '-n', '-u', initFile, '--listen', socket, file], {
      cwd: folder,
      env: { ...process.env, ...own, PATH: `${bin}${path.delimiter}${process.env.PATH}` },
    });
    let errors = '';
    editor.stderr.on('data', (data) => {
      errors += data;
    });
    const neovim = new Neovim(program, socket, editor, home, () => errors);
    await until('Neovim listens', async () => existsSync(socket), Boolean);
    return neovim;
  }

  /** As typed: `<CR>`, `<Esc>` and the like are keys. */
  async keys(keys: string): Promise<void> {
    await run(this.program, ['--server', this.socket, '--remote-send', keys]);
  }

  async command(command: string): Promise<void> {
    await this.keys(`<Esc>:${command.replaceAll('<', '<lt>')}<CR>`);
  }

  /** The value of a Lua expression. */
  async lua<T>(expression: string): Promise<T> {
    const quoted = `vim.json.encode({ ${expression} })`.replaceAll("'", "''");
    const call = ['--server', this.socket, '--remote-expr', `luaeval('${quoted}')`];
    const { stdout, stderr } = await run(this.program, call);
    return JSON.parse(stdout || stderr)[0] as T;
  }

  /** The value of a Lua expression once it fits; an error with the last one where it never does. */
  async until<T>(expression: string, fits: (value: T) => boolean): Promise<T> {
    return until(expression, () => this.lua<T>(expression), fits);
  }

  /** To the first place of a text in the file that is shown. */
  async goTo(text: string): Promise<void> {
    await this.lua(`vim.fn.cursor(1, 1)`);
    const line = await this.lua<number>(`vim.fn.search(${JSON.stringify(`\\V${text}`)}, 'c')`);
    if (line === 0) throw new Error(`not in the file: ${text}`);
  }

  lines(): Promise<string[]> {
    return this.lua('vim.api.nvim_buf_get_lines(0, 0, -1, false)');
  }

  /** What Neovim wrote down of its language servers. */
  log(): string {
    const files = ['CACHE', 'STATE'].map((name) => path.join(this.home, name, 'nvim/lsp.log'));
    return files
      .filter((file) => existsSync(file))
      .map((file) => readFileSync(file, 'utf8'))
      .join('');
  }

  /** Its exit code. */
  async quit(): Promise<number | null> {
    const gone = new Promise<number | null>((resolve) => this.editor.once('exit', resolve));
    await this.command('qall!');
    return gone;
  }

  clear(): void {
    this.editor.kill();
    rmSync(this.home, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  }
}

async function until<T>(what: string, look: () => Promise<T>, fits: (value: T) => boolean): Promise<T> {
  const end = Date.now() + limitMs;
  for (;;) {
    const value = await look();
    if (fits(value)) return value;
    if (Date.now() > end) throw new Error(`${what}: never fitted, the last was ${JSON.stringify(value)}`);
    await pause(50);
  }
}
