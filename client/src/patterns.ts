/**
 * How our files are told from others: by language id, and by name where a user's own association gave the
 * file another id (`"*.yaml": "yaml"`), so that it is judged all the same.
 */

export const languageIds = ['framewright-chassis', 'framewright-readings', 'framewright-settings'] as const;

/** How the names of the two kinds of file end that a shop has many of. */
export const chassisEnding = '.chassis.yaml';
export const jobEnding = '.readings.yaml';

/** Glob patterns of the names, for document filters, watchers and searches. */
export const chassisPattern = `**/*${chassisEnding}`;
export const jobPattern = `**/*${jobEnding}`;
export const namePatterns: readonly string[] = [chassisPattern, jobPattern, '**/.framewright.yaml'];
