import type { Range } from 'vscode-languageserver';
import { type ChassisEntry, fileEntry, type JobEntry } from '../editor/show/jobs';
import { faultIn } from '../findings/internal/fault';
import { linesOf } from '../text/lines';
import type { Found } from '../workspace/whole-check';
import { rangeOf } from './convert';

/** A job or chassis file as a list of them shows it, with positions in place of offsets. */
export type Entry =
  | JobLine
  | ChassisEntry
  /** It could not be read, or not be judged; `message` says why. */
  | { readonly kind: 'unreadable'; readonly uri: string; readonly message: string }
  /** It was not looked at yet, or will not be. */
  | { readonly kind: 'unchecked'; readonly uri: string; readonly of: 'job' | 'chassis' };

type JobLine = Omit<JobEntry, 'worst'> & {
  /** The point farthest past its limit: `20.0 mm too far left (outboard)`, and the place of its row. */
  readonly worst: { readonly id: string; readonly words: string; readonly range: Range } | null;
};

/**
 * The line of a file that was looked at; null for a settings file. It shares no text with the file: a piece of a text keeps the
 * whole of it in memory.
 */
export function entryOf(uri: string, found: Found): Entry | null {
  if (!('findings' in found)) return { kind: 'unreadable', uri, message: found.message };
  // what it shows would not hold for all of it
  const fault = faultIn(found.findings);
  if (fault !== null) return { kind: 'unreadable', uri, message: fault.message };
  const entry = fileEntry(found);
  if (entry?.kind !== 'job') return structuredClone(entry);
  const worst = entry.worst && { ...entry.worst, range: rangeOf(entry.worst.range, linesOf(found.text)) };
  return structuredClone({ ...entry, worst });
}
