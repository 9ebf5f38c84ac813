// Two folders in one window, each with a job and a chassis of its own.
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { test } from './harness';
import { extension, findings, hasRule, placeOf } from './workspace';

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
