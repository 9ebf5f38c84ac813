import type { TextRange } from '../../findings/rule/finding';
import type { JudgedPoint } from '../../inspection/alignment/points';
import type { JudgedSpan } from '../../inspection/alignment/spans';
import { beyond, type Verdict } from '../../inspection/alignment/verdict';
import type { Stage } from '../../inspection/job/stage';
import { type Axis, axes } from '../../model/chassis';
import { lengthFigure, type Unit } from '../../model/units';
import { offsetsOf, type Place } from '../../text/tree';
import { axisNames, certaintyText, directionWord, sideWord } from '../../wording/wording';
import type { JobAnalysis } from '../../workspace/workspace';
import { newestRead } from './newest-read';

/** What is shown beside a reading without being in the file. */
interface Hint {
  readonly offset: number;
  readonly text: string;
  readonly tooltip: string;
  readonly verdict: Verdict;
}

export interface HintChoice {
  readonly stages: 'off' | 'newest' | 'all';
  /** With ± at 95 %. */
  readonly certainty: boolean;
  /** Beside all of them, or only where something may be off. */
  readonly show: 'all' | 'not-within';
}

/** How far off each reading is, in words of direction, beside the readings of the newest stage that has any, or of all. */
export function inlayHints(
  { inspection, job }: JobAnalysis,
  range: TextRange,
  { stages, certainty, show }: HintChoice,
): Hint[] {
  if (inspection === null || stages === 'off') return [];
  const newest = newestRead(inspection.stages);
  const shown = stages === 'all' ? inspection.stages : newest ? [newest] : [];
  return shown.flatMap((stage) => {
    const place = offsetsOf(stage.measure.place);
    if (place.start > range.end || place.end < range.start) return [];
    const beside = (end: Place, verdict: Verdict, figures: (certainty: boolean) => string): Hint[] => {
      const offset = offsetsOf(end).end;
      if (offset < range.start || offset > range.end) return [];
      if (show === 'not-within' && verdict === 'within') return [];
      const text = withNote(figures(certainty), stage);
      return [{ offset, text, tooltip: tooltip(verdict, figures(true), stage), verdict }];
    };
    return [
      ...stage.points.flatMap((judged) =>
        beside(judged.reading.value, judged.verdict, (certain) => pointText(judged, job.unit, certain)),
      ),
      ...stage.spans.flatMap((span) =>
        beside(span.reading.place, span.verdict, (certain) => spanText(span, job.unit, certain)),
      ),
    ];
  });
}

/**
 * `13.6 rearward, 1.2 inboard, height ?`; what shows as nothing is left out. What is past its limit stands first, the farthest first, and then what is not
 * known: an editor may end before the hint does.
 */
function pointText({ deviation, uncertainty, point }: JudgedPoint, unit: Unit, certainty: boolean): string {
  if (deviation.every((each) => each === null)) return 'not judged';
  const axisText = (k: Axis): string[] => {
    const [d, u] = [deviation[k], uncertainty[k]];
    if (d === null) return [`${axisNames[k]} ?`];
    const size = lengthFigure(Math.abs(d), unit);
    const certain = certainty && u !== null ? ` ${certaintyText(u, unit)}` : '';
    if (Number(size) === 0) return certainty ? [`${axisNames[k]} 0${certain}`] : [];
    return [`${size}${certain} ${sideWord(k, d, point.side) ?? directionWord(k, d)}`];
  };
  // within its limits none counts more than another
  const past = (k: Axis): number => {
    const [d, [low, high]] = [deviation[k], point.limits[k]];
    return d === null || !beyond(d, [low, high]) ? 0 : Math.max(low - d, d - high);
  };
  const rank = (k: Axis): number => (past(k) > 0 ? 2 : deviation[k] === null ? 1 : 0);
  const ordered = [...axes].sort((a, b) => rank(b) - rank(a) || past(b) - past(a));
  const texts = ordered.flatMap(axisText);
  return texts.length === 0 ? 'in place' : texts.join(', ');
}

function spanText({ deviationMm, uncertaintyMm }: JudgedSpan, unit: Unit, certainty: boolean): string {
  const size = lengthFigure(Math.abs(deviationMm), unit);
  const certain = certainty ? ` ${certaintyText(uncertaintyMm, unit)}` : '';
  return Number(size) === 0
    ? `as listed${certain}`
    : `${size}${certain} too ${deviationMm > 0 ? 'long' : 'short'}`;
}

/** What it must not be taken for stands first: an editor may cut a hint short. */
const withNote = (text: string, { provisional, underTension }: Stage): string =>
  `${provisional ? 'provisional: ' : ''}${underTension ? 'peak: ' : ''}${text}`;

/** The verdict with its figures and how certain they are. */
const tooltip = (verdict: string, figures: string, { provisional, underTension }: Stage): string =>
  [
    provisional
      ? `Provisional, the base of this stage is not settled: ${figures}.`
      : `This is ${verdict}: ${figures}.`,
    ...(underTension ? ['Read under tension: a peak. What counts is the reading after release.'] : []),
  ].join(' ');
