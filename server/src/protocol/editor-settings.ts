import type { Connection } from 'vscode-languageserver';
import type { Configuration } from './session';

/** So long an editor is waited for that said it has settings, ms. Without them the defaults hold until it answers. */
const longestWaitMs = 5000;

const isMap = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What an editor gives under `framewright`, be it nothing or anything else. */
export const configurationOf = (given: unknown): Configuration => {
  if (!isMap(given)) return {};
  const { severity, ...rest } = given;
  return isMap(severity) ? ({ ...rest, severity } as Configuration) : rest;
};

/**
 * Asks the editor for its settings. Does not throw: with an editor that refuses, what held before holds.
 * @param take called with them
 * @param late called after that where they were no longer waited for
 */
export async function pulledConfiguration(
  connection: Connection,
  take: (given: Configuration) => void,
  late: () => void,
): Promise<void> {
  let isLate = false;
  const pulled = connection.workspace.getConfiguration('framewright').then(
    (given) => {
      take(configurationOf(given));
      if (isLate) late();
    },
    (error: Error) => connection.console.warn(`the editor gave no settings: ${error.message}`),
  );
  let timer: ReturnType<typeof setTimeout> | undefined;
  const waited = new Promise<void>((resolve) => {
    timer = setTimeout(() => {
      isLate = true;
      resolve();
    }, longestWaitMs);
  });
  await Promise.race([pulled, waited]);
  clearTimeout(timer);
}
