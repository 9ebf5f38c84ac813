import type { DrawingAnswer } from '@framewright/schemas/wire';

/** `3 of 5 · after first pull`. */
export const stageWords = ({ stages, stage }: Pick<DrawingAnswer, 'stages' | 'stage'>): string => {
  if (stage === null) return 'nothing measured yet';
  const { name, underTension } = stages[stage];
  return `${stage + 1} of ${stages.length} · ${name}${underTension ? ' (under load)' : ''}`;
};

interface OverChoice {
  readonly value: string;
  readonly text: string;
}

/** What a stage can be laid over: nothing, or any other one. */
export const overChoices = ({ stages, stage }: Pick<DrawingAnswer, 'stages' | 'stage'>): OverChoice[] => [
  { value: '', text: 'nothing' },
  ...stages.flatMap(({ name, underTension }, i) =>
    i === stage
      ? []
      : [{ value: String(i), text: `${i + 1} · ${name}${underTension ? ' (under load)' : ''}` }],
  ),
];

/** The tab that a key leads to; null where the key does nothing (WAI-ARIA Authoring Practices, Tabs). */
export function tabAfter(key: string, at: number, count: number): number | null {
  switch (key) {
    case 'ArrowRight':
      return (at + 1) % count;
    case 'ArrowLeft':
      return (at + count - 1) % count;
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    default:
      return null;
  }
}
