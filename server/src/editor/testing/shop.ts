import { applyEdits } from '../../text/edits';
import { memoryFiles } from '../../workspace/testing/memory-files';
import { type Analysis, Workspace } from '../../workspace/workspace';
import { WorkspaceQuery } from '../../workspace/workspace-query';
import type { FileEdits } from '../navigate/file-edits';
import type { Texts } from './asked';

/** A shop's repository in memory, for questions that go through all its files; names are relative to it. */
export const shopFolder = 'file:///shop/';

interface Shop {
  readonly workspace: Workspace;
  workspaceQuery(): WorkspaceQuery;
  analysis(name: string): Promise<Analysis>;
}

export function shopOf(texts: Texts): Shop {
  const byUri = Object.fromEntries(Object.entries(texts).map(([name, text]) => [shopFolder + name, text]));
  const workspace = new Workspace(memoryFiles(byUri, shopFolder));
  return {
    workspace,
    workspaceQuery: () => new WorkspaceQuery(workspace, [shopFolder]),
    analysis: async (name) => {
      const analysis = await workspace.analysis(shopFolder + name);
      if (!('findings' in analysis)) throw new Error(`${name}: ${analysis.message}`);
      return analysis;
    },
  };
}

/** Offset of a piece of a text, which has to be there. */
export function offsetOf(text: string, piece: string): number {
  const at = text.indexOf(piece);
  if (at < 0) throw new Error(`not in the text: ${piece}`);
  return at;
}

/** The repository after edits of its files. */
export function edited(texts: Texts, files: readonly FileEdits[]): Texts {
  const byName = new Map(
    files.map(({ uri, edits }) => [decodeURIComponent(uri.slice(shopFolder.length)), edits]),
  );
  if (byName.size < files.length) throw new Error('one file is edited twice');
  for (const name of byName.keys()) if (!Object.hasOwn(texts, name)) throw new Error(`no such file: ${name}`);
  return Object.fromEntries(
    Object.entries(texts).map(([name, text]) => [name, applyEdits(text, byName.get(name) ?? [])]),
  );
}
