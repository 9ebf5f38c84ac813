/**
 * Which story an ambiguous stage takes where the job says what it is about (server/README.md, "Settled by scope and witnesses").
 * No measurement can tell a car whose rear moved from one whose front did: the scope's word is taken for which end was hit, and only where
 * what stands around agrees. Plain data; lengths in mm, forward.
 */
export interface ToldStory {
  /** Lengths of the control points that stood, and of those that moved. */
  readonly still: readonly number[];
  readonly moved: readonly number[];
  /** The witness groups by the control points that stood alone, in one order for all stories: χ² of where they stand. */
  readonly groups: readonly { readonly squares: number; readonly lengths: readonly number[] }[];
}

/** χ² on three degrees of freedom up to which a group stands (98 %), and from which it is off (99.9 %). */
interface StandingLimits {
  readonly stands: number;
  readonly off: number;
}

type End = 1 | -1;

/**
 * @param scope lengths of the points that the job is about; none: nothing is settled
 * @returns which of the stories, or null
 */
export function settledStory(
  stories: readonly ToldStory[],
  scope: readonly number[],
  limits: StandingLimits,
): number | null {
  if (scope.length === 0) return null;
  const qualifying = stories.flatMap((story, i) =>
    qualifies(
      story,
      stories.filter((_, j) => j !== i),
      scope,
      limits,
    )
      ? [i]
      : [],
  );
  return qualifying.length === 1 ? qualifying[0] : null;
}

/** The end at which all that moved stands beyond all that stood: 1 ahead, −1 behind; null where they are mixed. */
function movedEnd({ still, moved }: ToldStory): End | null {
  if (still.length === 0 || moved.length === 0) return null;
  if (Math.min(...moved) > Math.max(...still)) return 1;
  return Math.max(...moved) < Math.min(...still) ? -1 : null;
}

/** How far towards an end the nearest of these lengths lies. */
const nearest = (lengths: readonly number[], end: End): number => Math.min(...lengths.map((x) => end * x));
const farthest = (lengths: readonly number[], end: End): number => Math.max(...lengths.map((x) => end * x));

function qualifies(
  story: ToldStory,
  rivals: readonly ToldStory[],
  scope: readonly number[],
  limits: StandingLimits,
): boolean {
  const end = movedEnd(story);
  if (end === null || rivals.length === 0) return false;
  if (!(nearest(scope, end) > farthest(story.still, end))) return false;
  const firstMoved = nearest(story.moved, end);
  const stands = story.groups.map(({ squares }) => squares <= limits.stands);
  if (story.groups.some(({ lengths }, g) => !stands[g] && nearest(lengths, end) < firstMoved)) return false;
  return rivals.every((rival) => contradicted(rival, stands, limits));
}

/** Two or more groups that stand in the story are off in its rival, one of them at the end that the rival says moved. */
function contradicted(rival: ToldStory, stands: readonly boolean[], { off }: StandingLimits): boolean {
  const against = rival.groups.filter(({ squares }, g) => stands[g] && squares > off);
  if (against.length < 2) return false;
  const end = movedEnd(rival);
  if (end === null) return true;
  const firstMoved = nearest(rival.moved, end);
  return against.some(({ lengths }) => farthest(lengths, end) >= firstMoved);
}
