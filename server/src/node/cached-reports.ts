import type { Reporting } from '../commands/check-selected';
import type { FileReport } from '../commands/file-report';
import type { ResultCache } from './result-cache';
import type { Making } from './witness';

/** Reports of what was judged before with all as it is now, and for the others those that are made. Null: all are made. */
export function reportingOf(making: Making, cache: ResultCache | null): Reporting {
  return async function* (targets, options) {
    const known: ((() => FileReport) | null)[] = [];
    for (const target of targets) known.push((await cache?.found(target, options)) ?? null);
    const due = targets.filter((_, i) => known[i] === null);
    const maker = due.length === 0 ? null : making(due, options)[Symbol.asyncIterator]();
    try {
      for (let i = 0; i < targets.length; i++) {
        const report = known[i];
        if (report !== null) {
          yield report();
          continue;
        }
        const next = await maker?.next();
        if (next === undefined || next.done) throw new Error('fewer reports were made than there are files');
        const { report: made, witnessed } = next.value;
        if (witnessed !== null) await cache?.keep(targets[i], options, witnessed);
        yield made;
      }
    } finally {
      await maker?.return?.(undefined);
      cache?.sweep();
    }
  };
}
