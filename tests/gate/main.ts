import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { type SoundTally, talliedSound } from './sound';
import { between, pagePath, withList } from './table';

/**
 * `npm run gate -- --jobs N`: what the rules that are new since 0.1 say of N sound jobs. `--page` writes that, and the list of attacks,
 * into the page.
 */
async function main(): Promise<void> {
  const { values } = parseArgs({ options: { jobs: { type: 'string' }, page: { type: 'boolean' } } });
  const jobs = values.jobs === undefined ? null : Number(values.jobs);
  if (jobs !== null && (!Number.isSafeInteger(jobs) || jobs < 1))
    throw new RangeError('--jobs takes a whole number.');
  const counted = jobs === null ? null : told(await talliedSound(jobs));
  if (counted !== null) process.stdout.write(`${counted}\n`);
  if (!values.page) return;
  const listed = withList(readFileSync(pagePath, 'utf8'));
  writeFileSync(pagePath, counted === null ? listed : between(listed, 'sound', counted));
}

function told({ jobs, signed, errors, warned, warnings, onlyScope, refusals }: SoundTally): string {
  const by =
    warnings.length === 0 ? '' : ` (${[...new Set(warnings)].map((each) => `\`${each}\``).join(', ')})`;
  const why = (word: string) => refusals.filter((each) => each.includes(word)).length;
  return [
    `| \`npm run gate -- --jobs ${jobs}\` | of ${jobs} jobs |`,
    '| --- | --- |',
    `| errors of a new rule | ${errors} |`,
    `| jobs with a new warning | ${warned}${by} |`,
    `| without \`scope\`: one \`sign-off/no-scope\` more, and nothing else | ${onlyScope} |`,
    `| signed by \`framewright sign\` | ${signed} |`,
    `| not signed: a point undecided, or no settled base | ${why('undecided')}, ${why('base/')} |`,
  ].join('\n');
}

void main();
