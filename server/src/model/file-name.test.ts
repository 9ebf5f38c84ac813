import { expect, it } from 'vitest';
import { fileName } from './file-name';

it('is the last part of a URI as a person reads it, a stray % as it stands', () => {
  expect(fileName('file:///shop/jobs/w%201.readings.yaml')).toBe('w 1.readings.yaml');
  expect(fileName('file:///shop/jobs/5%.readings.yaml')).toBe('5%.readings.yaml');
  expect(fileName('untitled:Untitled-1')).toBe('untitled:Untitled-1');
});
