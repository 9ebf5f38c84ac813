/** Beside the schemas, so that who asks for a version alone need not load them. */

/** The program’s versions that have signed jobs, the oldest first. */
export const judgingVersions = ['0.1', '0.2'] as const;
export type JudgingVersion = (typeof judgingVersions)[number];
