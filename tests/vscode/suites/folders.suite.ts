// Two folders in one window, each with a job and a chassis of its own; later a third, which is on no disk.
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { eventually, test } from './harness';
import { foldersInMemory } from './memory-folders';
import { extension, findings, hasRule, placeOf, ruleOf } from './workspace';

const folders = (): readonly vscode.WorkspaceFolder[] => vscode.workspace.workspaceFolders ?? [];

test('a job of either folder is judged by the chassis of its own', async () => {
  assert.deepEqual(
    folders().map(({ name }) => name),
    ['workspace', 'associated'],
  );
  const [jobs, associated] = folders();
  for (const uri of [
    vscode.Uri.joinPath(jobs.uri, 'jobs/w-2001.readings.yaml'),
    vscode.Uri.joinPath(associated.uri, 'w-2001.readings.yaml'),
  ]) {
    const document = await vscode.workspace.openTextDocument(uri);
    await vscode.window.showTextDocument(document);
    await findings(document, 'reading/outside', hasRule('reading/outside'));
  }
});

test('a name is changed in its own folder alone', async () => {
  const [jobs, associated] = folders();
  const document = await vscode.workspace.openTextDocument(
    vscode.Uri.joinPath(jobs.uri, 'specs/marten.chassis.yaml'),
  );
  const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
    'vscode.executeDocumentRenameProvider',
    document.uri,
    placeOf(document, 'tunnel-front'),
    'tunnel-fore',
  );
  const changed = edit.entries().map(([uri]) => uri.path);
  assert.ok(
    changed.some((path) => path.endsWith('jobs/w-2001.readings.yaml')),
    changed.join(' '),
  );
  assert.ok(!changed.some((path) => path.startsWith(associated.uri.path)), changed.join(' '));
});

test('the checks of both folders are offered', async () => {
  await extension().activate();
  const tasks = await vscode.tasks.fetchTasks({ type: 'framewright' });
  const of = (folder: vscode.WorkspaceFolder): number =>
    tasks.filter(({ scope }) => typeof scope === 'object' && scope.name === folder.name).length;
  assert.deepEqual(folders().map(of), [2, 2]);
});

test('a folder that only the editor has is judged as well, though it is opened when all is running', async () => {
  const [jobs] = folders();
  const memory = foldersInMemory('attic');
  const root = vscode.Uri.from({ scheme: 'attic', path: '/shop' });
  const names = ['specs/marten.chassis.yaml', 'jobs/w-2001.readings.yaml'];
  for (const name of names)
    memory.put(
      vscode.Uri.joinPath(root, name),
      await vscode.workspace.fs.readFile(vscode.Uri.joinPath(jobs.uri, name)),
    );
  assert.ok(vscode.workspace.updateWorkspaceFolders(folders().length, 0, { uri: root, name: 'attic' }));
  await eventually('the third folder', () => folders()[2]);
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(root, names[1]));
  const all = await findings(document, 'reading/outside', hasRule('reading/outside'));
  const onDisk = vscode.languages.getDiagnostics(vscode.Uri.joinPath(jobs.uri, names[1]));
  assert.deepEqual(all.map(ruleOf), onDisk.map(ruleOf));
});
