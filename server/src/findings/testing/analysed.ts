import { linesOf } from '../../text/lines';
import { memoryFiles } from '../../workspace/testing/memory-files';
import { type Analysis, Workspace } from '../../workspace/workspace';

/**
 * For tests: a small file in the language with its expected findings marked under the lines, as comments:
 *
 *     rail-tip-upper.L: [3002.9, 437.8, 353.0]
 * #   ^^^^^^^^^^^^^^^^ error: reading/outside 14.2 mm
 *
 * The carets stand under the range; after them severity, rule and a piece of the message. `#<^^` begins in the first column.
 */
export interface Expected {
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly severity: string;
  readonly rule: string;
  readonly message: string;
}

const mark = /^#( *)(<?)(\^+) (error|warning|information): (\S+) ?(.*)$/;

/** The marks of a fixture; they stay in the text as the comments that they are. */
function expectedIn(text: string): Expected[] {
  const expected: Expected[] = [];
  let line = -1;
  text.split('\n').forEach((content, number) => {
    const found = content.match(mark);
    if (found === null) {
      line = number;
      return;
    }
    const [, spaces, first, carets, severity, rule, message] = found;
    const start = first === '<' ? 0 : 1 + spaces.length;
    expected.push({
      line,
      start,
      end: 1 + spaces.length + first.length + carets.length,
      severity,
      rule,
      message,
    });
  });
  return expected;
}

const folder = 'file:///shop/';

/** Analyses one file of a few that stand in one folder; names without a folder. */
export async function analysed(files: Record<string, string>, name: string): Promise<Analysis> {
  const texts = Object.fromEntries(Object.entries(files).map(([each, text]) => [folder + each, text]));
  const analysis = await new Workspace(memoryFiles(texts, folder)).analysis(folder + name);
  if (analysis.kind !== 'chassis' && analysis.kind !== 'readings' && analysis.kind !== 'settings')
    throw new Error(`${name}: ${analysis.message}`);
  return analysis;
}

/**
 * What is found in a file, in the form of its marks, so that a test compares two lists. Findings of rules outside `family`
 * (a prefix such as `reading/` or a whole rule name) are left out; ignored ones are too.
 */
export async function foundIn(
  files: Record<string, string>,
  name: string,
  family = '',
): Promise<{ found: Expected[]; expected: Expected[] }> {
  const analysis = await analysed(files, name);
  const lines = linesOf(analysis.text);
  const expected = expectedIn(analysis.text).sort(byPlace);
  const found = analysis.findings
    .filter((finding) => finding.rule.startsWith(family) && finding.ignored === null)
    .map((finding) => {
      const start = lines.positionAt(finding.range.start);
      const end = lines.positionAt(finding.range.end);
      const { severity, rule, message } = finding;
      const where = {
        line: start.line,
        start: start.character,
        end: end.line === start.line ? end.character : -1,
      };
      const wanted = expected.find(
        (each) => each.rule === rule && each.line === where.line && message.includes(each.message),
      );
      // a mark names a piece of the message: where it is there, the piece stands for the whole
      return { ...where, severity, rule, message: wanted ? wanted.message : message };
    })
    .sort(byPlace);
  return { found, expected };
}

const byPlace = (a: Expected, b: Expected): number =>
  a.line - b.line || a.start - b.start || (a.rule < b.rule ? -1 : 1);
