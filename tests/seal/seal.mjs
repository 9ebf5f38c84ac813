// Both seals of a job, from the text of the language page alone.   node seal.mjs JOB [guarded]
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parse, parseDocument } from 'yaml';

/** JSON after RFC 8785, numbers to 6 decimals, without what is empty. */
const json = (v) => {
  if (v === null || v === undefined) return undefined;
  if (typeof v === 'number') return JSON.stringify((Math.sign(v) * Math.round(Math.abs(v) * 1e6)) / 1e6 + 0);
  if (typeof v !== 'object') return JSON.stringify(v);
  const isList = Array.isArray(v);
  const keys = isList ? [...v.keys()] : Object.keys(v).sort();
  const filled = keys.filter((k) => json(v[k]) !== undefined);
  const inner = filled.map((k) => (isList ? '' : `${JSON.stringify(k)}:`) + json(v[k])).join();
  return inner && (isList ? `[${inner}]` : `{${inner}}`) ? (isList ? `[${inner}]` : `{${inner}}`) : undefined;
};
const seal = (text = '{}') => `seal1-${createHash('sha256').update(text).digest('hex').slice(0, 16)}`;
const set = (list) =>
  [...new Map(list.map((v) => [json(v), v]))].sort((a, b) => (a[0] < b[0] ? -1 : 1)).map(([, v]) => v);
const list = (v) => (v === undefined ? [] : [v].flat());
const both = (id, known) => {
  const ids = (id in known ? [id] : [`${id}.L`, `${id}.R`]).filter((each) => each in known);
  return ids.length > 0 ? ids : [id];
};
const seconds = (t) => t && Number.parseFloat(t) * (t.endsWith('min') ? 60 : 1);
const pairOf = (s) => [s[0], s[1]].sort();

/** How a sheet counts along the length and the height, 1 or -1. A sheet that counts widths from one side, or in another order, is not read here. */
function signsOf({ axes = ['forward', 'outboard', 'up'] }) {
  const [x, y, z] = ['forward rearward', 'outboard', 'up down'].map((words, i) =>
    words.split(' ').indexOf(axes[i]),
  );
  if ([x, y, z].includes(-1)) throw new Error(`axes: [${axes.join(', ')}] are not read here`);
  return { length: 1 - 2 * x, width: 1, height: 1 - 2 * z };
}

/** A number, or two with the lower first, counted the other way. */
const turned = (v, sign) =>
  sign === 1 || v === undefined ? v : Array.isArray(v) ? v.map((x) => 0 - x).reverse() : 0 - v;

