// Neovim's own client of the language server, set up as the user's page says, in the words and keys of its user.
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Neovim } from './neovim';

const root = path.join(import.meta.dirname, '../..');
const setUp = /```lua\n(.*?)```/s.exec(readFileSync(path.join(root, 'server/other-editors.md'), 'utf8'))?.[1];
/** What a menu of choices would ask: the test's choice is the first whose title has these words. */
const chooser = `
  vim.ui.select = function(items, options, choose)
    for _, item in ipairs(items) do
      if string.find(options.format_item(item), wanted, 1, true) then return choose(item) end
    end
    error('not offered: ' .. wanted)
  end`;

interface Found {
  readonly code: string;
  readonly text: string;
}
/** Findings of the file that is shown: the rule and the text underlined. */
const found = `vim.tbl_map(function(each)
  local line = vim.api.nvim_buf_get_lines(0, each.lnum, each.lnum + 1, false)[1]
  return { code = each.code or each.user_data.lsp.code, text = string.sub(line, each.col + 1, each.end_col) }
end, vim.diagnostic.get(0))`;

let folder: string;
let neovim: Neovim;

const onDisk = (file: string): string => readFileSync(path.join(folder, file), 'utf8');
const findings = (fits: (all: Found[]) => boolean) => neovim.until<Found[]>(found, fits);
const rules = (all: readonly Found[]): string[] => all.map(({ code }) => code);

beforeAll(async () => {
  expect(setUp, 'the lines for Neovim in server/other-editors.md').toBeDefined();
  folder = mkdtempSync(path.join(tmpdir(), 'framewright-shop-'));
  cpSync(path.join(root, 'tests/vscode/fixtures/workspace'), folder, { recursive: true });
  const bin = path.join(root, 'node_modules/.bin');
  neovim = await Neovim.start(folder, 'jobs/w-2001.readings.yaml', `${setUp}${chooser}`, bin);
});

afterAll(() => {
  if (/\[ERROR\]/.test(neovim.log())) console.error(neovim.log());
  neovim.clear();
  rmSync(folder, { recursive: true, force: true });
});

test('diagnostics: a mistyped point and a point out of tolerance, each where it stands', async () => {
  const all = await findings((each) => rules(each).includes('name/unknown-point'));
  expect(all).toContainEqual({ code: 'name/unknown-point', text: 'raill-tip-upper.R' });
  expect(all).toContainEqual({ code: 'reading/outside', text: 'rail-tip-upper.L' });
});

test('hover: what stands behind a reading, in plain Markdown', async () => {
  await neovim.goTo('rail-tip-upper.L');
  await neovim.command('lua vim.lsp.buf.hover()');
  const floating = `vim.tbl_map(function(window)
    return table.concat(vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(window), 0, -1, false), '\\n')
  end, vim.tbl_filter(function(window) return vim.api.nvim_win_get_config(window).relative ~= '' end, vim.api.nvim_list_wins()))`;
  const [shown] = await neovim.until<string[]>(floating, (windows) => windows.length > 0);
  expect(shown).toContain('rail-tip-upper.L');
  expect(shown).toContain('10.7 left (outboard)');
  expect(shown).not.toContain('&nbsp;');
});

test('definition: from a reading to its point, from the path to the chassis file', async () => {
  await neovim.goTo('rail-tip-lower.R');
  await neovim.command('lua vim.lsp.buf.definition()');
  await neovim.until("vim.fn.expand('%:t')", (name) => name === 'marten.chassis.yaml');
  expect(await neovim.lua('vim.fn.getline(".")')).toMatch(/^ {2}rail-tip-lower: /);
  expect(await neovim.lua('vim.fn.col(".")')).toBe(3);
  await neovim.command('edit jobs/w-2001.readings.yaml');
  await neovim.goTo('../specs');
  await neovim.command('lua vim.lsp.buf.definition()');
  await neovim.until("vim.fn.expand('%:t')", (name) => name === 'marten.chassis.yaml');
  await neovim.command('edit jobs/w-2001.readings.yaml');
  await neovim.until("vim.fn.expand('%:t')", (name) => name === 'w-2001.readings.yaml');
});

