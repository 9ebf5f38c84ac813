import { type Kept, sections } from './messages';
import { firstWanted, type Wanted } from './wanted';

/** What the page keeps for the next window. */
export const keptOf = (file: string, { section, stage, over, selected }: Wanted): Kept => ({
  file,
  section,
  stage,
  over,
  selected,
});

const isSection = (value: unknown): boolean => (sections as readonly unknown[]).includes(value);
const isStage = (value: unknown): boolean =>
  value === null || (Number.isInteger(value) && Number(value) >= 0);

/** What a page of an earlier window kept, as far as it can be read; null: it does not even tell its file. */
export function wantedOf(state: unknown): { readonly file: string; readonly wanted: Wanted } | null {
  const { file, section, stage, over, selected } = (state ?? {}) as Partial<Record<keyof Kept, unknown>>;
  if (typeof file !== 'string' || !URL.canParse(file)) return null;
  const wanted = {
    ...firstWanted,
    ...(isSection(section) ? { section: section as Wanted['section'] } : {}),
    ...(isStage(stage) && isStage(over)
      ? { stage: stage as number | null, over: over as number | null }
      : {}),
    ...(typeof selected === 'string' ? { selected } : {}),
  };
  return { file, wanted };
}
