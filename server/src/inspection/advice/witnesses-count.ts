/**
 * Whether verdicts rest on witnesses as well as on control points. While they rest on control points alone, advice counts on these alone,
 * so that what it promises is kept.
 */
export const witnessesCount: boolean = false;
