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
  /** For how many months a calibration holds; null where nobody asks. */
  readonly calibrationMonths: number | null;
  /** The oldest version of the program whose sign-offs are accepted; null where all are. */
  readonly signedSince: JudgingVersion | null;
  /** How the shop's tables are laid out, by name. */
  readonly tables: ReadonlyMap<string, TableLayoutEntry>;
  /** The file that has the say in each key, and in each rule by its name; nothing where it is the default. */
  readonly saidBy: ReadonlyMap<string, string>;
}

export const defaultSettings: Settings = {
  severities: new Map(),
  decisionRule: 'simple',
  adviseUncertaintyMm: 0.5,
  calibrationMonths: null,
  signedSince: null,
  tables: new Map(),
  saidBy: new Map(),
};

/** Reads a settings file; what is wrong is reported and left at its default. */
export function settingsFrom(
  tree: TextTree,
  uri: string,
): { settings: Settings; problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const { value } = topLevel(tree, settingsKeys, settingsRequired, [], (problem) => problems.push(problem));
  return {
    settings: {
      severities: new Map(Object.entries(value.rules ?? {})),
      decisionRule: value['decision-rule'] ?? 'simple',
      adviseUncertaintyMm: value['advise-uncertainty'] ?? defaultSettings.adviseUncertaintyMm,
      calibrationMonths: value['calibration-months'] ?? null,
      signedSince: value['signed-since'] ?? null,
      tables: new Map(Object.entries(value.tables ?? {})),
      saidBy: new Map([...Object.keys(value), ...Object.keys(value.rules ?? {})].map((key) => [key, uri])),
    },
    problems: [...tree.problems, ...withoutEchoes(tree, problems)],
  };
}
