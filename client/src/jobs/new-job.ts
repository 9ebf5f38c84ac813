/** The first readings file of a job, and where it goes. All paths are with forward slashes, from the workspace folder. */
import { jobEnding } from '../patterns';

/** A job's file stands in `jobs/` beside the folder of its chassis file. */
export const jobFolderOf = (chassisPath: string): string => {
  const folders = chassisPath.split('/').slice(0, -1);
  return [...folders.slice(0, -1), 'jobs'].join('/');
};

/** `W-2041 left rail` → `w-2041-left-rail`; null where nothing is left that may stand in a file's name. */
export const jobFileName = (name: string): string | null => {
  const slug = name
    .normalize('NFKD')
    .replaceAll(/\p{Mark}/gu, '')
    .toLowerCase()
    .replaceAll(/[^\p{Letter}\p{Number}]+/gu, '-')
    .replaceAll(/^-|-$/g, '');
  return slug === '' ? null : slug + jobEnding;
};

/** The way from a folder to a file. */
export const pathFrom = (folder: string, file: string): string => {
  const from = folder.split('/').filter((part) => part !== '');
  const to = file.split('/').filter((part) => part !== '');
  let shared = 0;
  while (shared < from.length && shared < to.length - 1 && from[shared] === to[shared]) shared += 1;
  const way = [...from.slice(shared).map(() => '..'), ...to.slice(shared)].join('/');
  return way.startsWith('..') ? way : `./${way}`;
};

interface NewJob {
  readonly order: string;
  /** From the job's own folder. */
  readonly chassisPath: string;
  readonly pointIds: readonly string[];
  /** `2026-03-02` */
  readonly today: string;
}

/**
 * A job with one measure whose rows are comments: a point that was not read yet is no mistake, and nothing that was typed is
 * held back meanwhile. What only the technician knows is left as a comment as well, never guessed.
 */
export const newJobText = ({ order, chassisPath, pointIds, today }: NewJob): string => {
  const width = Math.max(0, ...pointIds.map((id) => id.length + 1));
  const lines = [
    'framewright: readings/1',
    `chassis: ${text(chassisPath)}`,
    `order: ${text(order)}`,
    '# technician: who measures',
    '# instrument: { name: , uncertainty: , repeatability: }    # standard uncertainty of one reading, in mm',
    '',
    'timeline:',
    '  - measure: as received',
    `    at: ${today}`,
    '    readings:             # remove the # of a row when you read its point',
    ...pointIds.map((id) => `      # ${`${id}:`.padEnd(width)} [ , , ]`),
  ];
  return `${lines.join('\n')}\n`;
};

/** Plain where YAML takes it for nothing but this text, else quoted. */
const text = (value: string): string =>
  /^(?:\.{0,2}\/)*[A-Za-z][\w./-]*(?: [\w./-]+)*$/.test(value) &&
  !/^(?:true|false|null|yes|no|on|off|y|n)$/i.test(value)
    ? value
    : JSON.stringify(value);

/** Why this cannot be the name of a new job; null where it can. @param taken file names in lower case */
export const nameFault = (name: string, taken: ReadonlySet<string>): string | null => {
  const file = jobFileName(name);
  if (file === null) return 'A job needs a name with letters or figures, such as W-2041.';
  return taken.has(file) ? `There is a job ${file} already.` : null;
};
