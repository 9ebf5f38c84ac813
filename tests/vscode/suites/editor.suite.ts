// A shop's folder, with a job whose left rail is twisted and one point's name is mistyped.
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { eventually, test } from './harness';
import {
  actionsAt,
  extension,
  findings,
  hasRule,
  hoverText,
  opened,
  placeOf,
  revert,
  ruleOf,
  textAfter,
  textAfterChoice,
} from './workspace';

const job = 'jobs/w-2001.readings.yaml';
const chassis = 'specs/marten.chassis.yaml';

test('the files are recognised and start us', async () => {
  assert.equal((await opened(chassis)).languageId, 'framewright-chassis');
  assert.equal((await opened(job)).languageId, 'framewright-readings');
  await eventually('activation', () => extension().isActive || undefined);
});

test('a point id is one word', async () => {
  const document = await opened(job);
  const word = document.getWordRangeAtPosition(placeOf(document, 'tip-lower.L'));
  assert.equal(document.getText(word), 'rail-tip-lower.L');
});

test('a mistyped point is found where it stands, with its rule and its page', async () => {
  const document = await opened(job);
  const all = await findings(document, 'name/unknown-point', hasRule('name/unknown-point'));
  const found = all.find((diagnostic) => ruleOf(diagnostic) === 'name/unknown-point');
  assert.ok(found);
  assert.equal(document.getText(found.range), 'raill-tip-upper.R');
  assert.equal(found.severity, vscode.DiagnosticSeverity.Error);
  assert.ok(typeof found.code === 'object');
  assert.equal(found.code.target.toString(), 'framewright-rule:/name/unknown-point.md');
});

test('a reading out of tolerance is found, in words and figures', async () => {
  const document = await opened(job);
  const all = await findings(document, 'reading/outside', hasRule('reading/outside'));
  const outside = all.filter((diagnostic) => ruleOf(diagnostic) === 'reading/outside');
  assert.deepEqual(
    outside.map((diagnostic) => document.getText(diagnostic.range)),
    ['rail-tip-upper.L'],
  );
  assert.match(outside[0].message, /rail-tip-upper\.L is 1\d\.\d mm too far left \(outboard\)/);
});

test('hover on a reading tells reference, measured and verdict', async () => {
  const text = await hoverText(await opened(job), 'rail-tip-upper.L');
  assert.match(text, /3012/);
  assert.match(text, /outside/);
  assert.match(text, /left/);
});

test('the fix of a mistyped point corrects that word alone', async () => {
  const document = await opened(job);
  await findings(document, 'name/unknown-point', hasRule('name/unknown-point'));
  const before = document.getText();
  const actions = await actionsAt(document, 'raill-tip-upper.R');
  const fix = actions.find((action) => /rail-tip-upper\.R/.test(action.title));
  assert.ok(fix, `no fix among: ${actions.map((action) => action.title).join(' | ')}`);
  const after = await textAfter(document, actions, fix.title);
  assert.equal(after, before.replace('raill-tip-upper.R', 'rail-tip-upper.R'));
  await findings(document, 'no unknown point', (all) => !hasRule('name/unknown-point')(all));
  await revert();
});

for (const kind of ['twist', 'sweep']) {
  test(`Insert ${kind} summary adds its lines and changes no other character`, async () => {
    const document = await opened(job);
    await findings(document, 'reading/outside', hasRule('reading/outside'));
    const before = document.getText().split('\n');
    const actions = await actionsAt(document, 'measure: as received');
    const after = (await textAfterChoice(document, actions, 'Insert summary…', kind)).split('\n');
    const added = after.filter((line) => !before.includes(line));
    assert.ok(
      added.some((line) => /^\s+summary:/.test(line)),
      added.join('\n'),
    );
    assert.ok(
      added.some((line) => new RegExp(`front-rail\\.L ${kind}: .*\\d.*±`).test(line)),
      added.join('\n'),
    );
    assert.deepEqual(
      after.filter((line) => !added.includes(line)),
      before,
    );
    await findings(document, 'the summary is not stale', (all) => !hasRule('reading/stale-summary')(all));
    await revert();
  });
}

test('an edit of the chassis is felt in the job, before it is saved', async () => {
  const jobDocument = await opened(job);
  await findings(jobDocument, 'reading/outside', hasRule('reading/outside'));
  const document = await opened(chassis);
  const edit = new vscode.WorkspaceEdit();
  const line = document.lineAt(placeOf(document, 'rail-tip-upper:').line);
  const wide = '  rail-tip-upper:  { both: [3012, 452, 352], part: front-rail, tolerance: 20 }';
  edit.replace(document.uri, line.range, wide);
  assert.ok(await vscode.workspace.applyEdit(edit));
  await findings(jobDocument, 'nothing outside', (all) => !hasRule('reading/outside')(all));
  await revert();
  await findings(jobDocument, 'reading/outside again', hasRule('reading/outside'));
});

test('a rule has its page', async () => {
  const page = await vscode.workspace.openTextDocument(
    vscode.Uri.parse('framewright-rule:/name/unknown-point.md'),
  );
  assert.equal(page.languageId, 'markdown');
  assert.match(page.getText(), /name\/unknown-point/);
  assert.ok(page.getText().length > 200, page.getText());
});

test('the server restarts when told to', async () => {
  const document = await opened(job);
  await findings(document, 'some', (all) => all.length > 0);
  await vscode.commands.executeCommand('framewright.restartServer');
  await findings(document, 'name/unknown-point', hasRule('name/unknown-point'));
  await vscode.commands.executeCommand('framewright.showOutput');
});

test('a severity that the user sets holds at once', async () => {
  const document = await opened(job);
  const severity = (wanted: vscode.DiagnosticSeverity) => (all: vscode.Diagnostic[]) =>
    all.some((finding) => ruleOf(finding) === 'reading/outside' && finding.severity === wanted);
  await findings(document, 'reading/outside as an error', severity(vscode.DiagnosticSeverity.Error));
  const settings = vscode.workspace.getConfiguration('framewright');
  await settings.update('severity', { 'reading/outside': 'warning' }, vscode.ConfigurationTarget.Workspace);
  await findings(document, 'reading/outside as a warning', severity(vscode.DiagnosticSeverity.Warning));
  await settings.update('severity', undefined, vscode.ConfigurationTarget.Workspace);
  await findings(document, 'reading/outside as an error again', severity(vscode.DiagnosticSeverity.Error));
});