/** One body from a chassis file and its parents, itself first, each as parsed. */
function bodyOf(files) {
  let [points, parts, spans, limits, doubt] = [{}, {}, [], [3, 3, 3].map((t) => [-t, t]), 0];
  let [build, elsewhere] = [0.5, 1];
  for (const file of [...files].reverse()) {
    const mm = file.units === 'inch' ? 25.4 : 1;
    const range = (t) => (typeof t === 'number' ? [-t * mm, t * mm] : t?.map((x) => x * mm));
    const sign = signsOf(file);
    const axes = (t, otherwise) =>
      ['length', 'width', 'height'].map(
        (a, i) => turned(range(t?.[a] ?? (typeof t === 'number' ? t : undefined)), sign[a]) ?? otherwise[i],
      );
    limits = axes(file.tolerance, limits);
    if (file.source) doubt = (file.source.uncertainty ?? 0) * mm;
    if (file.build !== undefined) build = file.build * mm;
    if (file['build-elsewhere'] !== undefined) elsewhere = file['build-elsewhere'] * mm;
    const old = { ...points };
    for (const [name, p] of Object.entries(file.points ?? {})) {
      for (const side of ['', '.L', '.R']) delete points[name + side];
      for (const [side, at] of Object.entries({
        '.L': p?.both ?? p?.left,
        '.R': p?.both ?? p?.right,
        '': p?.centre,
      })) {
        if (!at) continue;
        const own = axes(p.tolerance, limits);
        if (side === '.R') own[1] = [-own[1][1], -own[1][0]];
        const stated = p.uncertainty ?? p.source?.uncertainty ?? (p.source ? 0 : undefined);
        const uncertainty = stated === undefined ? doubt : stated * mm;
        points[name + side] = {
          at: [at[0] * mm * sign.length, at[1] * (side === '.R' ? -mm : mm), at[2] * mm * sign.height],
          limits: own,
          uncertainty,
          part: p.part,
          base: p.base,
        };
      }
    }
    for (const [name, p] of Object.entries(file.parts ?? {}))
      parts[name] = p && {
        ...p,
        section: turned(
          p.section?.map((x) => x * mm),
          sign[p.along ?? 'length'],
        ),
      };
    const stays = (id, level) =>
      points[id]?.at.every((x, i) => (level && i === 2) || Math.abs(x - old[id].at[i]) < 1e-3);
    const widest = Math.max(...limits.flat().map(Math.abs));
    const own = (file.spans ?? []).flatMap(({ from, to, distance, tolerance, level, pairs }) => {
      const sides = { straight: ['LL', 'RR'], crossed: ['LR', 'RL'] }[pairs] ?? ['  '];
      const on = (id, side) => (id in points ? id : `${id}.${side}`);
      return sides.map(([a, b]) => [
        ...pairOf([on(from, a), on(to, b)]),
        {
          distance: distance * mm,
          limits: range(tolerance) ?? [-widest, widest],
          level: level || null,
          uncertainty: doubt || null,
        },
      ]);
    });
    const isAnew = (s) => own.some((o) => `${pairOf(o)}` === `${pairOf(s)}`);
    spans = [...spans.filter((s) => !isAnew(s) && pairOf(s).every((id) => stays(id, s[2].level))), ...own];
  }
  const ids = Object.entries(parts).flatMap(([name, p]) =>
    p === null ? [] : (p.sided ? ['.L', '.R'] : ['']).map((side) => [name + side, p]),
  );
  parts = Object.fromEntries(ids);
  for (const [id, p] of Object.entries(points))
    p.part = [p.part + (/\.[LR]$/.exec(id)?.[0] ?? ''), p.part].find((each) => each in parts);
  const widest = Math.max(...limits.flat().map(Math.abs));
  return { points, parts, spans, build, elsewhere, widest, signs: signsOf(files[0]) };
}

/** The chassis as a job uses it. */
function sealedChassis(job, { points, parts, spans, build, elsewhere, widest }) {
  const entries = job.timeline;
  const read = entries.flatMap((e) => (e.spans ?? []).map((s) => `${pairOf(s)}`));
  const holds = entries.flatMap((e) => list(e.hold));
  const named = [
    ...(job.anchors ?? []),
    ...(Array.isArray(job.base) ? job.base : []),
    ...holds.filter((h) => !h.part),
    ...entries.flatMap((e) => [
      ...Object.keys(e.readings ?? {}),
      ...(e.spans ?? []).flatMap(pairOf),
      ...(e.hook ? [e.hook] : []),
      ...(e.chains ?? []).map(({ hook }) => hook),
    ]),
  ].flatMap((id) => both(id, points));
  const worked = entries.flatMap((e) => [
    e.part,
    e.section,
    e.replace,
    e.heat,
    ...['relieve', 'release', 'join'].flatMap((k) => list(e[k])),
    ...(e.join ? list(e.to) : []),
  ]);
  const touched = [...(job.scope ?? []), ...worked, ...holds.map((h) => h.part)]
    .filter(Boolean)
    .flatMap((id) => both(id, parts));
  const mine = [...touched, ...named.map((id) => points[id]?.part)];
  const used = Object.entries(points).filter(
    ([id, p]) => p.base || named.includes(id) || (p.part && mine.includes(p.part)),
  );
  const theirs = [...mine, ...used.map(([, p]) => p.part)];
  const listed = spans.filter((s) => read.includes(`${pairOf(s)}`));
  const three = json([3, 3, 3].map((t) => [-t, t]));
  return {
    build: build === 0.5 ? null : build,
    'build-elsewhere': elsewhere === 1 ? null : elsewhere,
    points: Object.fromEntries(
      used.map(([id, p]) => [
        id,
        {
          ...p,
          base: p.base || null,
          uncertainty: p.uncertainty || null,
          limits: json(p.limits) === three ? null : p.limits,
        },
      ]),
    ),
    parts: Object.fromEntries(
      Object.entries(parts)
        .filter(([id]) => theirs.includes(id))
        .map(([id, { along, steel, straighten, section, heat, attached }]) => [
          id,
          {
            along: along === 'length' ? null : along,
            steel,
            straighten,
            section,
            heat: heat?.to ? { to: Number.parseFloat(heat.to), for: seconds(heat.for) } : heat,
            attached: `${list(attached)}` === 'welded' ? null : set(list(attached)),
          },
        ]),
    ),
    spans: set(listed),
    'span-tolerance':
      widest === 3 || read.every((pair) => listed.some((s) => `${pairOf(s)}` === pair)) ? null : widest,
  };
}

