import { describe, expect, it } from 'vitest';
import { nearest } from '../model/names';
import { askedBy } from './arguments';

const asked = (line: string) => askedBy(line.split(' ').filter(Boolean), nearest);

describe('what is asked', () => {
  it.each([
    ['check', { command: 'check', operands: [], values: {} }],
    ['--open check a b', { command: 'check', operands: ['a', 'b'], values: { open: true } }],
    ['check -v --format concise', { command: 'check', values: { verbose: true, format: 'concise' } }],
    ['advise a --uncertainty 0.3 --format json', { values: { uncertainty: '0.3', format: 'json' } }],
    ['report a -o b.html --paper letter', { operands: ['a'], values: { output: 'b.html', paper: 'letter' } }],
    ['check -- --odd-name', { operands: ['--odd-name'] }],
    ['lsp --stdio --clientProcessId=7', { command: 'lsp', values: { stdio: true, clientProcessId: '7' } }],
  ])('%s', (line, wanted) => {
    expect(asked(line)).toMatchObject({ kind: 'run', ...wanted });
  });

  it.each([
    ['--help', null],
    ['help', null],
    ['check --help', 'check'],
    ['-h check', 'check'],
    ['help check', 'check'],
    // what is missing for a run is not for help
    ['report --help', 'report'],
  ])('%s is for help', (line, command) => {
    expect(asked(line)).toEqual({ kind: 'help', command });
  });

  it.each(['--version', '-V', 'chekc --version'])('%s is for the version', (line) => {
    expect(asked(line)).toEqual({ kind: 'version' });
  });
});

describe('wrong usage', () => {
  it.each([
    ['', 'a command is missing'],
    ['chekc', 'there is no command chekc; did you mean check?'],
    ['chekc --help', 'there is no command chekc; did you mean check?'],
    ['help inspekt', 'there is no command inspekt; did you mean inspect?'],
    ['bogus', 'there is no command bogus'],
    ['toString', 'there is no command toString'],
    ['check --verbos', "Unknown option '--verbos'; did you mean --verbose?"],
    ['--sumaries check', "Unknown option '--sumaries'; did you mean --summaries?"],
    // an option of another command is not meant
    ['check --papr', "Unknown option '--papr'"],
    ['report --papr', "Unknown option '--papr'; did you mean --paper?"],
    ['check -x', "Unknown option '-x'"],
    ['check --open=1', "Option '--open' does not take an argument"],
    ['check --json', 'check has no --json'],
    ['check --format short', '--format is text, concise, github, gitlab, json, junit, rdjson or sarif'],
    ['advise a --format concise', '--format is text or json'],
    ['advise', 'advise needs one readings or chassis file'],
    ['report a -o b.html --paper a5', '--paper is a4 or letter'],
    ['inspect --json', 'inspect needs a file'],
    ['plan a b c', 'plan needs a readings file and, if you like, a part'],
    ['report a b', 'report needs one readings file'],
    ['help check plan', 'help needs at most one command'],
  ])('%s', (line, message) => {
    expect(asked(line)).toEqual({ kind: 'wrong', message });
  });
});
