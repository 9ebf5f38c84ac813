import { expect } from 'vitest';
import { applyEdits } from '../../text/edits';
import { offsetsOf } from '../../text/tree';
import { isUnread } from '../rule-list';
import { analysed, type Expected, foundIn } from './analysed';

/** Files of one folder by name. The last is looked at; those before it are what it needs. */
type Files = Readonly<Record<string, string>>;

const lookedAt = (files: Files): string => Object.keys(files).at(-1) ?? '';

/** The file itself is well written, so that a slip in a fixture proves nothing; of these rules themselves nothing is held. */
async function expectRead(rule: string, files: Files): Promise<void> {
  if (/^(text|name)/.test(rule)) return;
  const { findings } = await analysed(files, lookedAt(files));
  expect(findings.filter((each) => isUnread(each.rule)).map(({ message }) => message)).toEqual([]);
}

/** What a rule finds in the file, where the count or the words are looked at one by one. */
export async function said(rule: string, files: Files): Promise<Expected[]> {
  await expectRead(rule, files);
  return (await foundIn(files, lookedAt(files), rule)).found;
}

/**
 * A rule finds what the marks in the file say, no more and no less, and something is marked.
 *
 * @param broken its text is not well written, and the test is about that
 */
export async function found(rule: string, files: Files, { broken = false } = {}): Promise<void> {
  if (!broken) await expectRead(rule, files);
  const seen = await foundIn(files, lookedAt(files), rule);
  expect(seen.found).toEqual(seen.expected);
  expect(seen.expected.length, 'marks').toBeGreaterThan(0);
}

/** A rule, or a family of them (`reading/`), finds nothing in the file. */
export async function silent(rule: string, files: Files, { broken = false } = {}): Promise<void> {
  if (!broken) await expectRead(rule, files);
  expect((await foundIn(files, lookedAt(files), rule)).found).toEqual([]);
}

/** The file with one fix of the first finding of a rule taken. */
export async function afterFix(rule: string, files: Files, nth = 0): Promise<string> {
  const { findings, text } = await analysed(files, lookedAt(files));
  const replacement = findings.find((finding) => finding.rule === rule)?.replacements[nth];
  if (replacement === undefined) throw new Error(`${rule} offers no fix number ${nth}`);
  const edits = [replacement, ...(replacement.also ?? [])];
  return applyEdits(
    text,
    edits.map((each) => ({ ...offsetsOf(each.place), text: each.text })),
  );
}

/** The first fix of a rule turns one text of the file into the other, and the rule is silent of that. */
export async function fixed(rule: string, before: Files, after: string): Promise<void> {
  expect(await afterFix(rule, before)).toBe(after);
  await silent(rule, { ...before, [lookedAt(before)]: after });
}

const ownName = 'w.chassis.yaml';

/** A chassis file beside others. */
export const chassisFiles = (text: string, more: Record<string, string> = {}): Record<string, string> => ({
  ...more,
  [ownName]: text,
});

/** What a rule finds in a text, its messages and fixes. */
export async function foundBy(
  rule: string,
  text: string,
  more: Record<string, string> = {},
): Promise<{ message: string; fixes: string[] }[]> {
  const { findings } = await analysed({ ...more, [ownName]: text }, ownName);
  return findings
    .filter((finding) => finding.rule === rule)
    .map(({ message, replacements }) => ({ message, fixes: replacements.map((each) => each.text) }));
}
