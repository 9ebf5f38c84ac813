// `framewright check` as a task: it runs by the editor's own program, and its findings are listed with all others.
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { eventually, test } from './harness';
import { extension, fileUri, hasRule, ruleOf } from './workspace';

/** Runs a task to its end; its exit code. */
const ended = async (task: vscode.Task): Promise<number | undefined> => {
  let listening: vscode.Disposable | undefined;
  const end = new Promise<number | undefined>((resolve) => {
    listening = vscode.tasks.onDidEndTaskProcess(({ execution, exitCode }) => {
      if (execution.task.name === task.name) resolve(exitCode);
    });
  });
  await vscode.tasks.executeTask(task);
  return end.finally(() => listening?.dispose());
};

const offered = async (): Promise<vscode.Task[]> => {
  await extension().activate();
  return vscode.tasks.fetchTasks({ type: 'framewright' });
};

test('two checks are offered for the folder; findings that are listed anyway are not listed twice', async () => {
  const all = await offered();
  assert.deepEqual(all.map(({ name }) => name).sort(), ['check', 'check, open jobs count too']);
  assert.deepEqual(
    all.flatMap(({ problemMatchers }) => problemMatchers),
    [],
  );
});

test('a check runs, and its findings stand in the Problems of a file that is not open', async () => {
  await vscode.workspace
    .getConfiguration('framewright')
    .update('checkWholeWorkspace', false, vscode.ConfigurationTarget.Workspace);
  const uri = fileUri('jobs/w-2001.readings.yaml');
  const all = () => vscode.languages.getDiagnostics(uri);
  await eventually('nothing is said of it yet', () => (all().length === 0 ? true : undefined));
  const [task] = (await offered()).filter(({ name }) => name === 'check');
  // a mistyped name makes a file malformed, even of an open job
  assert.equal(await ended(task), 1);
  const found = await eventually('findings', () =>
    hasRule('name/unknown-point')(all()) ? all() : undefined,
  );
  const mistyped = found.find((each) => ruleOf(each) === 'name/unknown-point');
  assert.equal(mistyped?.severity, vscode.DiagnosticSeverity.Error);
  assert.equal(mistyped?.range.start.line, 25);
  assert.match(mistyped?.message ?? '', /raill-tip-upper\.R/);
  assert.equal(mistyped?.source, 'framewright');
});
