import type { Unmeasured } from '../../inspection/gate/unmeasured';
import type { Related } from '../../model/problem';
import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnly, coversDimensionsOnlyPage, ofClosed } from './state';

export const unmeasured: Rule = {
  name: 'sign-off/unmeasured',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'always',
  inRecord: 'standing',
  unchangeable: true,
  wholeJob: true,
  page: {
    summary:
      'A job is signed off while a point of its scope has no released reading newer than the last work on its part.',
    why: `A point that was in its place before the last pull, cut, heat or replacement may not be there now: such work moves the metal around it. A reading under
load does not tell where a point will stay; one marked unreachable, or measured in mirrored axes or a wrong unit, does not count. A hook works
on the part that it is on, whatever the purpose of the pull. ${coversDimensionsOnlyPage}`,
    example: `  - measure: finished            # then one more pull, and nothing measured
  - pull: left rail, the last bit
    part: front-rail.L
  - release: all
sign-off: { by: rk, date: 2026-03-05, chassis: sha256-3f9a61c2 }`,
    exampleIn: { place: 'entry' },
    mend: `Measure the points again, released, before signing. A point that cannot be reached cannot be signed for: clear the way to it, or take its part out
of \`scope\` and say so to whoever relies on the sign-off.`,
    source: 'Common practice in the trade: measure after the work, released.',
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (state, signOff) => {
      const groups = Object.entries(words).flatMap(([why, told]) => {
        const ids = state.unmeasured.filter((each) => each.why === why).map(({ id }) => id);
        return ids.length === 0 ? [] : [`${told}: ${shortList(ids)}`];
      });
      const outside = state.unmeasured.filter(({ wasOutside }) => wasOutside).map(({ id }) => id);
      if (outside.length > 0) groups.push(`outside when last read: ${shortList(outside)}`);
      const parts = state.partsWithoutPoints.map((id) =>
        id === '' ? 'the scope holds no point at all' : `${id} has no points to judge it by`,
      );
      if (state.unread.length > 0)
        parts.push(
          `the chassis file has entries that cannot be read (${shortList(state.unread)}): mend it first`,
        );
      if (groups.length + parts.length === 0) return [];
      return [
        {
          place: signOff.keyPlace,
          message: `signed off without measuring. ${[...groups, ...parts].map(capitalised).join('. ')}. ${coversDimensionsOnly}`,
          related: worksBehind(state.unmeasured),
        },
      ];
    }),
};

const words: Record<Unmeasured['why'], string> = {
  never: 'never measured',
  unreachable: 'unreachable',
  'only-under-load': 'measured under load only',
  outdated: 'worked on since measured',
  unusable: 'newest reading in mirrored axes or a wrong unit',
};

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The last works that outdated readings, each once. */
function worksBehind(list: readonly Unmeasured[]): Related[] {
  const works = new Map(
    list.flatMap(({ why, work }) =>
      why === 'outdated' && work !== null ? [[work.index, work.entry] as const] : [],
    ),
  );
  return [...works.values()].map(({ keyPlace }) => ({
    message: 'worked on here, and not measured since',
    place: keyPlace,
  }));
}
