import type { CheckAnswer } from '@framewright/schemas';
import { printable } from '../../text/printable';
import type { DocumentFormat, ReportedFinding } from './format';

/** What `check` found as one object, `check/1`; its schema is `schemas/json/check.schema.json`. */
export const json: DocumentFormat = {
  kind: 'document',
  document: ({ found, unread, counts, ignored, known, hidden, leftOut, files }) => {
    const answer: CheckAnswer = {
      framewright: 'check/1',
      files: found.map(({ path, findings }) => ({
        path: printable(path),
        findings: findings.map(findingOf),
      })),
      unread: unread.map(printable),
      looked: files,
      counts,
      ignored,
      known,
      hidden,
      leftOut,
    };
    return [JSON.stringify(answer, null, 2)];
  },
};

const findingOf = ({
  excerpt: _excerpt,
  about: _about,
  fails: _fails,
  ...finding
}: ReportedFinding): CheckAnswer['files'][number]['findings'][number] => ({
  ...finding,
  message: printable(finding.message),
  ignored: finding.ignored === null ? null : printable(finding.ignored),
});
