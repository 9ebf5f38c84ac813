import type { Choice } from '../alignment/control-points';
import type { Alternative, Growth } from './alignment-fault';
import type { Story } from './stories';

/** The best of the stories that are told: more than a person compares. */
const mostTold = 4;

/** What stood and what moved, each once; of a story in which nothing stood there is no base to name. */
export function toldAlternatives(
  { base, movedIds }: Pick<Choice, 'base' | 'movedIds'>,
  told: readonly Story[],
): Alternative[] {
  const found = new Map<string, Alternative>();
  for (const story of told) {
    const gone = new Set(story.movedIds);
    const still = base.members.flatMap(({ id }) => (gone.has(id) ? [] : [id]));
    const key = still.join(' ');
    if (gone.size > 0 && still.length > 0 && !found.has(key))
      found.set(key, { base: still, moved: [...movedIds, ...gone].sort(), ...kindOf(story) });
  }
  return [...found.values()].slice(0, mostTold);
}

function kindOf({ story, unknowns }: Story): { kind: Alternative['kind']; growth?: Growth } {
  if (story.kind !== 'lean' && story.kind !== 'turn') return { kind: story.kind };
  const { kind, to, beyondMm } = story;
  return { kind, growth: { to, beyondMm, perMetre: unknowns } };
}