/** The comments that silence a line: rule, place, reason. */
function ignoresIn(text) {
  const lineOf = (offset) => text.slice(0, offset).split('\n').length - 1;
  const startsBy = (line) => (node) => lineOf((node.key ?? node).range[0]) <= line;
  const lines = text.split('\n');
  const found = lines.map((line, i) => [
    i,
    /(?:^|\s)#\s*framewright-ignore\s+([^\s:]+)(?![^\s:])\s*:?(.*\p{L}.*)$/u.exec(line.trimEnd()),
  ]);
  return found
    .filter(([, comment]) => comment)
    .map(([i, [, rule, reason]]) => {
      const line = lines[i].trim().startsWith('#') ? i + 1 : i;
      const block = parseDocument(text).contents.items.findLast(startsBy(line));
      const index = block.key.value === 'timeline' ? block.value.items.findLastIndex(startsBy(line)) : -1;
      if (index < 0) return [rule, block.key.value, reason.trim()];
      const number = block.value.items
        .slice(0, index + 1)
        .filter((e) => e.items[0].key.value !== 'note').length;
      const row = block.value.items[index]
        .get('readings')
        ?.items.find(({ key }) => lineOf(key.range[0]) === line);
      return [rule, row ? `${number} ${row.key.value}` : `${number}`, reason.trim()];
    });
}

