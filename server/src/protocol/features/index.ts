import { codeActions } from './code-actions';
import type { Feature } from './feature';
import { hover } from './hover';
import { jobs } from './jobs';
import { refreshOnSave } from './refresh-on-save';
import { rulePages } from './rule-pages';

/** Every feature of the editor. A new one is a new file here, its answer in `editor/`, and one line in this list. */
export const features: readonly Feature[] = [hover, codeActions, jobs, refreshOnSave, rulePages];
