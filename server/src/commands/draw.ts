import { faultIn } from '../findings/internal/fault';
import type { Inspection } from '../inspection/job/inspect';
import type { Stage } from '../inspection/job/stage';
import { bodyAlone } from '../report/drawing/body-alone';
import { drawingOf } from '../report/drawing/drawing';
import { viewSvg } from '../report/drawing/drawing-svg';
import type { View } from '../report/drawing/drawing-views';
import { printable } from '../text/printable';
import type { Files } from '../workspace/files';
import { type ChassisAnalysis, type JobAnalysis, Workspace } from '../workspace/workspace';
import type { Output } from './check-selected';
import type { Target } from './collect';

interface WritingOutput extends Output {
  /** Null, or what went wrong. */
  write(text: string): string | null;
}

/** A job or a body with what is drawn of it. */
export interface Drawable {
  readonly analysis: JobAnalysis | ChassisAnalysis;
  readonly inspection: Inspection;
}

/** What can be drawn of a file, or why nothing can. */
export async function drawableFile(files: Files, { uri }: Target): Promise<Drawable | string> {
  const analysis = await new Workspace(files).analysis(uri);
  if (!('findings' in analysis)) return analysis.message;
  const fault = faultIn(analysis.findings);
  if (fault !== null) return fault.message;
  if (analysis.kind === 'settings') return 'settings hold no points';
  const inspection = analysis.kind === 'chassis' ? bodyAlone(analysis.chassis) : analysis.inspection;
  if (inspection === null) return 'its chassis file cannot be read, so there is nothing to draw';
  return inspection.chassis.points.size === 0 ? 'it has no points' : { analysis, inspection };
}

const drawingWidth = 1000;

/** Writes one view as SVG: of a job its newest stage off load over its first, of a body its points. Exit code 0 or 2. */
export async function draw(files: Files, file: Target, view: View, output: WritingOutput): Promise<number> {
  const complain = (message: string): number => {
    output.complain(printable(`framewright: ${message}`));
    return 2;
  };
  const drawable = await drawableFile(files, file);
  if (typeof drawable === 'string') return complain(`${file.path}: ${drawable}`);
  const { inspection } = drawable;
  const read = inspection.stages.filter(({ underTension, points }) => !underTension && points.length > 0);
  const [first, last]: (Stage | undefined)[] = [read[0], read.at(-1)];
  const drawing = drawingOf(inspection, last ?? null, {
    width: drawingWidth,
    views: [view],
    over: first === last ? null : first,
  });
  const [drawn] = drawing.views;
  if (drawn === undefined) return complain(`${file.path}: nothing is seen from there`);
  const fault = output.write(`${viewSvg(drawing, drawn, 'drawing', true).markup}\n`);
  return fault === null ? 0 : complain(fault);
}
