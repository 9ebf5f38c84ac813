import { describe, expect, it } from 'vitest';
import { carChassis, jobOn, measured } from '../../testing/car';
import { before, sampleFiles, sampleJobs, shownAt } from '../testing/asked';

const job = jobOn(
  `${measured('      rail-tip-upper.L: [3003, 437.8, 352]')}
  - pull: rail out     # by hand
    part: front-rail.L
    chains:
      - { hook: rail-tip-lower.L, direction: [0, 1, 0], force: 18 kN }
    hold: [rail-root-lower.L, { part: front-rail.L, at: 1800 }]
  - note: rail-tip-lower.L is a word here`,
  'order: W-1\nscope: [front-rail, apron.R]\nanchors: [floor-front]\nbase: auto',
);
const shop = { 'car.chassis.yaml': carChassis, 'w.readings.yaml': job };
const inJob = (piece: string, nth = 0) =>
  shownAt({ ...shop, 'w.readings.yaml': before(job, piece, nth) }, 'w.readings.yaml');
const inChassis = (piece: string, nth = 0) =>
  shownAt({ ...shop, 'car.chassis.yaml': before(carChassis, piece, nth) }, 'car.chassis.yaml');

describe('in a job, what is shown is about what the cursor stands on', () => {
  it.each([
    ['rail-tip-upper.L: [', 'rail-tip-upper.L', /is \*\*outside\*\*/],
    ['3003,', '[3003, 437.8, 352]', /is \*\*outside\*\*/],
    ['W-1', 'W-1', /is open/],
    ['as received', 'measure', /^\*\*as received\*\*/],
    ['measure:', 'measure', /^\*\*as received\*\*/],
    ['rail-tip-lower.L, dir', 'rail-tip-lower.L', /^\*\*rail-tip-lower\.L\*\*, on front-rail\.L/],
    ['rail-root-lower.L, {', 'rail-root-lower.L', /^\*\*rail-root-lower\.L\*\*/],
    ['apron.R', 'apron.R', /^\*\*apron\.R\*\*: runs along length/],
    ['front-rail.L, at', 'front-rail.L', /^\*\*front-rail\.L\*\*: runs/],
    ['scope', 'scope', /^\*\*scope\*\*\n\n\w/],
    ['base:', 'base', /^\*\*base\*\*\n\n\w/],
    ['force', 'force', /^\*\*force\*\*\n\n\w/],
  ])('%s', async (piece, about, markdown) => {
    const hover = await inJob(piece);
    expect(hover?.about).toBe(about);
    expect(hover?.markdown).toMatch(markdown);
  });

  it('on the scope stands what to read, below what the key means', async () => {
    const shownOn = async (timeline: string, u: number) => {
      const text = jobOn(timeline, `instrument: { name: arm, uncertainty: ${u} }\nscope: [front-rail]`);
      return (
        await shownAt({ ...shop, 'w.readings.yaml': before(text, 'scope') }, 'w.readings.yaml')
      )?.markdown.replaceAll('\\', '');
    };
    expect(await shownOn('  - note: waiting', 0.3)).toMatch(
      /\n\nIn the next measure nothing holds a frame yet\. Read .*, both sides: then every point can be decided\.$/,
    );
    expect(await shownOn(measured(''), 0.2)).toMatch(
      /\n\nIn "as received" the alignment leaves rail-tip.* Every point of the scope can be decided\.$/,
    );
  });

  it('a bare name of what is sided means both', async () => {
    const rails = await inJob('front-rail, apron');
    expect(rails?.about).toBe('front-rail');
    expect(rails?.markdown).toMatch(/^\*\*front-rail\.L\*\*[\s\S]*\n---\n\n\*\*front-rail\.R\*\*/);
    expect((await inJob('floor-front]'))?.markdown).toMatch(
      /^\*\*floor-front\.L\*\*[\s\S]*\*\*floor-front\.R\*\*/,
    );
  });

  it.each(['# by hand', '[0, 1, 0]', '18 kN', '1800', 'a word here', '\ntimeline', 'auto'])(
    'elsewhere nothing: %s',
    async (piece) => expect(await inJob(piece)).toBeNull(),
  );

  it('a name that is none shows nothing', async () => {
    const text = job.replace('hook: rail-tip-lower.L', 'hook: rail-tip-lowr.L');
    expect(
      await shownAt({ ...shop, 'w.readings.yaml': before(text, 'rail-tip-lowr') }, 'w.readings.yaml'),
    ).toBeNull();
  });

  it('without a chassis only keys are told', async () => {
    const alone = (piece: string) => shownAt({ 'w.readings.yaml': before(job, piece) }, 'w.readings.yaml');
    expect(await alone('rail-tip-upper.L: [')).toBeNull();
    expect((await alone('scope'))?.markdown).toContain('**scope**');
  });
});

