import type { Answer, AttackGroup } from './attack';
import { axesAndUnits } from './attacks/axes';
import { damage } from './attacks/damage';
import { gaps } from './attacks/gaps';
import { readings } from './attacks/readings';
import { reasons } from './attacks/reasons';
import { narrowScope } from './attacks/scope';
import { sheet } from './attacks/sheet';
import { signature } from './attacks/signature';
import { text } from './attacks/text';
import { workAndLoad } from './attacks/work';

/** All attacks that something meets, in the order of the page. */
export const attackGroups: readonly AttackGroup[] = [
  axesAndUnits,
  narrowScope,
  damage,
  workAndLoad,
  readings,
  sheet,
  reasons,
  text,
  signature,
];

export { gaps };

/** Where the list stands. */
export const pagePath = 'server/what-the-gate-refuses.md';
const [begin, end] = ['<!-- attacks -->', '<!-- /attacks -->'];

/** The page with its list as the tables have it. */
export function withList(page: string): string {
  const [from, to] = [page.indexOf(begin), page.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`the page has no ${begin} … ${end} to write between`);
  return `${page.slice(0, from)}${begin}\n${list()}\n${page.slice(to)}`;
}

function list(): string {
  const tables = attackGroups.map(({ title, attacks }) =>
    [
      `### ${title}`,
      '',
      '| what is tried | the truth | what meets it |',
      '| --- | --- | --- |',
      ...attacks.map(({ name, truth, answer }) => `| ${name} | ${truth.what} | ${told(answer)} |`),
      '',
    ].join('\n'),
  );
  const open = [
    '### What gets through',
    '',
    '| what is tried | the truth | why |',
    '| --- | --- | --- |',
    ...gaps.map(({ name, truth, why }) => `| ${name} | ${truth.what} | ${why} |`),
  ];
  return [...tables, ...open].join('\n');
}

function told(answer: Answer): string {
  if ('refused' in answer) return `refused: \`${answer.refused}\``;
  if ('warned' in answer) return `a warning stands: \`${answer.warned}\``;
  return `the record tells ${answer.tells}`;
}
