import { expect, it } from 'vitest';
import { base64 } from './base64';

it('carries every byte, however many there are', () => {
  const bytes = Uint8Array.from({ length: 100_000 }, (_, i) => (i * 7) % 256);
  expect(Buffer.from(base64(bytes), 'base64').equals(Buffer.from(bytes))).toBe(true);
  // RFC 4648, section 10
  expect(base64(new TextEncoder().encode('foob'))).toBe('Zm9vYg==');
});