test('references: the list names the job and the chassis file', async () => {
  await neovim.goTo('rail-tip-lower.R');
  await neovim.command('lua vim.lsp.buf.references()');
  const listed = `vim.tbl_map(function(each)
    return vim.fn.fnamemodify(vim.fn.bufname(each.bufnr), ':t') .. ':' .. each.col
  end, vim.fn.getqflist())`;
  const places = await neovim.until<string[]>(listed, (all) => all.length > 0);
  expect(places.sort()).toEqual(['marten.chassis.yaml:3', 'w-2001.readings.yaml:7']);
  await neovim.command('cclose');
});

test('completion: the point that this measure lacks', async () => {
  await neovim.goTo('raill-tip-upper.R');
  await neovim.keys('C<C-x><C-o>');
  const offered = 'vim.tbl_map(function(item) return item.abbr end, vim.fn.complete_info({ "items" }).items)';
  const items = await neovim.until<string[]>(offered, (all) => all.length > 0);
  expect(items).toContain('rail-tip-upper.R');
  expect(items).not.toContain('rail-tip-upper.L');
  await neovim.keys('<C-y>');
  await neovim.until<string>('vim.fn.getline(".")', (line) => /^ {6}rail-tip-upper\.R: *$/.test(line));
  await neovim.keys('<Esc>u');
  await neovim.until<string>('vim.fn.getline(".")', (line) => line.includes('raill-tip-upper.R: [3012.1'));
});

test('code action: the mistyped name is mended, and the finding gone', async () => {
  await findings((each) => rules(each).includes('name/unknown-point'));
  await neovim.goTo('raill-tip-upper.R');
  await neovim.command("lua wanted = 'rail-tip-upper.R'; vim.lsp.buf.code_action()");
  await findings((each) => !rules(each).includes('name/unknown-point'));
  expect((await neovim.lines()).at(-1)).toBe('      rail-tip-upper.R: [3012.1, -452.2, 352.3]');
});

test('rename: a point on both sides, in the job and in the chassis file; what would collide is refused', async () => {
  await neovim.goTo('rail-tip-upper.L');
  await neovim.command("lua vim.lsp.buf.rename('rail-tip-lower')");
  await neovim.until<string>('vim.api.nvim_exec("messages", true)', (said) =>
    said.includes('there is a point rail-tip-lower already'),
  );
  await neovim.goTo('rail-tip-upper.L');
  await neovim.command("lua vim.lsp.buf.rename('rail-nose-upper')");
  await neovim.until<string[]>('vim.api.nvim_buf_get_lines(0, 0, -1, false)', (lines) =>
    lines.some((line) => line.includes('rail-nose-upper.L: ')),
  );
  await neovim.command('wall');
  await neovim.until('vim.bo.modified', (modified) => modified === false);
  expect(onDisk('jobs/w-2001.readings.yaml')).toContain('rail-nose-upper.R:');
  expect(onDisk('specs/marten.chassis.yaml')).toContain('  rail-nose-upper:');
  for (const file of ['jobs/w-2001.readings.yaml', 'specs/marten.chassis.yaml'])
    expect(onDisk(file)).not.toContain('rail-tip-upper');
  await findings(
    (all) =>
      all.some(({ text }) => text === 'rail-nose-upper.L') && !rules(all).includes('name/unknown-point'),
  );
});

test('format: the columns of readings are aligned, and nothing else is changed', async () => {
  const before = await neovim.lines();
  await neovim.command('%s/: *\\[/:[/');
  await neovim.until<string[]>('vim.api.nvim_buf_get_lines(0, 0, -1, false)', (lines) =>
    lines.some((line) => line.includes('floor-rear.L:[')),
  );
  await neovim.command('%s/:\\[/: [/');
  await neovim.command(
    'lua if vim.lsp.buf.format then vim.lsp.buf.format({ timeout_ms = 20000 }) else vim.lsp.buf.formatting_sync(nil, 20000) end',
  );
  const columns = (lines: readonly string[]) =>
    lines.filter((line) => /\.[LR]: /.test(line)).map((line) => line.indexOf('['));
  const after = await neovim.until<string[]>(
    'vim.api.nvim_buf_get_lines(0, 0, -1, false)',
    (lines) => new Set(columns(lines)).size === 1,
  );
  expect(columns(after)).toHaveLength(16);
  const unspaced = (lines: readonly string[]) => lines.map((line) => line.replaceAll(' ', ''));
  expect(unspaced(after)).toEqual(unspaced(before));
});

test('it ends with the editor, and wrote no error', async () => {
  expect(neovim.log()).not.toMatch(/\[ERROR\]/);
  expect(await neovim.quit()).toBe(0);
});
