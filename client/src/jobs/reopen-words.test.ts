import { expect, it } from 'vitest';
import { signOffLine } from './reopen-words';

it('the line of a signature is its key at the top of the file', () => {
  expect(signOffLine(['timeline:', '  - note: sign-off:', 'sign-off:', '  by: rk'])).toBe(2);
  expect(signOffLine(['"sign-off": { by: rk }'])).toBe(0);
  expect(signOffLine(['timeline:', '  sign-off: no', '# sign-off:', 'sign-offs: x'])).toBeNull();
});
