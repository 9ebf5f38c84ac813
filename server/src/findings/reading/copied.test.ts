import { describe, expect, it } from 'vitest';
import { control, everything, job, jobFiles, measure } from '../../testing/body';
import { afterFix, found, said, silent } from '../testing/kit';
import { signedJob } from '../testing/sign-off';

const name = 'reading/copied';
/** The same scatter whenever it is asked for, in steps of 0.1 mm. */
const scattered = (seed: number) => (id: string) => {
  const at = (k: number) =>
    (((everything.indexOf(id) + 1) * 7919 + seed * 104729 + k * 1299709) % 13) / 10 - 0.6;
  return [at(1), at(2), at(3)] as const;
};
const arm = (text: string, more = 'uncertainty: 0.3, repeatability: 0.2') =>
  text.replace('uncertainty: 0.1', more);
const twice = (first: string, second: string) => `\n${first}\n${second}`;

describe(name, () => {
  it('tells rows that were copied, from which measure, and what chance explains', async () => {
    const copy = measure('finished', scattered(1));
    const mark =
      '#   ^^^^^^^ warning: reading/copied 26 of 26 points have exactly the numbers of “as received”: ';
    await found(
      name,
      jobFiles(
        arm(
          job(twice(measure('as received', scattered(1)), copy.replace('finished\n', `finished\n${mark}\n`))),
        ),
      ),
    );
    const seen = await said(
      name,
      jobFiles(arm(job(twice(measure('a', scattered(1)), measure('b', scattered(1)))))),
    );
    expect(seen[0].message).toContain('Rounding to 0.1 mm and a repeatability of 0.2 mm explain');
  });

  it('tells a few copied rows among others', async () => {
    const mixed = (id: string) => scattered(control.indexOf(id) >= 0 && control.indexOf(id) < 4 ? 1 : 2)(id);
    const text = arm(job(twice(measure('a', scattered(1)), measure('b', mixed))));
    expect((await said(name, jobFiles(text)))[0].message).toMatch(
      /^4 of 26 points have .* explain 2 of them/,
    );
  });

  it('says the same where the later measure has its rows in another order', async () => {
    const few = (id: string) => scattered(control.indexOf(id) >= 0 && control.indexOf(id) < 4 ? 1 : 2)(id);
    const later = measure('b', few).split('\n');
    const at = later.findIndex((line) => line.includes('readings:')) + 1;
    const turned = [...later.slice(0, at), ...later.slice(at).reverse()].join('\n');
    const of = async (second: string) =>
      (await said(name, jobFiles(arm(job(twice(measure('a', scattered(1)), second))))))[0].message
        .split(/[:.]/)
        .filter((part) => /\d/.test(part) && !part.includes('rail'));
    const straight = await of(later.join('\n'));
    expect(straight[0]).toMatch(/^4 of 26/);
    expect(await of(turned)).toEqual(straight);
  });

  it.each([
    ['other numbers', arm(job(twice(measure('a', scattered(1)), measure('b', scattered(2)))))],
    [
      'two rows, which chance explains',
      arm(
        job(
          twice(
            measure('a', scattered(1)),
            measure('b', (id) =>
              scattered(control.indexOf(id) === 0 || control.indexOf(id) === 1 ? 1 : 2)(id),
            ),
          ),
        ),
      ),
    ],
    [
      'the same whole millimetres of an arm that repeats well',
      arm(
        job(twice(measure('a', undefined, control), measure('b', undefined, control))),
        'uncertainty: 0.3, repeatability: 0.05',
      ),
    ],
    [
      'the same numbers of other points',
      arm(
        job(
          twice(
            measure('a', scattered(1), control),
            measure('b', scattered(1), control).replace(/\.[LR]:/g, (side) =>
              side === '.L:' ? '.R:' : '.L:',
            ),
          ),
        ),
      ),
    ],
  ])('is silent of %s', async (_, text) => silent(name, jobFiles(text)));

  it('is compared with each earlier measure, and the nearest to a copy is named', async () => {
    const text = arm(
      job(`\n${measure('a', scattered(1))}\n${measure('b', scattered(2))}\n${measure('c', scattered(1))}`),
    );
    const seen = await said(name, jobFiles(text));
    expect(seen).toHaveLength(1);
    expect(seen[0].message).toContain('the numbers of “a”');
  });

  it('of repeats all have to stand there', async () => {
    const text = (again: string) =>
      arm(
        job(`
  - measure: a
    readings:
      pillar-low.L: [[350.11, 720.23, 420.31], [350.12, 720.24, 420.37]]
  - measure: b
    readings:
      pillar-low.L: ${again}`),
      );
    expect(await said(name, jobFiles(text('[350.12, 720.24, 420.37]')))).toHaveLength(1);
    await silent(name, jobFiles(text('[[350.12, 720.24, 420.37], [350.12, 720.24, 420.38]]')));
  });

  it('the fix writes as-before in each of the rows, and then it is silent', async () => {
    const ids = ['pillar-low.L', 'pillar-low.R'];
    const files = jobFiles(
      arm(
        job(twice(measure('a', scattered(1)), measure('b', scattered(1), ids))),
        'uncertainty: 0.3, repeatability: 0.3',
      ),
    );
    const text = await afterFix(name, files);
    expect(text).toContain('      pillar-low.L: as-before\n      pillar-low.R: as-before\n');
    await silent(name, jobFiles(text));
  });

  it('stands at the sign-off of a closed job, too', async () => {
    const text = arm(
      signedJob(
        twice(measure('as received', scattered(1)), measure('finished', scattered(1))),
        '# ^^^ warning: reading/copied signed although numbers look copied from an earlier measure: “finished” (26 points)\n',
      ),
    );
    const seen = await said(name, jobFiles(text));
    expect(seen.map(({ line }) => line)).toHaveLength(2);
    expect(seen[1].message).toContain('“finished” (26 points)');
  });
});
