import { chassisEnding, jobEnding } from '../patterns';

/** Whether a document has a drawing: a job or a chassis file, by its language or, where another was chosen for it, by its name. */
export const isDrawn = (document: {
  readonly languageId: string;
  readonly uri: { readonly path: string };
}): boolean =>
  document.languageId === 'framewright-readings' ||
  document.languageId === 'framewright-chassis' ||
  [jobEnding, chassisEnding].some((each) => document.uri.path.endsWith(each));
