// A folder that holds nothing of ours.
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { eventually, pause, test } from './harness';
import { extension, fileUri, findings, hasRule, opened } from './workspace';

test('other YAML and JSON files do not start us', async () => {
  await opened('shop.yaml');
  await opened('shop.json');
  await pause(2000);
  assert.equal(extension().isActive, false);
});

test('a readings file from elsewhere starts us and is judged', async () => {
  const document = await vscode.workspace.openTextDocument(
    vscode.Uri.joinPath(fileUri('.'), '../workspace/jobs/w-2001.readings.yaml'),
  );
  await vscode.window.showTextDocument(document);
  assert.equal(document.languageId, 'framewright-readings');
  await eventually('activation', () => extension().isActive || undefined);
  await findings(document, 'name/unknown-point', hasRule('name/unknown-point'));
});
