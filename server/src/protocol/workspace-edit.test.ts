import { expect, it } from 'vitest';
import { type ClientCapabilities, LSPErrorCodes } from 'vscode-languageserver';
import type { FileEdits } from '../editor/navigate/file-edits';
import type { Session } from './session';
import { versionsOf, workspaceEditOf } from './workspace-edit';

const [chassis, job] = ['file:///shop/m.chassis.yaml', 'file:///shop/w.readings.yaml'];
const range = { start: { line: 3, character: 2 }, end: { line: 3, character: 5 } };
const edit = (text: string, ofSignOff: boolean) => ({ start: 20, end: 23, text, range, ofSignOff });
const files: FileEdits[] = [
  { uri: chassis, edits: [edit('nose', false)] },
  { uri: job, edits: [edit('nose', false), edit('sha256-00', true)] },
];

/** A session with the job open. */
const sessionOf = (version: number, workspaceEdit?: object): Session => {
  const open = [{ uri: job, version }];
  const documents = { all: () => open, get: (uri: string) => open.find((each) => each.uri === uri) };
  const able: ClientCapabilities = { workspace: { workspaceEdit } };
  return { documents, able: () => able } as unknown as Session;
};

it('is plain where the editor knows no more', () => {
  const session = sessionOf(4);
  const { changes } = workspaceEditOf(files, session, versionsOf(session));
  expect(changes?.[chassis]).toEqual([{ range, newText: 'nose' }]);
  expect(changes?.[job]).toEqual([
    { range, newText: 'nose' },
    { range, newText: 'sha256-00' },
  ]);
});

it('holds for the version that was looked at; what is of a sign-off is to be confirmed', () => {
  const session = sessionOf(4, { documentChanges: true, changeAnnotationSupport: {} });
  const { documentChanges, changeAnnotations } = workspaceEditOf(files, session, versionsOf(session));
  expect(documentChanges).toEqual([
    { textDocument: { uri: chassis, version: null }, edits: [{ range, newText: 'nose' }] },
    {
      textDocument: { uri: job, version: 4 },
      edits: [
        { range, newText: 'nose' },
        { range, newText: 'sha256-00', annotationId: 'sign-off' },
      ],
    },
  ]);
  expect(changeAnnotations?.['sign-off'].needsConfirmation).toBe(true);
});

it('asks about nothing where no sign-off is touched', () => {
  const session = sessionOf(4, { documentChanges: true, changeAnnotationSupport: {} });
  expect(workspaceEditOf([files[0]], session, versionsOf(session)).changeAnnotations).toBeUndefined();
});

it('is refused where a document was edited or opened while the files were gone through', () => {
  const before = versionsOf(sessionOf(4));
  for (const [session, versions] of [
    [sessionOf(5), before],
    [sessionOf(4), new Map()],
  ] as const)
    expect(() => workspaceEditOf(files, session, versions)).toThrow(
      expect.objectContaining({ code: LSPErrorCodes.ContentModified }),
    );
});
