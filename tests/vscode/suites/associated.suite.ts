// A folder whose settings say that every *.yaml file is of another extension's language.
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { test } from './harness';
import { findings, hasRule, opened } from './workspace';

test('an association of all YAML files does not take ours away', async () => {
  const document = await opened('w-2001.readings.yaml');
  assert.equal(document.languageId, 'framewright-readings');
  await findings(document, 'name/unknown-point', hasRule('name/unknown-point'));
});

test('their own YAML files stay theirs', async () => {
  assert.equal((await opened('shop.yaml')).languageId, 'yaml');
});

test('a readings file that was given the language yaml is judged all the same', async () => {
  const document = await opened('w-2001.readings.yaml');
  const renamed = await vscode.languages.setTextDocumentLanguage(document, 'yaml');
  assert.equal(renamed.languageId, 'yaml');
  await findings(renamed, 'name/unknown-point', hasRule('name/unknown-point'));
});
