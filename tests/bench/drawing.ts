import { performance } from 'node:perf_hooks';
import {
  type DrawingAnswer,
  type DrawingQuestion,
  drawingAnswer,
} from '../../server/src/editor/show/drawing';
import { type Sheet, sheetPatch } from '../../server/src/report/sheet';
import { applyEdits } from '../../server/src/text/edits';
import { memoryFiles } from '../../server/src/workspace/testing/memory-files';
import { Workspace } from '../../server/src/workspace/workspace';
import { type EditKind, editKinds, editsOf, inNewestStage } from './edits';
import { jobOf, outsideShare } from './generate';
import { yamlText } from './job';
import { median, quantile } from './statistics';

/** What passes from an edit to the patch of a drawing, ms; the view has then to put it in. */
export interface DrawingTimes {
  readonly kind: EditKind;
  readonly judgedMs: readonly number[];
  readonly drawnMs: readonly number[];
  /** Size of the patch, characters. */
  readonly characters: readonly number[];
}

const folder = 'file:///shop/';
const uri = `${folder}w-3000.readings.yaml`;

/** A body of 200 points in 20 stages; what is edited is seen: the newest stage, over the first. */
export async function drawingTimes(turns: number): Promise<DrawingTimes[]> {
  const { body, job, chassisName } = jobOf(4000, outsideShare);
  const idsWhere = (isControl: boolean) =>
    body.points
      .filter((point) => point.isControl === isControl)
      .flatMap(({ name }) => [`${name}.L`, `${name}.R`]);
  const ids = { judged: idsWhere(false), control: idsWhere(true) };
  const times: DrawingTimes[] = [];
  for (const kind of editKinds) {
    let text = yamlText(job);
    const workspace = new Workspace(memoryFiles({ [folder + chassisName]: body.chassis }, folder));
    const edit = editsOf(kind, 'yaml', ids, 7);
    let shown = new Map<string, Sheet>();
    let before: DrawingAnswer | null = null;
    const kept = { judgedMs: [] as number[], drawnMs: [] as number[], characters: [] as number[] };
    for (let turn = 0; turn <= turns; turn++) {
      const splice = kind.startsWith('a digit') ? inNewestStage(edit, text) : edit(text);
      text = applyEdits(text, [splice]);
      const start = performance.now();
      workspace.setOpen(uri, text, 'readings');
      const analysis = await workspace.analysis(uri);
      if (!('findings' in analysis)) throw new Error(analysis.message);
      const judged = performance.now();
      const answer: DrawingAnswer | null = drawingAnswer(analysis, { ...question, before });
      if (answer === null) throw new Error('no drawing');
      const patch = JSON.stringify(
        answer.sheets.flatMap((each) => sheetPatch(shown.get(each.name) ?? null, each) ?? []),
      );
      const drawn = performance.now();
      before = answer;
      shown = new Map(answer.sheets.map((each) => [each.name, each]));
      // the first time everything is drawn
      if (turn === 0) continue;
      kept.judgedMs.push(judged - start);
      kept.drawnMs.push(drawn - judged);
      kept.characters.push(patch.length);
    }
    times.push({ kind, ...kept });
  }
  return times;
}

/** Tables for the printed benchmark. */
export const drawingParts = (
  times: readonly DrawingTimes[],
  table: (head: readonly string[], rows: readonly (readonly string[])[]) => string,
): string[] => [
  table(
    [
      '200 points in 20 stages, edit to patch, ms',
      'judged',
      'drawn',
      '95th percentile of both',
      'characters',
    ],
    times.map(({ kind, judgedMs, drawnMs, characters }) => [
      kind,
      median(judgedMs).toFixed(1),
      median(drawnMs).toFixed(1),
      quantile(togetherMs({ judgedMs, drawnMs }), 0.95).toFixed(1),
      median(characters).toFixed(0),
    ]),
  ),
];

/** From an edit to the patch that goes to the view. */
export const togetherMs = ({ judgedMs, drawnMs }: Pick<DrawingTimes, 'judgedMs' | 'drawnMs'>): number[] =>
  judgedMs.map((ms, i) => ms + drawnMs[i]);

const question: DrawingQuestion = {
  section: 'drawing',
  stage: null,
  over: 0,
  selected: null,
  cursor: null,
  cursorStage: null,
  width: 640,
};
