import {
  type JudgingVersion,
  settingsKeys,
  settingsRequired,
  type TableLayoutEntry,
} from '@framewright/schemas';
import type { TextTree } from '../../text/tree';
import type { Problem } from '../problem';
import { topLevel, withoutEchoes } from './top-level';

export type Severity = 'error' | 'warning' | 'information';
export type DecisionRule = 'simple' | 'guarded';

/** A repository's choices. */
export interface Settings {
  /** By rule name; `off` silences. Rules that guard work and sign-off cannot be changed. */
  readonly severities: ReadonlyMap<string, Severity | 'off'>;
  readonly decisionRule: DecisionRule;
  /** Of the instrument by which a body is asked what can be decided on it, standard, mm. */
  readonly adviseUncertaintyMm: number;
  /** Folders in which no files are looked for, relative to the settings file. */
  readonly ignoredFolders: readonly string[];
  /** For how many months a calibration holds; null where nobody asks. */
  readonly calibrationMonths: number | null;
  /** The oldest version of the program whose sign-offs are accepted; null where all are. */
  readonly signedSince: JudgingVersion | null;
  /** How the shop's tables are laid out, by name. */
  readonly tables: ReadonlyMap<string, TableLayoutEntry>;
}

export const defaultSettings: Settings = {
  severities: new Map(),
  decisionRule: 'simple',
  adviseUncertaintyMm: 0.5,
  ignoredFolders: [],
  calibrationMonths: null,
  signedSince: null,
  tables: new Map(),
};

/** Reads a settings file; what is wrong is reported and left at its default. */
export function settingsFrom(tree: TextTree): { settings: Settings; problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const { value } = topLevel(tree, settingsKeys, settingsRequired, [], (problem) => problems.push(problem));
  return {
    settings: {
      severities: new Map(Object.entries(value.rules ?? {})),
      decisionRule: value['decision-rule'] ?? 'simple',
      adviseUncertaintyMm: value['advise-uncertainty'] ?? defaultSettings.adviseUncertaintyMm,
      ignoredFolders: value.ignore ?? [],
      calibrationMonths: value['calibration-months'] ?? null,
      signedSince: value['signed-since'] ?? null,
      tables: new Map(Object.entries(value.tables ?? {})),
    },
    problems: [...tree.problems, ...withoutEchoes(tree, problems)],
  };
}
