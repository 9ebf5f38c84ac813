import type { TextRange } from '../../findings/rule/finding';
import { raiserOf } from '../../findings/rule-list';
import { inspected } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { jobFrom } from '../../model/read/job-from-text';
import { mmPer, type Unit } from '../../model/units';
import { applyEdits, entryInsertion, entryReplacement, plainOrQuoted, type TextEdit } from '../../text/edits';
import { entryOf, offsetsOf } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import { summaryLines } from '../../wording/summaries';
import type { Analysis, JobAnalysis } from '../../workspace/workspace';
import { onFirstLine } from '../places';
import type { Action } from './code-action';
import { lengthsOf, type WrittenLength } from './lengths';

/** *Convert file to inch* or *to mm*, at the head of a file and on `units:`: every length, comments and layout kept. */
export function unitsActions(analysis: Analysis, range: TextRange): Action[] {
  if (analysis.kind === 'settings' || !isAsked(analysis, range) || !isSound(analysis)) return [];
  const from = analysis.kind === 'chassis' ? analysis.chassis.unit : analysis.job.unit;
  const to: Unit = from === 'mm' ? 'inch' : 'mm';
  let made: TextEdit[] | null = null;
  return [
    {
      title: `Convert file to ${to}`,
      kind: 'refactor.rewrite',
      get edits() {
        made ??= conversion(analysis, from, to);
        return made;
      },
      preferred: false,
      mends: null,
    },
  ];
}

function isAsked({ tree, text }: Analysis, range: TextRange): boolean {
  return ['framewright', 'units'].some((key) => {
    const entry = entryOf(tree.root, key);
    return entry !== undefined && onFirstLine(entry.place, text, range);
  });
}

/** A value behind a name (`&name`, `*name`) may be a length in one place and none in another. */
const namedValue = /^[^#\r\n]*[\s[{,:][&*][\w-]/m;

/** Half a conversion is worse than none: not while something cannot be read, nor where a name stands for a value; and what is signed stays as it was signed. */
const isSound = (analysis: Analysis): boolean =>
  !analysis.findings.some(({ rule, severity }) => raiserOf(rule) === 'text' && severity === 'error') &&
  !namedValue.test(analysis.text) &&
  !(analysis.kind === 'readings' && analysis.job.signOff !== null);

function conversion(analysis: Analysis, from: Unit, to: Unit): TextEdit[] {
  const factor = mmPer[from] / mmPer[to];
  const numbers = lengthsOf(analysis).map((length) => numberEdit(analysis.text, length, factor, to));
  const edits = [...numbers, ...unitEdit(analysis, to)];
  return analysis.kind === 'readings' ? [...edits, ...summaryEdits(analysis, edits)] : edits;
}

/**
 * The number in the other unit. A thousandth of an inch is a fortieth of a millimetre: two decimals more for a position keep what was
 * read, three for a tolerance or an uncertainty; back, one less.
 */
function numberEdit(text: string, { node, fine }: WrittenLength, factor: number, to: Unit): TextEdit {
  const { start, end } = offsetsOf(node.place);
  const value = Number(node.value) * factor;
  const decimals = decimalsOf(node.source);
  const wanted =
    to === 'inch'
      ? fine
        ? Math.max(4, decimals + 3)
        : Math.max(3, decimals + 2)
      : Math.max(1, decimals - 1);
  const fixed = value.toFixed(wanted);
  const figure = value === 0 ? node.source.trim() : fine ? String(Number(fixed)) : fixed;
  // in a column of numbers the blanks before it give way or grow, so that it stays one
  const blanks = /[[,]( *)$/.exec(text.slice(Math.max(0, start - 40), start));
  const least = blanks && blanks[0][0] === ',' ? 1 : 0;
  if (!blanks || blanks[1].length <= least) return { start, end, text: figure };
  const width = blanks[1].length + (end - start);
  return { start: start - blanks[1].length, end, text: ' '.repeat(least) + figure.padStart(width - least) };
}

/** Figures behind the point, an exponent reckoned in. */
function decimalsOf(source: string): number {
  const [, digits = '', exponent = '0'] =
    /^[-+]?\d*(?:\.(\d*))?(?:[eE]([-+]?\d+))?$/.exec(source.trim()) ?? [];
  return Math.max(0, digits.length - Number(exponent));
}

function unitEdit({ tree }: Analysis, to: Unit): TextEdit[] {
  const { root } = tree;
  if (root?.kind !== 'map') return [];
  const written = entryOf(root, 'units');
  const above = ['technician', 'order', 'chassis', 'vehicle', 'framewright'].map((key) => entryOf(root, key));
  const edit = written
    ? entryReplacement(tree, root, written, [to])
    : entryInsertion(
        tree,
        root,
        'units',
        [to],
        above.find((entry) => entry !== undefined),
      );
  return edit === null ? [] : [edit];
}

/** Summaries that were current are so in the new unit too: the lines that the program would write of the converted job. */
function summaryEdits(
  { job, chassis, inspection, text }: JobAnalysis,
  edits: readonly TextEdit[],
): TextEdit[] {
  const has = job.timeline.some((entry) => entry.kind === 'measure' && entry.summary.length > 0);
  if (!has || chassis === null || inspection === null || inspection.heldBack) return [];
  const after = inspected(jobFrom(job.uri, parseText(applyEdits(text, edits))), chassis);
  const linesOf = (of: typeof inspection, stage: Stage | undefined) =>
    new Map(stage ? summaryLines(of, stage).map((line) => [line.key, line.text]) : []);
  return inspection.stages.flatMap((stage, i) => {
    if (stage.measure.summary.length === 0) return [];
    const [old, now] = [linesOf(inspection, stage), linesOf(after, after.stages[i])];
    return stage.measure.summary.flatMap((line) => {
      const wanted = now.get(line.key);
      if (old.get(line.key) !== line.text || wanted === undefined || wanted === line.text) return [];
      return [{ ...offsetsOf(line.valuePlace), text: plainOrQuoted(wanted) }];
    });
  });
}
