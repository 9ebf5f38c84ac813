// A folder that the user does not trust: our files are data, so all is said of them that is said anywhere.
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { test } from './harness';
// commands and views are the same there
import './views.suite';
import { findings, hasRule, hoverText, opened } from './workspace';

test('a job is judged and explained in a folder that is not trusted', async () => {
  assert.equal(vscode.workspace.isTrusted, false);
  const document = await opened('jobs/w-2001.readings.yaml');
  assert.equal(document.languageId, 'framewright-readings');
  await findings(document, 'name/unknown-point', hasRule('name/unknown-point'));
  assert.match(await hoverText(document, 'rail-tip-upper.L'), /outside/);
});
