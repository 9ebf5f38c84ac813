import { type Places, WatchedFolders } from './watched-folders';

/** Folders of this machine watched for changes, and what is called then. */

interface Times {
  /** An editor writes a file in several steps: so long after the last one it is looked at. */
  readonly restMs: number;
  /** Who saves without a rest is looked at all the same. */
  readonly longestMs: number;
  /** A folder that could not be watched is tried again. */
  readonly againMs: number;
}

const usual: Times = { restMs: 150, longestMs: 2000, againMs: 2000 };

interface Watching {
  /** Calls once now, as if something had changed. */
  look(): Promise<void>;
  /** Nothing is called any more. */
  end(): void;
}

/**
 * Calls back when something changed that matters, never while the last call is under way: what changes then makes one more. Begins to
 * watch at once. What a call adds to the places is watched from its end on, and makes one more call.
 * @param matters by the path of a file; a folder that comes or goes always matters
 * @param changed is told what cannot be watched, in words for a person
 * @returns why one of the whole folders cannot be watched, in words for a person
 */
export function watched(
  places: Places,
  matters: (name: string) => boolean,
  changed: (unwatched: readonly string[]) => Promise<void>,
  { restMs, longestMs, againMs }: Times = usual,
): Watching | string {
  let [isRunning, isDue, hasEnded] = [false, false, false];
  let rest: NodeJS.Timeout | undefined;
  let again: NodeJS.Timeout | undefined;
  let firstMs: number | null = null;
  const folders = new WatchedFolders(places, (path, mayBeFolder) => {
    if (mayBeFolder || matters(path)) soon();
  });
  const look = async (): Promise<void> => {
    isDue = isRunning;
    if (isRunning || hasEnded) return;
    isRunning = true;
    firstMs = null;
    clearTimeout(again);
    try {
      // first, so that what comes meanwhile is heard
      folders.follow();
      await changed(folders.unwatched);
      if (!hasEnded && folders.followAlone()) isDue = true;
    } finally {
      isRunning = false;
      if (isDue) soon();
      else if (!hasEnded && folders.hasUnwatched) again = setTimeout(tryAgain, againMs);
    }
  };
  const soon = (): void => {
    clearTimeout(rest);
    firstMs ??= Date.now();
    if (!hasEnded) rest = setTimeout(look, Math.min(restMs, firstMs + longestMs - Date.now()));
  };
  const tryAgain = (): void => {
    if (folders.follow()) soon();
    else if (folders.hasUnwatched) again = setTimeout(tryAgain, againMs);
  };
  const end = (): void => {
    hasEnded = true;
    clearTimeout(rest);
    clearTimeout(again);
    folders.end();
  };
  folders.follow();
  const first = places.whole.map((folder) => folders.whyNot(folder)).find((why) => why !== null);
  if (first === undefined) return { look, end };
  end();
  return first;
}
