import { datePattern } from '@framewright/schemas';
import { acceptedIn, removalEdit, signaturesIn, signedText } from '../editor/actions/sign-off-block';
import { faultIn } from '../findings/internal/fault';
import { standingOf } from '../findings/standing';
import { applyEdits, plainOrQuoted } from '../text/edits';
import { printable } from '../text/printable';
import { parseText } from '../text/yaml/parse';
import type { Files } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
import { type JobAnalysis, Workspace } from '../workspace/workspace';
import type { Output } from './check-selected';
import type { Target } from './collect';

export const isDate = (text: string): boolean => datePattern.test(text);

/** Who signs, when, and whether over a signature that is there; what writes the file answers null, or says what went wrong. */
interface Signing extends Output {
  readonly by: string;
  readonly date: string;
  readonly again: boolean;
  write(text: string): string | null;
}

/**
 * Signs the dimensions of a job: only where nothing stands against it, and over an older signature only when that is asked for. Exit code
 * 0; 1 where something stands against it; 2 where the file cannot be read, judged or written.
 */
export async function sign(
  files: Files,
  { uri, path }: Target,
  signing: Signing,
  judges: Judges = ownJudges,
): Promise<number> {
  const complain = (message: string, code: 1 | 2): number => {
    signing.complain(printable(`framewright: ${path}: ${message}`));
    return code;
  };
  const analysisOf = (text: string | null) =>
    new Workspace(text === null ? files : withText(files, uri, text), judges).analysis(uri);
  const asItIs = await analysisOf(null);
  if (!('findings' in asItIs)) return complain(asItIs.message, 2);
  if (asItIs.kind !== 'readings') return complain('a sign-off belongs to a readings file', 2);
  const { signOff } = asItIs.job;
  if (signOff !== null && !signing.again)
    return complain(
      `it was signed already, by ${signOff.by ?? 'nobody named'}: --again signs anew and keeps that signature under \`earlier\``,
      1,
    );
  const removal = removalEdit(asItIs.tree);
  if (signOff !== null && removal === null)
    return complain('its sign-off cannot be moved: it stands in braces', 2);
  const open = removal === null ? asItIs : await analysisOf(applyEdits(asItIs.text, [removal]));
  const job = judged(open);
  if (typeof job === 'string') return complain(job, 2);
  const signature = {
    by: plainOrQuoted(signing.by),
    date: signing.date,
    accepted: acceptedIn(asItIs.tree),
    earlier: signaturesIn(asItIs.tree),
  };
  const text = signedText(job.tree, signature, job.inspection.chassis, job.settings.decisionRule);
  if (text === null || parseText(text).problems.length > 0)
    return complain('its text cannot take a sign-off', 2);
  // what counts is the file as it will stand, accepted points and all
  const signed = judged(await analysisOf(text));
  if (typeof signed === 'string') return complain(signed, 2);
  const { passes, remaining } = standingOf(signed);
  if (passes !== true) return complain(`not signed, for this stands against it: ${remaining.join('; ')}`, 1);
  const fault = signing.write(text);
  if (fault !== null) return complain(fault, 2);
  signing.print(
    printable(
      `${path}: signed by ${signing.by}, ${signing.date}. It covers dimensions only: not welds, corrosion protection, wheel alignment, restraints or calibrations.`,
    ),
  );
  return 0;
}

type Judged = JobAnalysis & { readonly inspection: NonNullable<JobAnalysis['inspection']> };

/** A job with all that is said of it, or why there is none. */
function judged(analysis: Awaited<ReturnType<Workspace['analysis']>>): Judged | string {
  if (!('findings' in analysis)) return analysis.message;
  if (analysis.kind !== 'readings') return 'a sign-off belongs to a readings file';
  const fault = faultIn(analysis.findings);
  if (fault !== null) return fault.message;
  const { inspection } = analysis;
  if (inspection === null) return 'its chassis file cannot be read, so nothing can be signed';
  if (inspection.heldBack) return 'it has errors that hold its judgement back: see `framewright check`';
  return { ...analysis, inspection };
}

/** The same files, one of them with another text. */
const withText = (files: Files, uri: string, text: string): Files => ({
  read: (asked) => (asked === uri ? Promise.resolve({ kind: 'text', text }) : files.read(asked)),
  list: (folderUri, ignored) => files.list(folderUri, ignored),
  root: (asked) => files.root(asked),
  leadsOut: (asked, folderUri) => files.leadsOut(asked, folderUri),
});
