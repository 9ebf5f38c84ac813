import type { Answer, AttackGroup } from './attack';
import { awaited, awaitedRulesAreThere } from './attacks/awaited';
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
  ...(awaitedRulesAreThere ? [awaited] : []),
];

export { gaps };

/** Where the list stands. */
export const pagePath = 'server/what-the-gate-refuses.md';

/** The page with its list as the tables have it. */
export const withList = (page: string): string => between(page, 'attacks', list());

/** The page with another text between two of its marks. */
export function between(page: string, name: string, text: string): string {
  const [begin, end] = [`<!-- ${name} -->`, `<!-- /${name} -->`];
  const [from, to] = [page.indexOf(begin), page.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`the page has no ${begin} … ${end} to write between`);
  return `${page.slice(0, from)}${begin}\n${text}\n${page.slice(to)}`;
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
  if ('printed' in answer) return `\`check\` prints “${answer.printed}”`;
  return `the record tells ${answer.tells}`;
}
