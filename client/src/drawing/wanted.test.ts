import { expect, test } from 'vitest';
import { isDrawn } from './drawn-files';
import { drawingPage } from './page';
import { afterAnswer, firstWanted, ofAnotherFile } from './wanted';

const stages = [
  { name: 'as received', underTension: false },
  { name: 'after first pull', underTension: false },
];
const answer = { stages, stage: 1, over: null, selected: 'latch', cursorStage: null };

test('the newest stage stays the newest; one that was chosen or followed stays that one', () => {
  expect(afterAnswer(firstWanted, firstWanted, answer)).toMatchObject({ stage: null, selected: 'latch' });
  const chosen = { ...firstWanted, stage: 1 };
  expect(afterAnswer(chosen, chosen, answer).stage).toBe(1);
  const followed = afterAnswer(firstWanted, firstWanted, { ...answer, stage: 0, cursorStage: 0 });
  expect(followed).toMatchObject({ stage: 0, cursorStage: 0 });
});

test('an answer to an older wish takes nothing of a newer one, but says where the cursor is', () => {
  const newer = { ...firstWanted, stage: 0, over: 1 };
  expect(afterAnswer(newer, firstWanted, { ...answer, cursorStage: 1 })).toEqual({
    ...newer,
    cursorStage: 1,
  });
});

test('the stage that the cursor was in is kept while it is between stages', () => {
  const asked = { ...firstWanted, cursorStage: 1 };
  expect(afterAnswer(asked, asked, answer).cursorStage).toBe(1);
});

test('another file begins with its newest stage and nothing selected; the part that is shown stays', () => {
  const wanted = {
    ...firstWanted,
    section: 'solid' as const,
    stage: 3,
    over: 1,
    selected: 'latch',
    cursorStage: 2,
  };
  expect(ofAnotherFile(wanted)).toEqual({ ...firstWanted, section: 'solid' });
});

test('jobs and chassis files are drawn, by language or by name', () => {
  const document = (languageId: string, path: string) => ({ languageId, uri: { path } });
  expect(isDrawn(document('framewright-readings', '/w.txt'))).toBe(true);
  expect(isDrawn(document('yaml', '/specs/marten.chassis.yaml'))).toBe(true);
  expect(isDrawn(document('framewright-settings', '/.framewright.yaml'))).toBe(false);
  expect(isDrawn(document('yaml', '/other.yaml'))).toBe(false);
});

test('the page lets in what bears its nonce and nothing else', () => {
  const page = drawingPage('a-nonce', { drawing: 'drawing.js', solid: 'solid.js' });
  const [, policy] = /Content-Security-Policy" content="([^"]*)"/.exec(page) ?? [];
  expect(policy).toBe(
    "default-src 'none'; style-src 'nonce-a-nonce'; script-src 'nonce-a-nonce'; base-uri 'none'; form-action 'none'",
  );
  for (const [tag] of page.matchAll(/<(script|style)[^>]*>/g)) expect(tag).toContain('nonce="a-nonce"');
  expect(page).not.toMatch(/ on\w+=| style=|https?:/);
});