describe('in a chassis file', () => {
  it.each([
    ['rail-tip-upper:', 'rail-tip-upper', /^\*\*rail-tip-upper\.L\*\*[\s\S]*\*\*rail-tip-upper\.R\*\*/],
    ['latch:', 'latch', /^\*\*latch\*\*\n/],
    ['front-rail: {', 'front-rail', /^\*\*front-rail\.L\*\*/],
    ['floor, base', 'floor', /^\*\*floor\*\*: runs along length, 8 points/],
    ['strut-top.R,', 'strut-top.R', /^\*\*strut-top\.R\*\*, on apron\.R/],
    ['straighten', 'straighten', /^\*\*straighten\*\*\n\n\w/],
    ['both', 'both', /^\*\*both\*\*\n\n\[length/],
    ['vehicle', 'vehicle', /^\*\*vehicle\*\*\n\n\w/],
  ])('%s', async (piece, about, markdown) => {
    const hover = await inChassis(piece);
    expect(hover?.about).toBe(about);
    expect(hover?.markdown).toMatch(markdown);
  });

  it('nothing on figures', async () => expect(await inChassis('1411.8')).toBeNull());
});

it('in a settings file keys are told', async () => {
  const text = before('framewright: settings/1\ndecision-rule: guarded\n', 'decision-rule');
  const hover = await shownAt({ '.framewright.yaml': text }, '.framewright.yaml');
  expect(hover).toMatchObject({
    about: 'decision-rule',
    markdown: expect.stringMatching(/^\*\*decision\\-rule\*\*\n\n\w/),
  });
});

describe('what a file says is text, whatever it looks like', () => {
  const evil = '<img src=x onerror=a> [W](http://a) `b` **c** | www.d.example e@f.example';
  const quoted = JSON.stringify(evil);
  const files = {
    'car.chassis.yaml': carChassis
      .replace('{ kind: published }', `{ kind: published, reference: ${quoted} }`)
      .replace('straighten: minor', `straighten: minor, reference: ${quoted}`)
      .replace('points:\n', `points:\n  ${quoted}: { centre: [1, 2, 3] }\n`),
    'w.readings.yaml': jobOn(
      `${measured('      latch: [3050, 9, 780]', quoted)}\n${measured('      latch: [3050, 1, 780]', `${quoted}`)}`,
      `order: ${quoted}\nscope: [front-rail]`,
    ),
  };

  it.each([
    ['w.readings.yaml', 'measure', 0],
    ['w.readings.yaml', '"<img', 0],
    ['w.readings.yaml', 'latch', 0],
    ['w.readings.yaml', 'latch', 1],
    ['w.readings.yaml', 'front-rail', 0],
    ['car.chassis.yaml', '"<img', 2],
    ['car.chassis.yaml', 'latch', 0],
    ['car.chassis.yaml', 'front-rail', 0],
  ])('%s, %s %i', async (name, piece, nth) => {
    const hover = await shownAt(
      { ...files, [name]: before(files[name as keyof typeof files], piece, nth) },
      name,
    );
    expect(hover).not.toBeNull();
    const bare = hover!.markdown.replaceAll('&nbsp;', '').replace(/\\[!-/:-@[-`{-~]/g, '');
    expect(bare).not.toMatch(/<img|\]\(|`b`|\*\*c|http:|www\.|@f|&/);
  });
});

it('every place of every sample is answered, in words without holes', async () => {
  for (const path of sampleJobs) {
    const files = sampleFiles(path);
    const [text] = [files[path]];
    // one place of each line, further to the right line by line
    let start = 0;
    let shown = 0;
    for (const [number, line] of text.split('\n').entries()) {
      if (number % 7 === 0) {
        const offset = start + Math.min(line.length, 4 + (number % 30));
        const hover = await shownAt(
          { ...files, [path]: `${text.slice(0, offset)}$0${text.slice(offset)}` },
          path,
        );
        if (hover) shown++;
        expect(hover?.markdown ?? '', `${path}:${number + 1}`).not.toMatch(
          /NaN|undefined|null|Infinity|\[object/,
        );
      }
      start += line.length + 1;
    }
    expect(shown, path).toBeGreaterThan(3);
  }
}, 60_000);
