import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type Judges, ownJudges } from '../workspace/judges';
import { memoryFiles } from '../workspace/testing/memory-files';

const sample = (name: string): string =>
  readFileSync(path.join(import.meta.dirname, '../../../samples', name), 'utf8');

export const folder = 'file:///shop/';
/** The job that the program fails on. */
export const spoilt = 'jobs/w-1192-twisted-rail.readings.yaml';
const others = [
  'jobs/w-1174-finished.readings.yaml',
  'jobs/w-1187-as-received.readings.yaml',
  'jobs/w-1205-moved-control-point.readings.yaml',
];
const specs = ['specs/marten-hatch.chassis.yaml', 'specs/teal-estate.chassis.yaml'];

/** A shop in memory: one job that the program fails on among sound ones. */
export const texts: Readonly<Record<string, string>> = Object.fromEntries(
  [...others, ...specs, spoilt].map((name) => [folder + name, sample(name)]),
);
export const files = memoryFiles(texts, folder);

const isSpoilt = (text: string): boolean => text === texts[folder + spoilt];

const fails = (where: string): never => {
  throw new TypeError(`${where} is not a function`);
};

/** Ways to fail, on one job, and what is said of each. */
export const failures: Record<string, { judges: Judges; says: RegExp; isJudged: boolean }> = {
  rule: {
    judges: {
      ...ownJudges,
      rules: ownJudges.rules.map((rule) =>
        rule.name === 'reading/coverage'
          ? {
              ...rule,
              ofJob: (context) =>
                context.inspection.job.uri === folder + spoilt
                  ? fails('rule')
                  : (rule.ofJob?.(context) ?? []),
            }
          : rule,
      ),
    },
    says: /^not judged by reading\/coverage: the program failed in that rule \(TypeError: rule is not a function\)/,
    isJudged: true,
  },
  parser: {
    judges: {
      ...ownJudges,
      parse: (text, previous) => (isSpoilt(text) ? fails('parser') : ownJudges.parse(text, previous)),
    },
    says: /^not judged: the program failed in reading its text \(TypeError: parser is not a function\)/,
    isJudged: false,
  },
  inspection: {
    judges: {
      ...ownJudges,
      inspect: (job, chassis) =>
        job.uri === folder + spoilt ? fails('inspection') : ownJudges.inspect(job, chassis),
    },
    says: /^not judged: the program failed in the inspection \(TypeError: inspection is not a function\)/,
    isJudged: false,
  },
};
