import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { codeActionOf } from '../../protocol/convert';
import { carChassis, jobOn, measured, soundBase } from '../../testing/car';
import { applyEdits } from '../../text/edits';
import { linesOf } from '../../text/lines';
import { referenceActions } from './reference-actions';

const rows = `      rail-tip-upper.L: [3012, 452, 352]
      front-rail-hole.L: [2500.3, 440, 260]`;
const job = jobOn(measured(rows), 'order: W-1\ninstrument: { name: arm, uncertainty: 0.2 }');

async function offered(text: string, at: string) {
  const analysis = await analysed(
    { 'car.chassis.yaml': carChassis, 'w.readings.yaml': text },
    'w.readings.yaml',
  );
  if (analysis.kind !== 'readings') throw new Error('no job');
  const start = text.indexOf(at);
  return { analysis, actions: referenceActions(analysis, { start, end: start }) };
}

describe('Make reference points of this job', () => {
  it('writes rows into the chassis file, and is offered on the measure and on a new point', async () => {
    const { actions } = await offered(job, 'measure: as received');
    expect(actions.map(({ title }) => title)).toEqual(['Make 1 reference point of this job']);
    const [{ elsewhere, edits }] = actions;
    expect(edits).toEqual([]);
    expect(elsewhere?.text).toBe(carChassis);
    expect(elsewhere?.uri).toMatch(/car\.chassis\.yaml$/);
    const after = applyEdits(carChassis, elsewhere?.edits ?? []);
    expect(after).toMatch(
      / {2}front-rail-hole: \{ left: \[2500\.3, 440\.0, 260\.0\], part: front-rail, uncertainty/,
    );
    expect(elsewhere?.told).toContain('one car: how far cars scatter here is not known');
    expect((await offered(job, 'front-rail-hole.L')).actions).toHaveLength(1);
  });

  it('is shown for consent where the editor can do that, as an edit of that file', async () => {
    const { analysis, actions } = await offered(job, 'front-rail-hole.L');
    const as = (asksConsent: boolean) =>
      codeActionOf(actions[0], analysis.uri, linesOf(analysis.text), [], {
        asks: false,
        resolvesEdits: false,
        asksConsent,
      }).edit;
    const [annotation] = Object.values(as(true)?.changeAnnotations ?? {});
    expect(annotation).toMatchObject({ needsConfirmation: true });
    expect(as(true)?.documentChanges).toHaveLength(1);
    expect(Object.keys(as(false)?.changes ?? {})).toEqual([actions[0].elsewhere?.uri]);
  });

  it.each([
    ['on a row that the file has', job, 'rail-tip-upper.L'],
    [
      'by a car whose control points do not agree',
      job.replace(soundBase, soundBase.replace('[-350, -455, 90]', '[-350, -455, 99]')),
      'front-rail-hole.L',
    ],
    ['where nothing is new', job.replace(/\n {6}front-rail-hole.*/, ''), 'measure: as received'],
  ])('is not offered %s', async (_, text, at) => {
    expect((await offered(text, at)).actions).toEqual([]);
  });
});
