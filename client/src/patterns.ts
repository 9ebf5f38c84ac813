/**
 * How our files are told from others: by language id, and by name where a user's own association gave the
 * file another id (`"*.yaml": "yaml"`), so that it is judged all the same.
 */

export const languageIds = ['framewright-chassis', 'framewright-readings', 'framewright-settings'] as const;

/** Glob patterns of the names, for document filters, watchers and searches. */
export const namePatterns = ['**/*.chassis.yaml', '**/*.readings.yaml', '**/.framewright.yaml'] as const;
