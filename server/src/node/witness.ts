import type { Target } from '../commands/collect';
import type { CheckOptions, FileReport } from '../commands/file-report';
import type { Files } from '../workspace/files';
import { canonicalUri } from '../workspace/uris';
import { sumOf } from './kept-file';

/** Files that remember what their texts were when they were last read: what a judgement was made from is told by it. */
interface WitnessedFiles extends Files {
  /** Of the text that was read last; null where there was none. */
  idOf(uri: string): string | null;
}

export function witnessed(files: Files): WitnessedFiles {
  const ids = new Map<string, string>();
  return {
    root: (uri) => files.root(uri),
    list: (folder, ignored) => files.list(folder, ignored),
    leadsOut: (uri, folder) => files.leadsOut(uri, folder),
    read: async (uri) => {
      const read = await files.read(uri);
      const key = canonicalUri(uri);
      if (read.kind === 'text') ids.set(key, sumOf(read.text));
      else ids.delete(key);
      return read;
    },
    idOf: (uri) => ids.get(canonicalUri(uri)) ?? null,
  };
}

/** A report and the texts that it was made from. */
export interface WitnessedReport {
  readonly report: FileReport;
  /** The file's own text. */
  readonly id: string;
  /** Other files that it was made from. */
  readonly sources: readonly (readonly [uri: string, id: string])[];
}

/** Null where more had a part in the report than the texts of these files: then it does not hold next time. */
export function withSources(report: FileReport, uri: string, files: WitnessedFiles): WitnessedReport | null {
  const id = files.idOf(uri);
  if (id === null || report.madeFrom === null) return null;
  const sources: [string, string][] = [];
  for (const each of report.madeFrom) {
    const source = files.idOf(each);
    // what stands elsewhere is proposed in place of a file that is not there
    if (source === null) return null;
    sources.push([each, source]);
  }
  return { report, id, sources };
}

/** A report, and where it holds as long as some texts are the same what it was made from. */
export interface Made {
  readonly report: FileReport;
  readonly witnessed: WitnessedReport | null;
}

/** Makes the reports of many files, in any order of work, and gives them in the order of the targets. */
export type Making = (targets: readonly Target[], options: CheckOptions) => AsyncIterable<Made>;
