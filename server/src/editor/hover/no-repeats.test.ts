// VS Code shows a finding's message and the hover in one box: what the one says the other does not say again.
import { expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { sampleFiles, sampleJobs, sampleSpecs } from '../testing/asked';
import { hoverAt } from './hover';

/** Sentences and items as they are read, without marks of Markdown and without what introduces them. */
const sentences = (text: string): string[] =>
  text
    .replaceAll(/\\(?=[^\w\s])|\*\*|\*|`|&nbsp;/g, '')
    .split(/\n|(?<=[.!?])\s/)
    .map((each) =>
      each
        .replace(/^To its place: |^- (body: |procedure: .*)?/, '')
        .replace(/\.$/, '')
        .trim(),
    )
    // a caution may stand in both: other editors show them apart
    .filter((each) => each.split(' ').length > 2 && !/maker's procedure decides/i.test(each));

it.each([...sampleJobs, ...Object.keys(sampleSpecs)])('nothing is said twice in %s', async (name) => {
  const analysis = await analysed(sampleFiles(name), name);
  const repeated = analysis.findings
    .filter(({ ignored }) => ignored === null)
    .flatMap(({ rule, message, range }) => {
      const shown = new Set([range.start, range.end - 1].map((at) => hoverAt(analysis, at)?.markdown ?? ''));
      return [...shown].flatMap((markdown) => {
        // not what it is about: that is a title
        const hover = sentences(markdown.slice(markdown.indexOf('\n') + 1));
        return sentences(message)
          .filter((each) => hover.some((other) => other.includes(each) || each.includes(other)))
          .map((each) => `${rule}: ${each}`);
      });
    });
  expect(repeated).toEqual([]);
});
