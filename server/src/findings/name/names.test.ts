import { describe, expect, it } from 'vitest';
import { analysed } from '../testing/analysed';
import { found } from '../testing/kit';
import { body, bodyFiles, jobWith, saidOf } from '../testing/text-jobs';

const w = 'w.chassis.yaml';

describe('name/unknown-point', () => {
  it('marks the id wherever it was typed, with the nearest', () =>
    found(
      'name/',
      bodyFiles(
        jobWith(
          'anchors: [floor-frnt]\n#         ^^^^^^^^^^ error: name/unknown-point did you mean floor-front?',
          `  - measure: a
    readings:
      rail-tip-lwer.L: [1, 2, 3]
#     ^^^^^^^^^^^^^^^ error: name/unknown-point did you mean rail-tip-lower.L?
    spans:
      - [lach, strut-top.R, 1250]
#        ^^^^ error: name/unknown-point did you mean latch?
  - pull: a
    hook: strut-tip.L
#         ^^^^^^^^^^^ error: name/unknown-point did you mean strut-top.L?
    direction: [1, 0, 0]
    hold: quarter-panel
#         ^^^^^^^^^^^^^ error: name/unknown-point there is no point quarter-panel
`,
        ),
      ),
    ));

  it('offers both sides where none was written', async () => {
    const said = await saidOf(jobWith('', '  - measure: a\n    readings: { rail-tip-lwer: [1, 2, 3] }\n'));
    expect(said.map(({ fixes }) => fixes)).toEqual([['rail-tip-lower.L', 'rail-tip-lower.R']]);
  });

  it('is raised in a chassis file at the end of a span', () =>
    found(
      'name/unknown-point',
      bodyFiles(
        `${body}spans:
  - { from: rail-tip-lwer, to: strut-top, distance: 989.1, pairs: straight }
#           ^^^^^^^^^^^^^ error: name/unknown-point did you mean rail-tip-lower?
`,
        w,
      ),
    ));

  it('holds for accepted points and a list of base points too', async () => {
    const said = await saidOf(
      `${jobWith('base: [floor-frnt.L]')}sign-off: { by: rk, date: 2026-03-05, chassis: sha256-3f9a61c2, accepted: [{ point: lacth, reason: slotted }] }\n`,
    );
    expect(said.map(({ at, fixes }) => [at, fixes])).toEqual([
      ['floor-frnt.L', ['floor-front.L']],
      ['lacth', ['latch']],
    ]);
  });
});

describe('name/unknown-part', () => {
  it('marks the id, with the nearest', () =>
    found(
      'name/',
      bodyFiles(
        jobWith(
          'scope: [front-rial, floor.L]\n#       ^^^^^^^^^^ error: name/unknown-part did you mean front-rail?\n#                   ^^^^^^^ error: name/unknown-part did you mean floor?',
          `  - replace: aprn.L
#            ^^^^^^ error: name/unknown-part did you mean apron.L?
  - release: [front-rail, appron.R]
#                         ^^^^^^^^ error: name/unknown-part did you mean apron.R?
`,
        ),
      ),
    ));

  it("is raised at a point's part, which is named without a side", () =>
    found(
      'name/unknown-part',
      bodyFiles(
        `${body}  cowl: { centre: [1900, 0, 900], part: flor }
#                                       ^^^^ error: name/unknown-part did you mean floor?
  cross: { both: [1700, 300, 90], part: apron.L }
#                                       ^^^^^^^ error: name/unknown-part write apron
`,
        w,
      ),
    ));

  it('is raised where a part is removed on which inherited points stand', () =>
    found(
      'name/unknown-part',
      bodyFiles(
        `framewright: chassis/1
extends: ./marten.chassis.yaml
parts:
  apron: ~
# ^^^^^ error: name/unknown-part apron is removed, but strut-top stands on it
`,
        w,
      ),
    ));
});

describe('name/needs-side', () => {
  it('marks the bare id and offers the sides that there are', async () => {
    const text = jobWith(
      '',
      `  - measure: a
    readings:
      rail-tip-lower: [1, 2, 3]
#     ^^^^^^^^^^^^^^ error: name/needs-side write rail-tip-lower.L or rail-tip-lower.R
  - section: front-rail
#            ^^^^^^^^^^ error: name/needs-side front-rail exists on both sides
    at: 2500
`,
    );
    await found('name/', bodyFiles(text));
    expect((await saidOf(text)).map(({ fixes }) => fixes)).toEqual([
      ['rail-tip-lower.L', 'rail-tip-lower.R'],
      ['front-rail.L', 'front-rail.R'],
    ]);
  });

  it('is raised where a centre point stands on a sided part', () =>
    found(
      'name/needs-side',
      bodyFiles(
        `${body}  cowl: { centre: [1900, 0, 900], part: apron }
#                                       ^^^^^ error: name/needs-side cowl is a centre point: write apron.L or apron.R
`,
        w,
      ),
    ));

  it('is silent where a bare name means both', async () => {
    expect(
      await saidOf(
        jobWith(
          'scope: [front-rail]\nanchors: [floor-front]',
          `  - pull: out
    part: front-rail.L
    hold: [{ part: apron, at: 2100 }, floor-front]
  - relieve: front-rail
  - release: [apron]
  - join: front-rail
    with: welded
    to: [apron]
`,
        ),
      ),
    ).toEqual([]);
  });

  it.each([
    ['section', '  - section: front-rail\n    at: 2500\n'],
    ['replace', '  - replace: front-rail\n'],
    ['heat', '  - heat: front-rail\n    to: 200 C\n    for: 90 s\n'],
    ['observe', '  - observe: kink\n    part: front-rail\n    at: 2500\n'],
    ['pull', '  - pull: out\n    part: front-rail\n'],
    ['hook', '  - pull: out\n    hook: rail-tip-lower\n    direction: [0, 1, 0]\n'],
  ])('is raised of a %s, which never means both', async (_, entry) => {
    expect(await saidOf(jobWith('', entry))).toEqual([
      expect.objectContaining({
        rule: 'name/needs-side',
        fixes: [expect.stringMatching(/\.L$/), expect.stringMatching(/\.R$/)],
      }),
    ]);
  });
});

