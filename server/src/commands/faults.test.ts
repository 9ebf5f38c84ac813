import { describe, expect, it } from 'vitest';
import { ownJudges } from '../workspace/judges';
import { check, reportingHere } from './check';
import { failures, files, folder, spoilt, texts } from './faults.fixture';
import { inspect } from './inspect';
import { plan } from './plan';
import { report } from './report';

const options = { open: false, summaries: true, verbose: true, coloured: false };
const all = Object.keys(texts).map((uri) => ({ uri, path: uri.slice(folder.length) }));
const target = { uri: folder + spoilt, path: spoilt };

function heard() {
  const out: string[] = [];
  const err: string[] = [];
  return { out, err, print: (line: string) => out.push(line), complain: (line: string) => err.push(line) };
}

const checked = async (judges = ownJudges) => {
  const output = heard();
  const code = await check(files, all, options, output, reportingHere(files, judges));
  return { ...output, code };
};

/** What a check prints, in pieces of one file each; the closing line counts over all. */
function piecesOf(out: readonly string[]): Map<string, string[]> {
  const pieces = new Map<string, string[]>();
  let piece: string[] = [];
  for (const line of out.slice(0, -1)) {
    const name = /^(\S+\.yaml):/.exec(line)?.[1];
    if (name) piece = pieces.get(name) ?? pieces.set(name, []).get(name)!;
    piece.push(line);
  }
  return pieces;
}

describe.each(Object.entries(failures))('a %s that fails on one file', (_, { judges, says, isJudged }) => {
  it('is said of that file, ends a check with 2, and changes no byte of what is said of others', async () => {
    const sound = await checked();
    const now = await checked(judges);
    expect(sound.code).toBeLessThan(2);
    expect(now.code).toBe(2);
    expect(now.err).toEqual([]);
    const own = piecesOf(now.out);
    const wanted = piecesOf(sound.out);
    const found = own.get(spoilt)?.filter((line) => line.includes('[internal/fault]')) ?? [];
    expect(found).toHaveLength(1);
    const [, message] = /^\S+:1:1: error: (.*) \[internal\/fault\]$/.exec(found[0]) ?? [];
    expect(message).toMatch(says);
    expect(message).toMatch(/please report it, with a copy of w-1192-twisted-rail\.readings\.yaml$/);
    const withoutRule = (wanted.get(spoilt) ?? []).filter((line) => !line.includes('reading/coverage'));
    if (isJudged) expect(own.get(spoilt)).toEqual(expect.arrayContaining(withoutRule.slice(-4)));
    else expect(own.get(spoilt)?.join()).not.toMatch(/within|base:/);
    own.delete(spoilt);
    wanted.delete(spoilt);
    expect([...own]).toEqual([...wanted]);
    expect(own.size).toBe(3);
  });

  it('is not silenced by a comment or a setting', async () => {
    const text = texts[folder + spoilt];
    const silencing = {
      ...texts,
      [`${folder}.framewright.yaml`]: 'framewright: settings/1\nrules: { internal/fault: off }\n',
      [folder + spoilt]: `# framewright-ignore internal/fault: we know\n${text}`,
    };
    const read = async (uri: string) =>
      Object.hasOwn(silencing, uri)
        ? ({ kind: 'text', text: silencing[uri as keyof typeof silencing] } as const)
        : ({ kind: 'missing', message: 'there is no such file' } as const);
    const again = { ...files, read };
    const output = heard();
    const everywhere = {
      ...judges,
      inspect: () => {
        throw new Error('always');
      },
    };
    const code = await check(again, [target], options, output, reportingHere(again, everywhere));
    expect(code).toBe(2);
    expect(output.out.join('\n')).toMatch(/: error: not judged: .*\[internal\/fault\]/);
    expect(output.out.join('\n')).toMatch(/cannot be silenced \[settings\/unused-ignore\]/);
  });

  it('leaves its file out of figures, plans and records, with a word why', async () => {
    const asked = heard();
    expect(await inspect(files, [target], asked, judges)).toBe(2);
    expect(asked.err.join()).toContain(`framewright: ${spoilt}: not judged`);
    expect(() => JSON.parse(asked.out.join('\n'))).not.toThrow();
    const planned = heard();
    expect(await plan(files, target, undefined, planned, judges)).toBe(2);
    expect(planned.out).toEqual([]);
    expect(planned.err.join()).toContain('please report it');
    const recorded = heard();
    const pages: string[] = [];
    const write = (page: string) => {
      pages.push(page);
      return null;
    };
    expect(await report(files, target, { ...recorded, write, printAsPdf: null, paper: null }, judges)).toBe(
      2,
    );
    expect(pages).toEqual([]);
    expect(recorded.err.join()).toContain('please report it');
  });
});

it('whatever a file throws when it is read is a line of that file', async () => {
  const failing = {
    ...files,
    read: async (uri: string) => {
      if (uri === folder + spoilt) throw new Error('the disk is gone');
      return files.read(uri);
    },
  };
  const output = heard();
  expect(await check(files, all, options, output, reportingHere(failing))).toBe(2);
  expect(output.err).toEqual([`framewright: ${spoilt}: it cannot be read (Error: the disk is gone)`]);
  const sound = piecesOf((await checked()).out);
  sound.delete(spoilt);
  expect([...piecesOf(output.out)]).toEqual([...sound]);
});
