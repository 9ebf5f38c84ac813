import type { Files } from '../../workspace/files';
import type { Analysis } from '../../workspace/workspace';
import { bodyLines } from '../body-lines';
import { pathAt } from '../places';
import { keyHover } from './hover-key';
import type { HoverText } from './hover-text';
import { escaped } from './markdown';

/** Over `vehicle` of a chassis file: what `framewright chassis` prints. Null elsewhere. */
export async function vehicleHover(
  analysis: Analysis,
  offset: number,
  files: Pick<Files, 'list' | 'read' | 'root'>,
): Promise<HoverText | null> {
  if (analysis.kind !== 'chassis' || pathAt(analysis.tree.root, offset).path.join('/') !== 'vehicle')
    return null;
  const key = keyHover(analysis, offset);
  if (key === null) return null;
  const lines = await bodyLines(analysis, files);
  const items = lines.map((line) => `${/^ */.exec(line)?.[0] ?? ''}- ${escaped(line.trim())}`);
  return { ...key, markdown: `${key.markdown}\n\n${items.join('\n')}` };
}