describe('name/file-not-found', () => {
  const job = (path: string) => `framewright: readings/1\nchassis: ${path}\ntimeline:\n`;

  it('marks the path, with the file that may be meant', () =>
    found(
      'name/',
      bodyFiles(`framewright: readings/1
chassis: specs/marten.chassis.yaml
#        ^^^^^^^^^^^^^^^^^^^^^^^^^ error: name/file-not-found there is no file specs/marten.chassis.yaml; did you mean marten.chassis.yaml?
timeline:
`),
    ));

  it.each([
    ['teal.chassis.yaml', 'there is no file teal.chassis.yaml', []],
    ['martin.chassis.yaml', 'did you mean marten.chassis.yaml?', ['marten.chassis.yaml']],
    ['marten', 'did you mean marten.chassis.yaml?', ['marten.chassis.yaml']],
    ['../../marten.chassis.yaml', 'lies outside the repository', []],
    ['/etc/marten.chassis.yaml', 'lies outside the repository', []],
    ['https://pinefield.example/marten.chassis.yaml', 'lies outside the repository', []],
    ['w.readings.yaml', 'w.readings.yaml is not a chassis file', []],
  ])('%s', async (path, says, fixes) => {
    expect(await saidOf(job(path))).toEqual([
      { rule: 'name/file-not-found', at: path, message: expect.stringContaining(says), fixes },
    ]);
  });

  it.each(['root:x:0:0:root', 'a remark', '- a'])(
    'is raised where the file holds something else: %s',
    async (text) =>
      expect(await saidOf(job('marten.chassis.yaml'), 'w.readings.yaml', text)).toMatchObject([
        { rule: 'name/file-not-found', message: expect.stringMatching(/not a chassis file|first of them/) },
      ]),
  );

  it('judges nothing by a file that is not there', async () => {
    const analysis = await analysed(
      { 'w.readings.yaml': jobWith('').replace('marten', 'teal') },
      'w.readings.yaml',
    );
    expect(analysis).toMatchObject({ chassis: null, inspection: null });
  });

  it('does not repeat the mistakes of a chassis file in the job: they are told there', async () => {
    const chassis = body.replace('[3050, 0, 780]', '[3050, 0, 780');
    const { findings } = await analysed(
      { 'w.readings.yaml': jobWith(''), 'marten.chassis.yaml': chassis },
      'w.readings.yaml',
    );
    expect(findings.filter(({ rule }) => rule.startsWith('name/'))).toEqual([]);
  });
});

describe('name/extends-cycle', () => {
  const extending = (path: string) => `framewright: chassis/1\nextends: ${path}\n`;

  it('marks the path and names the circle', () =>
    found(
      'name/',
      bodyFiles(
        `${extending('a.chassis.yaml')}#        ^^^^^^^^^^^^^^ error: name/extends-cycle w.chassis.yaml → a.chassis.yaml → w.chassis.yaml\n`,
        w,
        {
          'a.chassis.yaml': extending('w.chassis.yaml'),
        },
      ),
    ));

  it('is said of a file that extends itself', async () => {
    expect((await saidOf(extending(w), w)).map(({ rule, message }) => [rule, message])).toEqual([
      ['name/extends-cycle', 'this file extends itself: w.chassis.yaml → w.chassis.yaml'],
    ]);
  });

  it('is silent in a chain', async () => {
    const files = {
      [w]: extending('a.chassis.yaml'),
      'a.chassis.yaml': extending('marten.chassis.yaml'),
      'marten.chassis.yaml': body,
    };
    const analysis = await analysed(files, w);
    expect(analysis.findings).toEqual([]);
    expect(analysis.dependencies).toEqual([
      'file:///shop/a.chassis.yaml',
      'file:///shop/marten.chassis.yaml',
    ]);
  });
});

describe('name/unused-part', () => {
  it('marks the part', () =>
    found(
      'name/',
      bodyFiles(
        body.replace(
          'points:\n',
          '  sill: { sided: true }\n# ^^^^ information: name/unused-part no point stands on sill\npoints:\n',
        ),
        w,
      ),
    ));

  it('is silent where one side is used, and where the part is inherited', async () => {
    const oneSide = body.replace('{ both: [2250, 561, 830]', '{ left: [2250, 561, 830]');
    const child = 'framewright: chassis/1\nextends: ./marten.chassis.yaml\npoints:\n  strut-top: ~\n';
    for (const text of [oneSide, child]) {
      const { findings } = await analysed({ [w]: text, 'marten.chassis.yaml': body }, w);
      expect(findings.filter(({ rule }) => rule === 'name/unused-part')).toEqual([]);
    }
  });

  it('is silent while a point that may stand on it cannot be read', async () => {
    const { findings } = await analysed({ [w]: body.replace('[2250, 561, 830]', '[2250, 561]') }, w);
    expect(findings.map(({ rule }) => rule)).toEqual(['text/wrong-type']);
  });
});
