/** The code of a fault of the system, `ENOENT`; undefined where it has none. */
export const codeOf = (error: unknown): string | undefined =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined;

export const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
