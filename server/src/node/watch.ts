import { type FSWatcher, watch } from 'node:fs';
import { basename } from 'node:path';
import { messageOf } from './error-code';

/** Folders of this machine, and what lies below them, watched for changes. */

/** An editor writes a file in several steps: so long after the last one it is looked at, ms. */
const restMs = 150;

interface Watching {
  /** Calls once now, as if something had changed. */
  look(): Promise<void>;
  /** Nothing is called any more. */
  end(): void;
}

/**
 * Calls back when something changed that matters, never while the last call is under way: what changes then makes one more. Begins to watch at once.
 * @param matters by the name of a file without its folder
 * @returns why a folder cannot be watched, in words for a person
 */
export function watched(
  folders: readonly string[],
  matters: (name: string) => boolean,
  changed: () => Promise<void>,
): Watching | string {
  const watchers: FSWatcher[] = [];
  let [isRunning, isDue, hasEnded] = [false, false, false];
  let rest: NodeJS.Timeout | undefined;
  const look = async (): Promise<void> => {
    isDue = isRunning;
    if (isRunning) return;
    isRunning = true;
    try {
      await changed();
    } finally {
      isRunning = false;
      if (isDue) soon();
    }
  };
  const soon = (): void => {
    clearTimeout(rest);
    if (!hasEnded) rest = setTimeout(look, restMs);
  };
  const end = (): void => {
    hasEnded = true;
    clearTimeout(rest);
    for (const each of watchers) each.close();
  };
  for (const folder of folders)
    try {
      const watcher = watch(folder, { recursive: true }, (_, name) => {
        if (name === null || matters(basename(name))) soon();
      });
      // a folder that is taken away ends nothing: what is left is looked at
      watcher.on('error', soon);
      watchers.push(watcher);
    } catch (error) {
      end();
      return `${folder} cannot be watched: ${messageOf(error)}`;
    }
  return { look, end };
}
