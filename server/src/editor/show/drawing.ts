import type * as wire from '@framewright/schemas/wire';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { bodyAlone } from '../../report/drawing/body-alone';
import { type Drawing, type DrawnView, drawingOf } from '../../report/drawing/drawing';
import { drawingKey } from '../../report/drawing/drawing-key';
import { spanTable } from '../../report/drawing/drawing-span-table';
import { type MadeBefore, viewSheet } from '../../report/drawing/drawing-svg';
import { drawingTable } from '../../report/drawing/drawing-table';
import { solidOf } from '../../report/drawing/solid';
import { historySheets } from '../../report/history/history-sheets';
import { markup, shortened } from '../../report/markup';
import type { Sheet } from '../../report/sheet';
import type { Analysis } from '../../workspace/workspace';
import { pointAt, stageAt } from './drawing-text';

/** What somebody looks at, with the cursor as an offset. */
export interface DrawingQuestion extends Omit<wire.DrawingQuestion, 'uri' | 'view' | 'known' | 'cursor'> {
  /** Offset of the cursor in the text; null where it is elsewhere. */
  readonly cursor: number | null;
  /** What was last answered to the same view: what is as it was is not made again. */
  readonly before?: DrawingAnswer | null;
}

/** What is to be shown, as plain data and markup; stages and selection as they came out. */
export interface DrawingAnswer extends Omit<wire.DrawingAnswer, 'revision' | 'sheets' | 'names' | 'styles'> {
  readonly sheets: readonly Sheet[];
  /** What the sheets were made from; null where nothing is drawn. */
  readonly drawing: Drawing | null;
}

/** Null for a file that has no drawing. */
export function drawingAnswer(analysis: Analysis, question: DrawingQuestion): DrawingAnswer | null {
  if (analysis.kind === 'settings') return null;
  const inspection = analysis.kind === 'chassis' ? bodyAlone(analysis.chassis) : analysis.inspection;
  const title = titleOf(analysis);
  if (inspection === null || inspection.chassis.points.size === 0)
    return {
      title,
      obstacle:
        inspection === null
          ? 'Nothing can be drawn: the chassis file of this job cannot be read.'
          : 'Nothing can be drawn: the chassis file has no points.',
      stages: [],
      stage: null,
      over: null,
      selected: null,
      cursorStage: null,
      sheets: [],
      drawing: null,
      solid: null,
    };
  const { stages } = inspection;
  const cursorStage = question.cursor === null ? null : stageAt(inspection, question.cursor);
  const follows = cursorStage !== null && cursorStage !== question.cursorStage;
  const index = stageNumber(follows ? cursorStage : (question.stage ?? stages.length - 1), stages);
  const over = question.over === index ? null : stageNumber(question.over, stages);
  const atCursor = question.cursor === null ? null : pointAt(analysis, inspection, question.cursor);
  const selected =
    atCursor ?? (inspection.chassis.points.has(question.selected ?? '') ? question.selected : null);
  const stage = stageOf(stages, index);
  const drawing = drawingOf(inspection, stage, {
    width: question.width,
    over: stageOf(stages, over),
    selected,
    ...(question.section === 'drawing' ? {} : { views: [] }),
  });
  return {
    title,
    obstacle: null,
    stages: stages.map(({ name, underTension }) => ({ name: shortened(name, 60), underTension })),
    stage: index,
    over,
    selected,
    cursorStage,
    sheets: sheetsOf(inspection, drawing, stage, selected, question),
    drawing,
    solid: question.section === 'solid' ? solidOf(inspection, drawing, selected) : null,
  };
}

const stageOf = (stages: readonly Stage[], index: number | null): Stage | null =>
  index === null ? null : stages[index];

const stageNumber = (wanted: number | null, { length }: readonly Stage[]): number | null =>
  wanted === null || length === 0 ? null : Math.min(Math.max(0, Math.trunc(wanted)), length - 1);

function titleOf(analysis: Exclude<Analysis, { kind: 'settings' }>): string {
  const vehicle = shortened(analysis.chassis?.vehicle || 'vehicle not stated', 80);
  if (analysis.kind === 'chassis') return vehicle;
  return `${shortened(analysis.job.order ?? 'no order number', 40)} · ${vehicle}`;
}

function sheetsOf(
  inspection: Inspection,
  drawing: Drawing,
  stage: Stage | null,
  selected: string | null,
  { section, width, before = null }: DrawingQuestion,
): Sheet[] {
  const cautions: Sheet = {
    name: 'cautions',
    open: markup`<ul class="cautions">`,
    pieces: new Map(drawing.cautions.map((text, i) => [String(i), markup`<li>${text}</li>`])),
    close: markup`</ul>`,
  };
  const key: Sheet = {
    name: 'key',
    open: markup`<div>`,
    pieces: new Map([['key', drawingKey(drawing)]]),
    close: markup`</div>`,
  };
  const known = (name: string) => before?.sheets.find((sheet) => sheet.name === name);
  const table = known('points');
  const tableBefore =
    before?.drawing && table ? { drawing: before.drawing, selected: before.selected, sheet: table } : null;
  const viewBefore = ({ frame }: DrawnView): MadeBefore | null => {
    const view = before?.drawing?.views.find((each) => each.frame.view === frame.view);
    const sheet = known(frame.view);
    return view && sheet ? { view, sheet } : null;
  };
  const distances = spanTable(drawing);
  return [
    cautions,
    drawingTable(drawing, selected, tableBefore),
    ...(distances === null ? [] : [distances]),
    ...(section === 'drawing'
      ? [...drawing.views.map((view) => viewSheet(drawing, view, 'drawing', 'label', viewBefore(view))), key]
      : []),
    ...(section === 'solid' ? [key] : []),
    ...(section === 'history' ? historySheets(inspection, stage, selected, width) : []),
  ];
}
