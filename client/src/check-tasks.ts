import {
  type Disposable,
  type ExtensionContext,
  ProcessExecution,
  Task,
  type TaskDefinition,
  TaskGroup,
  type TaskProvider,
  tasks,
  type WorkspaceFolder,
  workspace,
} from 'vscode';
import { checkArguments, checkName } from './check-words';

interface CheckDefinition extends TaskDefinition {
  readonly paths?: readonly string[];
  readonly open?: boolean;
}

const type = 'framewright';

/** *check* as a task, with its findings in the Problems of the editor: all files of a folder, be they open or not. */
export const checkTasks = (context: ExtensionContext): Disposable => {
  const program = context.asAbsolutePath('dist/command/bin/framewright.js');
  const provider: TaskProvider = {
    provideTasks: () =>
      folders().flatMap((folder) =>
        [{ type }, { type, open: true }].map((definition) => checkTask(program, folder, definition)),
      ),
    resolveTask: ({ definition, scope }) => {
      const folder = typeof scope === 'object' ? scope : folders()[0];
      return folder && checkTask(program, folder, definition);
    },
  };
  return tasks.registerTaskProvider(type, provider);
};

/** Folders that a program can read: not those that only the editor has. */
const folders = (): WorkspaceFolder[] =>
  (workspace.workspaceFolders ?? []).filter(({ uri }) => uri.scheme === 'file');

const checkTask = (program: string, folder: WorkspaceFolder, definition: CheckDefinition): Task => {
  // The editor's own program is Node where it is told so, so that none needs to be installed.
  const execution = new ProcessExecution(process.execPath, [program, ...checkArguments(definition)], {
    cwd: folder.uri.fsPath,
    env: { ELECTRON_RUN_AS_NODE: '1' },
  });
  const task = new Task(
    definition,
    folder,
    checkName(definition),
    'framewright',
    execution,
    matchersIn(folder),
  );
  task.group = TaskGroup.Test;
  return task;
};

/** Where the whole workspace is judged anyway, a second list of the same findings would stand beside the first. */
const matchersIn = (folder: WorkspaceFolder): string[] =>
  workspace.getConfiguration('framewright', folder).get<boolean>('checkWholeWorkspace')
    ? []
    : ['$framewright'];
