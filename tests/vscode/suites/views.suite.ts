// What the extension adds to the editor around the text: commands, keys, settings, a new job.
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { eventually, test } from './harness';
import { extension, fileUri, findings, hasRule, opened, placeOf } from './workspace';

const job = 'jobs/w-2001.readings.yaml';

const cursor = (): vscode.Position | undefined => vscode.window.activeTextEditor?.selection.active;

test('the commands go to the points outside tolerance and to the worst', async () => {
  const document = await opened(job);
  await findings(document, 'reading/outside', hasRule('reading/outside'));
  for (const command of ['nextPointOutside', 'previousPointOutside', 'goToWorstPoint']) {
    const editor = vscode.window.activeTextEditor;
    assert.ok(editor);
    editor.selection = new vscode.Selection(0, 0, 0, 0);
    await vscode.commands.executeCommand(`framewright.${command}`);
    assert.deepEqual(cursor(), placeOf(document, 'rail-tip-upper.L'), command);
  }
});

test('a rule page is opened from the finding under the cursor', async () => {
  const document = await opened(job);
  await findings(document, 'name/unknown-point', hasRule('name/unknown-point'));
  const at = placeOf(document, 'raill-tip-upper.R');
  assert.ok(vscode.window.activeTextEditor);
  vscode.window.activeTextEditor.selection = new vscode.Selection(at, at);
  await vscode.commands.executeCommand('framewright.openRulePage');
  const wanted = 'framewright-rule:/name/unknown-point.md';
  await eventually('the page', () => {
    const tabs = vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs);
    return (
      tabs.some(({ input }) => (input as { uri?: vscode.Uri } | undefined)?.uri?.toString() === wanted) ||
      undefined
    );
  });
});

test('an example chassis is written once and never written over', async () => {
  await vscode.commands.executeCommand('framewright.newExampleChassis');
  const uri = fileUri('specs/marten-example.chassis.yaml');
  const document = await vscode.workspace.openTextDocument(uri);
  assert.match(document.getText(), /^framewright: chassis\/1/);
  const own = 'framewright: chassis/1\nvehicle: my own\n';
  await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(own));
  await vscode.commands.executeCommand('framewright.newExampleChassis');
  assert.equal(new TextDecoder().decode(await vscode.workspace.fs.readFile(uri)), own);
  await vscode.workspace.fs.delete(uri);
});

test("none of our keys is one of the editor's own", async () => {
  const uri = vscode.Uri.parse('vscode://defaultsettings/keybindings.json');
  const text = (await vscode.workspace.openTextDocument(uri)).getText();
  const entry = /"key":\s*"([^"]+)",?\s*"command":\s*"([^"]+)"(?:,?\s*"when":\s*"([^"]+)")?/g;
  const used = [...text.matchAll(entry)];
  assert.ok(used.length > 300, `${used.length} keys were read`);
  // a key that holds in another language alone is not in our way
  const ofLanguage = /editorLangId ==|notebook/;
  const { keybindings } = extension().packageJSON.contributes as { keybindings: { key: string }[] };
  assert.ok(keybindings.length > 0);
  for (const { key } of keybindings) {
    const others = used.filter(
      ([, each, command, when = '']) =>
        each === key && !command.startsWith('framewright.') && !ofLanguage.test(when),
    );
    assert.deepEqual(
      others.map(([, , command]) => command),
      [],
      key,
    );
  }
});

test('every setting of ours is known to the editor, with its default', () => {
  const { properties } = extension().packageJSON.contributes.configuration as {
    properties: Record<string, { default: unknown }>;
  };
  for (const [name, { default: value }] of Object.entries(properties)) {
    const known = vscode.workspace.getConfiguration().inspect(name);
    assert.deepEqual(known?.defaultValue, value, name);
  }
});

test('every command of ours can be called, and both views shown', async () => {
  const all = await vscode.commands.getCommands(true);
  const { commands } = extension().packageJSON.contributes as { commands: { command: string }[] };
  assert.ok(commands.length > 5);
  for (const { command } of commands) assert.ok(all.includes(command), command);
  for (const view of ['jobs', 'chassis']) assert.ok(all.includes(`framewright.${view}.focus`), view);
});