/** What a job is judged by. */
function sealedReadings(job, text, { points, parts, signs }, rule) {
  const mm = job.units === 'inch' ? 25.4 : 1;
  const len = (v) => (typeof v === 'number' ? v * mm : Array.isArray(v) ? v.map(len) : v);
  // places along a part are numbers of the sheet
  const place = (part, v) => turned(len(v), signs[parts[part]?.along ?? 'length']);
  const words = (map) =>
    map && Object.fromEntries(Object.entries(map).map(([key, word]) => [key, `${word}`]));
  const word = (v) => (v === undefined ? v : `${v}`);
  const names = (v, known) => v && set(list(v).flatMap((id) => both(id, known)));
  const tool = (i) =>
    i && {
      name: word(i.name),
      serial: word(i.serial),
      calibrated: i.calibrated,
      uncertainty: len(i.uncertainty),
      repeatability: len(i.repeatability) || null,
      'span-uncertainty': len(i['span-uncertainty']),
    };
  const chain = ({ hook, direction, force }) => ({
    hook,
    direction,
    force: force && Number.parseFloat(force) / (force.endsWith('kN') ? 1 : 1000),
  });
  const triples = (r) => (Array.isArray(r) && !Array.isArray(r[0]) ? [r] : r);
  const held = (h) =>
    h.part ? both(h.part, parts).map((part) => ({ part, at: place(part, h.at) })) : both(h, points);
  const sealed = {
    measure: (e) => ({
      measure: true,
      by: word(e.by),
      at: e.at,
      instrument: tool(e.instrument),
      conditions: words(e.conditions),
      'set-up': e['set-up'],
      readings: Object.fromEntries(Object.entries(e.readings ?? {}).map(([id, r]) => [id, len(triples(r))])),
      spans: set((e.spans ?? []).map((s) => [...pairOf(s), s[2] === 'unreachable' ? s[2] : len(list(s[2]))])),
    }),
    observe: (e) => ({
      observe: e.observe,
      part: e.part,
      at: place(e.part, e.at),
      answered: e.answered && { ...e.answered, by: word(e.answered.by), how: word(e.answered.how) },
    }),
    pull: (e) => ({
      pull: true,
      part: e.part,
      chains: (e.hook ? [e] : (e.chains ?? [])).map(chain),
      hold: set(list(e.hold).flatMap(held)),
    }),
    relieve: (e) => ({ relieve: e.relieve === 'all' ? ['all'] : names(e.relieve, parts) }),
    release: (e) => ({ release: e.release === 'all' ? ['all'] : names(e.release, parts) }),
    section: (e) => {
      const isTurned = signs[parts[e.section]?.along ?? 'length'] === -1;
      const beyond = isTurned && e.beyond ? { low: 'high', high: 'low' }[e.beyond] : e.beyond;
      return { section: e.section, at: place(e.section, list(e.at)), beyond };
    },
    replace: (e) => ({ replace: e.replace }),
    join: (e) => ({ join: names(e.join, parts), with: set(list(e.with)), to: names(e.to, parts) }),
    heat: (e) => ({ heat: e.heat, to: e.to && Number.parseFloat(e.to), for: seconds(e.for) }),
    note: () => null,
  };
  const { by, date, 'judged-by': version = '0.1', accepted = [] } = job['sign-off'];
  const base = Array.isArray(job.base)
    ? set(job.base)
    : job.base?.between && { between: turned(len(job.base.between), signs.length) };
  return {
    instrument: tool(job.instrument),
    axes: `${job.axes}` === 'forward,left,up' ? null : job.axes,
    base,
    conditions: words(job.conditions),
    anchors: names(job.anchors, points),
    scope: names(job.scope, parts),
    timeline: job.timeline.map((e) => sealed[Object.keys(e)[0]](e)),
    'sign-off': {
      by: word(by),
      date,
      'judged-by': `${version}` === '0.1' ? null : `${version}`,
      accepted: set(accepted.map(({ point, reason }) => ({ point, reason: word(reason) }))),
    },
    'decision-rule': rule === 'simple' ? null : rule,
    ignores: set(ignoresIn(text)),
  };
}

/** What is sealed, as the text that is hashed. `chassisTexts`: the chassis file, then the one that it extends, and so on. */
export function sealedTexts(text, chassisTexts, rule = 'simple') {
  const [job, body] = [parse(text), bodyOf(chassisTexts.map((each) => parse(each)))];
  return { readings: json(sealedReadings(job, text, body, rule)), chassis: json(sealedChassis(job, body)) };
}

/** Both seals. */
export function sealsOf(text, chassisTexts, rule = 'simple') {
  const { readings, chassis } = sealedTexts(text, chassisTexts, rule);
  return { readings: seal(readings), chassis: seal(chassis) };
}

if (process.argv[1]?.endsWith('seal.mjs') && process.argv[2]) {
  const job = readFileSync(process.argv[2], 'utf8');
  const texts = [];
  for (let path = join(dirname(process.argv[2]), parse(job).chassis); path; ) {
    texts.push(readFileSync(path, 'utf8'));
    const parent = parse(texts.at(-1)).extends;
    path = parent && join(dirname(path), parent);
  }
  console.log(sealsOf(job, texts, process.argv[3]));
}
