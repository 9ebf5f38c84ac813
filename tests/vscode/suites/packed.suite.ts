// The extension as a user gets it: installed from the packed file, not run from its source folder.
import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { test } from './harness';
import { extension, findings, hasRule, hoverText, opened } from './workspace';

const job = 'jobs/w-2001.readings.yaml';

test('it runs from where it was installed', () => {
  assert.ok(!readdirSync(extension().extensionPath).includes('src'), extension().extensionPath);
});

test('a job is judged and explained', async () => {
  const document = await opened(job);
  assert.equal(document.languageId, 'framewright-readings');
  await findings(document, 'name/unknown-point', hasRule('name/unknown-point'));
  assert.match(await hoverText(document, 'rail-tip-upper.L'), /outside/);
});
