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
};
const ignored = { ...finding, severity: 'warning', ignored: 'a patch', line: 9 } as const;
const found: FileFindings = { path: 'jobs/w\u202e.readings.yaml', findings: [finding, ignored] };
const end = {
  files: 2,
  summaries: [{ title: 'jobs/w: order 7, open', lines: ['  nothing was measured yet'] }],
  counts: { error: 1, warning: 0, information: 3 },
  ignored: 1,
  hidden: 3,
};
const plain = paintOf(false);

describe.each(Object.entries(formats))('the format %s', (_, format) => {
  it('lets no text of a file steer a terminal', () => {
    expect(format.file(found, plain).join('')).not.toMatch(/[\u0000-\u001f\u202e]/);
  });

  it('says the same with colours', () => {
    const uncoloured = (lines: string[]) => lines.map((line) => line.replace(/\u001b\[\d+m/g, ''));
    expect(format.file(found, paintOf(true)).join('')).toContain('\u001b[');
    expect(uncoloured(format.file(found, paintOf(true)))).toEqual(format.file(found, plain));
    expect(uncoloured(format.end(end, paintOf(true)))).toEqual(format.end(end, plain));
  });

  it('says nothing of a file without findings', () => {
    expect(format.file({ path: 'a', findings: [] }, plain)).toEqual([]);
  });
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
