import { describe, expect, test } from 'vitest';
import { ruleNamed } from '../../server/src/findings/rule-list';
import type { Attack, Truth } from './attack';
import { awaited, awaitedRules, awaitedRulesAreThere } from './attacks/awaited';
import { outcome, recordOf, type Shop, sealedAnew, signedShop } from './shop';
import { attackGroups, gaps } from './table';

/** What stands in the repository when an attack is done. */
async function attacked({ truth, trick, seals }: Pick<Attack, 'truth' | 'trick' | 'seals'>): Promise<Shop> {
  const tricked = trick(truth.written(signedShop));
  return seals === 'anew' ? sealedAnew(tricked) : tricked;
}

const honest = (truth: Truth): Promise<Shop> => sealedAnew(truth.written(signedShop));

test('the job that all attacks begin with is sound and passes', async () => {
  const { code, said } = await outcome(signedShop);
  expect(code).toBe(0);
  expect(said.filter((each) => !each.startsWith('information '))).toEqual([]);
});

const allAttacks = new Set([...attackGroups.flatMap(({ attacks }) => attacks), ...gaps, ...awaited.attacks]);
const truths = [...new Set([...allAttacks].map(({ truth }) => truth))];

test.each(truths)('written down honestly it is refused: $what', async (truth) => {
  const { code, said } = await outcome(await honest(truth));
  expect(code).toBe(1);
  expect(said).toContain(`error ${truth.refusedBy}`);
});

test('each attack is listed once', () => {
  const names = [...allAttacks].map(({ name, truth }) => `${name}: ${truth.what}`);
  expect(new Set(names).size).toBe(names.length);
});

test.each(awaitedRules)('the attacks that %s meets are asked as soon as it is there', (rule) =>
  expect(awaitedRulesAreThere).toBe(ruleNamed(rule) !== undefined),
);

describe.each(attackGroups)('$title', ({ attacks }) => {
  test.each(attacks)('$name', async (attack) => {
    const shop = await attacked(attack);
    const { code, said, printed } = await outcome(shop);
    const { answer } = attack;
    if ('refused' in answer) {
      expect(said).toContain(`error ${answer.refused}`);
      expect(code).toBeGreaterThan(0);
      return;
    }
    expect(code).toBe(0);
    if ('warned' in answer) expect(said).toContain(`warning ${answer.warned}`);
    else if ('printed' in answer) {
      expect(printed).toContain(answer.printed);
      expect((await outcome(await honest(attack.truth))).printed).not.toContain(answer.printed);
    } else {
      const tells = async (each: Shop) => (await recordOf(each)).includes(answer.record);
      expect([await tells(shop), await tells(await honest(attack.truth))]).toEqual([true, false]);
    }
  });
});

describe('what gets through does so still; what is mended belongs into its table', () => {
  test.each(gaps)('$name', async (gap) => {
    const { code, said } = await outcome(await attacked(gap));
    expect(code).toBe(0);
    expect(said.filter((each) => !each.startsWith('information '))).toEqual([]);
  });
});
