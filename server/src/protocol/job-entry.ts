import type { Entry } from '@framewright/schemas/wire';
import { fileEntry } from '../editor/show/jobs';
import { faultIn } from '../findings/internal/fault';
import { linesOf } from '../text/lines';
import type { Found } from '../workspace/whole-check';
import { rangeOf } from './convert';

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
