import type { SeenGroup, WitnessesSeen } from '../inspection/frame/witnesses-seen';
import { type Axis, axes } from '../model/chassis';
import { figure, lengthText, type Unit } from '../model/units';
import { certaintyText, listPhrase } from './wording';

const words: Record<Axis, readonly [positive: string, negative: string]> = {
  0: ['too far forward', 'too far back'],
  1: ['too far left', 'too far right'],
  2: ['high', 'low'],
};

/** `6.1 mm low (±1.3)`: the axes on which a group is certainly off, else the one on which it is off most. */
export function groupOffPhrase({ off, uncertainty }: SeenGroup, unit: Unit): string {
  const largest = Math.max(...off.map(Math.abs));
  const certain = axes.filter((k) => Math.abs(off[k]) > 2 * uncertainty[k]);
  const said = certain.length > 0 ? certain : axes.filter((k) => Math.abs(off[k]) === largest);
  const listed = said.map((k) => `${lengthText(Math.abs(off[k]), unit)} ${words[k][off[k] < 0 ? 1 : 0]}`);
  return `${listPhrase(listed)} (${certaintyText(Math.max(...said.map((k) => uncertainty[k])), unit)})`;
}

/** `the rear end`, `sill`: what all of a group is called. */
export const groupName = ({ name }: SeenGroup): string =>
  /^(front|rear) end$/.test(name) ? `the ${name}` : name;

/** `sill 96 %, the rear end 0 %: it stands 8.1 mm low (±2.5)`: who helps to align, and how far each is believed. */
export const witnessList = ({ groups }: WitnessesSeen, unit: Unit): string =>
  groups
    .map((group) => {
      const off = group.isOff ? `: it stands ${groupOffPhrase(group, unit)}` : '';
      return `${groupName(group)} ${figure(100 * group.weight, 0)} %${off}`;
    })
    .join(', ');

/** How far points elsewhere are taken to scatter; `raised` where the witnesses scatter more than is stated. */
export function elsewhereText({ scatterMm }: WitnessesSeen, statedMm: number, unit: Unit): string {
  const stated = lengthText(statedMm, unit);
  const raised = lengthText(scatterMm, unit);
  return raised === stated ? stated : `${stated}, raised to ${raised} as these scatter more`;
}
