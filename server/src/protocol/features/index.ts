import { codeActions } from './code-actions';
import { codeLens } from './code-lens';
import { completion } from './completion';
import { cursor } from './cursor';
import { definition } from './definition';
import { documentLinks } from './document-links';
import { drawing } from './drawing';
import type { Feature } from './feature';
import { fileRename } from './file-rename';
import { folding } from './folding';
import { formatting } from './formatting';
import { highlights } from './highlights';
import { hover } from './hover';
import { inlayHints } from './inlay-hints';
import { jobs } from './jobs';
import { outline } from './outline';
import { referencePoints } from './reference-points';
import { references } from './references';
import { refreshOnSave } from './refresh-on-save';
import { rename } from './rename';
import { report } from './report';
import { rulePages } from './rule-pages';
import { selectionRanges } from './selection-ranges';
import { semanticTokens } from './semantic-tokens';
import { signOff } from './sign-off';
import { tables } from './tables';
import { workspaceSymbols } from './workspace-symbols';

/** Every feature of the editor. A new one is a new file here, its answer in `editor/`, and one line in this list. */
export const features: readonly Feature[] = [
  formatting,
  completion,
  semanticTokens,
  inlayHints,
  hover,
  codeActions,
  codeLens,
  jobs,
  refreshOnSave,
  rulePages,
  cursor,
  definition,
  documentLinks,
  drawing,
  fileRename,
  folding,
  highlights,
  outline,
  referencePoints,
  references,
  rename,
  report,
  selectionRanges,
  signOff,
  tables,
  workspaceSymbols,
];
