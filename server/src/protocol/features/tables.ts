import type {
  FollowAnswer,
  FollowQuestion,
  LayoutAnswer,
  LayoutQuestion,
  PasteAnswer,
  PasteQuestion,
  TableAnswer,
  TableQuestion,
} from '@framewright/schemas/wire';
import { titleAfter } from '../../editor/actions/next-measure-action';
import { changedPart } from '../../tables/editing/changed-part';
import { followedRows, markAt } from '../../tables/editing/followed-rows';
import { withLayout } from '../../tables/editing/kept-layout';
import { pastedRows, pasteTitle } from '../../tables/editing/pasted-rows';
import { type Fillable, fillable, importedInto } from '../../tables/into-file';
import { layoutLines, understoodAs } from '../../tables/layout-words';
import { faultText } from '../../tables/table-reading';
import { linesOf } from '../../text/lines';
import { folderOf } from '../../workspace/uris';
import { Workspace } from '../../workspace/workspace';
import { editOf } from '../convert';
import { tableOf } from '../sent-table';
import { asked, type Session } from '../session';
import type { Feature } from './feature';

/**
 * Tables that come into a file in the editor. Nothing is written here: who asks makes the edits, of the text as it was asked about. Questions
 * and answers are in `schemas/src/wire.ts`.
 *
 * - `framewright/pasteRows` (`PasteQuestion` → `PasteAnswer`)
 * - `framewright/tableInto` (`TableQuestion` → `TableAnswer`)
 * - `framewright/followTable` (`FollowQuestion` → `FollowAnswer`)
 * - `framewright/keepLayout` (`LayoutQuestion` → `LayoutAnswer`)
 */
export const tables: Feature = {
  capabilities: {},
  register: (session) => {
    const { connection } = session;
    connection.onRequest('framewright/pasteRows', (question: PasteQuestion) => paste(session, question));
    connection.onRequest('framewright/tableInto', (question: TableQuestion) => tableInto(session, question));
    connection.onRequest('framewright/followTable', (question: FollowQuestion) => follow(session, question));
    connection.onRequest('framewright/keepLayout', (question: LayoutQuestion) =>
      keepLayout(session, question),
    );
  },
};

async function paste(session: Session, { uri, range, text }: PasteQuestion): Promise<PasteAnswer> {
  const found = await asked(session, uri);
  if (found === null) return null;
  const { analysis, lines } = found;
  const offset = (at: PasteQuestion['range']['start']): number => lines.offsetAt(at.line, at.character);
  const made = pastedRows(analysis, { start: offset(range.start), end: offset(range.end) }, text);
  if (made === null || made.kind === 'refused') return made && { message: made.message };
  return { title: `Insert ${pasteTitle(made)}`, edits: [editOf(made.edit, lines)] };
}

/** So many rows that were not understood are told one by one. */
const mostTold = 40;

async function tableInto(session: Session, question: TableQuestion): Promise<TableAnswer> {
  const file = await fileAsked(session, question);
  if (typeof file === 'string') return { message: file };
  const chosen = await tableOf(session, question, file.settings.tables, false);
  if ('message' in chosen) return chosen;
  const { table, layout } = chosen;
  const { byPlace } = question;
  const { said, refused, text } = importedInto(file, table, {
    measure: null,
    unnamed: file.kind === 'readings' ? titleAfter(file.job.timeline) : '',
    partial: true,
    byPlace,
  });
  if (text === null) return { message: 'the text of the file cannot take the rows' };
  const edit = changedPart(file.text, text);
  return {
    understood: understoodAs(table),
    layout,
    guessed: layoutLines('x', table)
      .slice(1)
      .map((line) => line.slice(2)),
    layouts: [...file.settings.tables.keys()],
    said: said.join('; '),
    refused: refused.slice(0, mostTold).map(faultText),
    refusedCount: refused.length,
    byPlace: refused.filter((each) => each.byPlace !== undefined).length,
    leftOut: table.leftOut.map(({ row, why }) => `row ${row}: ${why}`),
    text: question.begun === null ? null : text,
    edits: edit === null || question.begun !== null ? [] : [editOf(edit, linesOf(file.text))],
  };
}

/** The file that rows go into, as it stands in the editor or is begun; or why it takes none. */
async function fileAsked(
  session: Session,
  { uri, begun }: Pick<TableQuestion, 'uri' | 'begun'>,
): Promise<Fillable | string> {
  if (begun === null) {
    const analysis = await session.current(uri);
    return analysis === null ? 'the file cannot be read' : fillable(analysis);
  }
  const { workspace } = session;
  const scratch = new Workspace({
    read: (each) => workspace.read(each),
    list: async () => ({ uris: [], unread: [] }),
    root: (each) => workspace.rootOf(each),
    leadsOut: async () => false,
  });
  scratch.setOpen(uri, begun);
  const analysis = await scratch.analysis(uri);
  return 'findings' in analysis ? fillable(analysis) : analysis.message;
}

async function follow(session: Session, question: FollowQuestion): Promise<FollowAnswer> {
  const file = await fileAsked(session, { uri: question.uri, begun: null });
  // a text that is being typed is broken now and then: what came waits until it is not
  if (typeof file === 'string') return { kind: 'waits', message: file };
  if (file.kind !== 'readings') return { kind: 'ended', message: 'a table is followed into a job' };
  const chosen = await tableOf(session, question, file.settings.tables, true);
  if ('message' in chosen) return { kind: 'waits', message: chosen.message };
  const { since } = question;
  if (since === 'now') return { kind: 'followed', mark: markAt(chosen.table), rows: 0, left: 0, edits: [] };
  const made = followedRows(file, chosen.table, since, titleAfter(file.job.timeline));
  if (made.kind === 'ended') return made;
  const { mark, rows, left, text } = made;
  const edit = text === null ? null : changedPart(file.text, text);
  return {
    kind: 'followed',
    mark,
    rows,
    left,
    edits: edit === null ? [] : [editOf(edit, linesOf(file.text))],
  };
}

async function keepLayout(session: Session, { uri, name, lines }: LayoutQuestion): Promise<LayoutAnswer> {
  const analysis = await session.current(uri);
  if (analysis === null) return { message: 'the file cannot be read' };
  const settings = analysis.dependencies.find((each) => each.endsWith('/.framewright.yaml'));
  const read = settings === undefined ? null : await session.workspace.read(settings);
  if (read !== null && read.kind !== 'text') return { message: 'the settings cannot be read' };
  const made = withLayout(read?.text ?? null, name, lines);
  if ('message' in made) return made;
  if (settings === undefined || read === null) {
    const root = (await session.workspace.rootOf(uri)) ?? folderOf(uri);
    return { uri: `${root.replace(/\/$/, '')}/.framewright.yaml`, text: made.text, edits: [] };
  }
  const edit = changedPart(read.text, made.text);
  return { uri: settings, text: null, edits: edit === null ? [] : [editOf(edit, linesOf(read.text))] };
}
