import type { InspectJob, InspectOutput } from '@framewright/schemas';
import { inspect } from '../commands/inspect';
import { recorded, sampleTexts, shopOf, target } from '../commands/recorded.fixture';
import { analysed } from '../findings/testing/analysed';
import { recordPage } from './record/record';
import type { RecordedJob } from './record/record-input';

/** For tests: jobs with their record, and what `inspect --json` says of them. */

export const sampleJobs = Object.keys(sampleTexts).filter((path) => path.startsWith('jobs/'));

export async function recordedJob(texts: Record<string, string>, path: string): Promise<RecordedJob> {
  const analysis = await analysed(texts, path);
  if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error(`${path} is no job`);
  return { ...analysis, inspection: analysis.inspection };
}

export const recordOf = async (texts: Record<string, string>, path: string): Promise<string> =>
  recordPage(await recordedJob(texts, path));

/** What other programs are told. */
export async function inspectedJob(texts: Record<string, string>, path: string): Promise<InspectJob> {
  const { printed } = await recorded((output) => inspect(shopOf(texts), [target(path)], output));
  return (JSON.parse(printed) as InspectOutput).files[0] as InspectJob;
}

/** The text that a piece of a page shows. */
export const shownText = (html: string): string =>
  html
    .replace(/<(style|title|desc)[\s\S]*?<\/\1>/g, ' ')
    .replace(/<\/?(bdi|b|span|code)\b[^>]*>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(
      /&(amp|lt|gt|quot|#39);/g,
      (_, name) => ({ amp: '&', lt: '<', gt: '>', quot: '"' })[name as string] ?? "'",
    )
    .replace(/\s+/g, ' ')
    .trim();

/** One section of a record, by its id. */
export function sectionOf(html: string, id: string): string {
  const found = html.split('<section id=').find((piece) => piece.startsWith(`"${id}"`));
  if (found === undefined) throw new Error(`there is no section ${id}`);
  return found;
}
