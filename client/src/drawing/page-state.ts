import { type PageState, sections } from './messages';
import { firstWanted, type Wanted } from './wanted';

/** What the page keeps for the next window. */
export const pageStateOf = (file: string, { section, stage, over, selected }: Wanted): PageState => ({
  file,
  section,
  stage,
  over,
  selected,
});

const isStage = (value: unknown): value is number | null =>
  value === null || (Number.isInteger(value) && Number(value) >= 0);

/** What a page of an earlier window kept, as far as it can be read; null: it does not even tell its file. */
export function wantedFrom(state: unknown): { readonly file: string; readonly wanted: Wanted } | null {
  const kept: Partial<Record<keyof PageState, unknown>> =
    typeof state === 'object' && state !== null ? state : {};
  const { file, section, stage, over, selected } = kept;
  if (typeof file !== 'string' || !URL.canParse(file)) return null;
  const wanted = {
    ...firstWanted,
    section: sections.find((each) => each === section) ?? firstWanted.section,
    ...(isStage(stage) && isStage(over) ? { stage, over } : {}),
    ...(typeof selected === 'string' ? { selected } : {}),
  };
  return { file, wanted };
}
