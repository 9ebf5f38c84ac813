import { idsToRead } from '../editor/actions/next-measure-action';
import { askedInOrder } from '../editor/complete/points-to-read';
import { carSheet } from '../tables/sheet/car-sheet';
import { printable } from '../text/printable';
import type { Files } from '../workspace/files';
import type { Output } from './check-selected';
import type { Target } from './collect';
import { type Drawable, drawableFile } from './draw';

interface WritingOutput extends Output {
  /** Null, or what went wrong. */
  write(page: string): string | null;
}

/** Writes the page to take to the car. Exit code 0, or 2 where the file cannot be read, or the page not written. */
export async function sheet(files: Files, file: Target, output: WritingOutput): Promise<number> {
  const complain = (message: string): number => {
    output.complain(printable(`framewright: ${message}`));
    return 2;
  };
  const drawable = await drawableFile(files, file);
  if (typeof drawable === 'string') return complain(`${file.path}: ${drawable}`);
  const { analysis, inspection } = drawable;
  const job = analysis.kind === 'readings' ? analysis.job : null;
  const fault = output.write(carSheet(inspection.chassis, job, idsInOrder(drawable)));
  return fault === null ? 0 : complain(fault);
}

/** Of a job the points that *Insert next measure* asks for, of a body all, in the order in which Enter asks for rows. */
function idsInOrder({ analysis, inspection }: Drawable): string[] {
  const { job, chassis } = inspection;
  const asked = askedInOrder({ job, inspection }, chassis);
  if (analysis.kind === 'chassis') return asked;
  const wanted = new Set(idsToRead(inspection));
  return asked.filter((id) => wanted.has(id));
}
