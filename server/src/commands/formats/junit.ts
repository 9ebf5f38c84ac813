import { type Markup, markup } from '../../report/markup';
import type { DocumentFormat, FileFindings, ReportedFinding } from './format';

/**
 * JUnit XML as CI hosts read it: a suite for each file, a case for each finding. An error is a failure; a warning is a case that passes and
 * says it; what a comment silences is skipped with its reason; a file without findings is one case that passes.
 * Source: the schema `junit-10.xsd` of the Jenkins xUnit plugin.
 */
export const junit: DocumentFormat = {
  kind: 'document',
  document: ({ found, unread }) => {
    const suites = [...(unread.length === 0 ? [] : [notRead(unread)]), ...found.map(suiteOf)];
    const all = markup`<testsuites name="framewright">${suites}
</testsuites>`;
    return ['<?xml version="1.0" encoding="UTF-8"?>', ...all.markup.split('\n')];
  },
};

const isFailure = ({ severity, ignored }: ReportedFinding): boolean =>
  severity === 'error' && ignored === null;

function suiteOf({ path, findings }: FileFindings): Markup {
  const cases =
    findings.length === 0
      ? [markup`\n    <testcase name="no finding" classname="${path}"/>`]
      : findings.map((each) => caseOf(path, each));
  const failures = findings.filter(isFailure).length;
  const skipped = findings.filter(({ ignored }) => ignored !== null).length;
  return markup`
  <testsuite name="${path}" tests="${cases.length}" failures="${failures}" errors="0" skipped="${skipped}">${cases}
  </testsuite>`;
}

function caseOf(path: string, finding: ReportedFinding): Markup {
  const { rule, severity, message, ignored, line, column } = finding;
  const said = markup`${path}:${line}:${column}: ${severity}: ${message} [${rule}]`;
  const inside =
    ignored !== null
      ? markup`<skipped type="${rule}" message="${ignored}">${said}</skipped>`
      : isFailure(finding)
        ? markup`<failure type="${rule}" message="${message}">${said}</failure>`
        : markup`<system-out>${said}</system-out>`;
  return markup`
    <testcase name="${rule}, line ${line}" classname="${path}">
      ${inside}
    </testcase>`;
}

const notRead = (unread: readonly string[]): Markup => markup`
  <testsuite name="not read" tests="${unread.length}" failures="0" errors="${unread.length}" skipped="0">${unread.map(
    (line) => markup`
    <testcase name="${line}" classname="not read">
      <error type="not-read" message="${line}"/>
    </testcase>`,
  )}
  </testsuite>`;
