import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Chassis } from '../../model/chassis';
import { chassisHash, matchesHash } from './chassis-hash';

const chassisOf = (...texts: string[]) =>
  ({ chain: texts.map((text) => ({ uri: 'file:///a', text })) }) as unknown as Chassis;

// FIPS 180-4's own example: SHA-256 of `abc`
test('of a text whose hash is published', () => {
  expect(chassisHash(chassisOf('abc'))).toBe(
    'sha256-ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
  );
  expect(chassisHash(chassisOf('a', 'bc'))).toBe(chassisHash(chassisOf('abc')));
});

test('agrees with another implementation on any text, in UTF-8', () => {
  fc.assert(
    fc.property(fc.array(fc.string({ unit: 'binary' }).map((text) => text.replaceAll('\r', ''))), (texts) => {
      const expected = createHash('sha256').update(texts.join(''), 'utf8').digest('hex');
      expect(chassisHash(chassisOf(...texts))).toBe(`sha256-${expected}`);
    }),
  );
});

test('a written hash fits by eight digits or more, in either case, whatever the line ends', () => {
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom('a', 'é', '\n', 'x: 1')),
      fc.integer({ min: 8, max: 64 }),
      (pieces, digits) => {
        const text = pieces.join('');
        const written = chassisHash(chassisOf(text)).slice(0, 'sha256-'.length + digits);
        for (const each of [text, text.replaceAll('\n', '\r\n')])
          expect(matchesHash(chassisOf(each), written)).toBe(true);
        expect(matchesHash(chassisOf(`${text}!`), written)).toBe(false);
      },
    ),
  );
});

test('fewer digits prove nothing', () => {
  for (const written of ['', 'sha256-', 'sha256-ba7816b', 'ba7816bf8f01'])
    expect(matchesHash(chassisOf('abc'), written)).toBe(false);
});
