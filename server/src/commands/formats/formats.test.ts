import { describe, expect, it } from 'vitest';
import type { FileFindings, ReportedFinding } from './format';
import { formatNames, formats } from './format-names';
import { paintOf } from './paint';

const finding: ReportedFinding = {
  rule: 'reading/outside',
  severity: 'error',
  message: 'tip.L is 10 mm too far\u001b[2J left',
  ignored: null,
  line: 7,
  column: 3,
  endColumn: 8,
  excerpt: '  tip.L: [1, 2, 3]\u0007',
  part: 'front-rail.L',
  about: 'timeline > as received > readings > tip.L',
  fails: true,
};
const ignored = { ...finding, severity: 'warning', ignored: 'a patch', line: 9 } as const;
const found: FileFindings = { path: 'jobs/w\u202e.readings.yaml', findings: [finding, ignored] };
const end = {
  files: 2,
  summaries: [{ title: 'jobs/w: order 7, open', lines: ['  nothing was measured yet'] }],
  counts: { error: 1, warning: 0, information: 3 },
  ignored: 1,
  known: 0,
  hidden: 3,
  leftOut: 2,
};
const plain = paintOf(false);

const documents = Object.entries(formats).flatMap(([name, format]) =>
  format.kind === 'document' ? [[name, format] as const] : [],
);
const lines = Object.entries(formats).flatMap(([name, format]) =>
  format.kind === 'lines' ? [[name, format] as const] : [],
);
const whole = { ...end, found: [found, { path: 'jobs/b', findings: [] }], unread: ['jobs/c: gone\u001b[2J'] };

describe.each(lines)('the format %s', (_, format) => {
  it('lets no text of a file steer a terminal', () => {
    expect(format.file(found, plain).join('')).not.toMatch(/[\u0000-\u001f\u202e]/);
  });

  it('says the same with colours', () => {
    const uncoloured = (said: string[]) => said.map((line) => line.replace(/\u001b\[\d+m/g, ''));
    expect(format.file(found, paintOf(true)).join('')).toContain('\u001b[');
    expect(uncoloured(format.file(found, paintOf(true)))).toEqual(format.file(found, plain));
    expect(uncoloured(format.end(end, paintOf(true)))).toEqual(format.end(end, plain));
  });

  it('says nothing of a file without findings', () => {
    expect(format.file({ path: 'a', findings: [] }, plain)).toEqual([]);
  });
});

describe.each(documents)('the format %s', (_, format) => {
  it('lets no text of a file steer a terminal', () => {
    expect(format.document(whole).join('')).not.toMatch(/[\u0000-\u001f\u202e](?<!\n)/);
  });

  it('says what was found and what was not read', () => {
    const said = format.document(whole).join('\n');
    expect(said).toContain('tip.L is 10 mm too far');
    expect(said).toContain('jobs/c: gone');
  });
});

const many = (severity: 'error' | 'warning', parts: readonly (string | null)[]): FileFindings => ({
  path: `jobs/${severity}, 50 %`,
  findings: parts.map((part, i) => ({ ...finding, severity, part, line: i + 1, message: `hole ${i}` })),
});
const few = {
  ...end,
  found: [many('warning', ['a', 'a']), many('error', [null, 'b', 'b', 'b', null])],
  unread: [],
};

it('github annotates worst first, one of a part, and keeps its own marks out of what is said', () => {
  expect(formats.github.document(few)).toEqual([
    '::error file=jobs/error%2C 50 %25,line=1,col=3,endColumn=8,title=reading/outside::hole 0 (and 1 more of this rule in this file)',
    '::error file=jobs/error%2C 50 %25,line=2,col=3,endColumn=8,title=reading/outside::hole 1 (and 2 more of b in this file)',
    '::warning file=jobs/warning%2C 50 %25,line=1,col=3,endColumn=8,title=reading/outside::hole 0 (and 1 more of a in this file)',
  ]);
});

it('gitlab knows a finding again whose line has moved, and two that say the same apart', () => {
  const prints = (all: FileFindings): string[] =>
    JSON.parse(formats.gitlab.document({ ...end, found: [all], unread: [] }).join('')).map(
      ({ fingerprint }: { fingerprint: string }) => fingerprint,
    );
  const one: FileFindings = { path: 'a', findings: [finding, { ...finding, line: 8 }] };
  const lower: FileFindings = {
    path: 'a',
    findings: one.findings.map((each) => ({ ...each, line: each.line + 5 })),
  };
  expect(new Set(prints(one)).size).toBe(2);
  expect(prints(lower)).toEqual(prints(one));
  expect(prints({ ...one, path: 'b' })).not.toEqual(prints(one));
});

it('rdjson counts bytes of UTF-8', () => {
  const wide = { ...finding, excerpt: 'ä€😀x', column: 3, endColumn: 6 };
  const [{ location }] = JSON.parse(
    formats.rdjson.document({ ...end, found: [{ path: 'a', findings: [wide] }], unread: [] }).join(''),
  ).diagnostics;
  expect(location.range).toEqual({ start: { line: 7, column: 6 }, end: { line: 7, column: 11 } });
});

it('junit counts an error as a failure, skips what is silenced, and lets a file without findings pass', () => {
  const said = formats.junit.document({ ...whole, unread: [] }).join('\n');
  expect(said).toContain('tests="2" failures="1" errors="0" skipped="1"');
  expect(said).toContain('<skipped type="reading/outside" message="a patch">');
  expect(said).toContain('<testcase name="no finding" classname="jobs/b"/>');
});

it('text shows each finding with its line, then the jobs and the counts', () => {
  expect(formats.text.file(found, plain)).toEqual([
    'jobs/w .readings.yaml:7:3: error: tip.L is 10 mm too far [2J left [reading/outside]',
    '  7 |   tip.L: [1, 2, 3] ',
    '    |   ^^^^^',
    '',
    'jobs/w .readings.yaml:9:3: warning (ignored): tip.L is 10 mm too far [2J left [reading/outside]',
    '  9 |   tip.L: [1, 2, 3] ',
    '    |   ^^^^^',
    '  ignored here: a patch',
    '',
  ]);
  expect(formats.text.end(end, plain)).toEqual([
    'jobs/w: order 7, open',
    '  nothing was measured yet',
    '',
    '2 files: 1 error, 0 warnings, 3 for information (--verbose shows them), 1 ignored with a reason',
  ]);
});

it('concise is one line a finding: path:line:column: severity rule message', () => {
  expect(formats.concise.file(found, plain)).toEqual([
    'jobs/w .readings.yaml:7:3: error reading/outside tip.L is 10 mm too far [2J left',
    'jobs/w .readings.yaml:9:3: ignored-warning reading/outside tip.L is 10 mm too far [2J left',
  ]);
  expect(formats.concise.end(end, plain)).toEqual([]);
});

it('the default is named first', () => {
  expect(formatNames[0]).toBe('text');
  expect([...formatNames].sort()).toEqual(Object.keys(formats).sort());
});
