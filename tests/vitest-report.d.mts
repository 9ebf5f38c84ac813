/** As much of vitest's JSON report as is asked for here. */
export interface VitestReport {
  readonly testResults: readonly {
    readonly name: string;
    readonly status: string;
    readonly message: string;
    readonly assertionResults: readonly {
      readonly fullName: string;
      readonly status: string;
      readonly failureMessages?: readonly string[];
    }[];
  }[];
}

export function failuresIn(report: VitestReport, root: string): string[];
export function retriedIn(report: VitestReport, root: string): string[];
