import { expect, it } from 'vitest';
import { seedOf } from './drawing';

it('draws by the number that is given, else by the usual one', () => {
  expect([seedOf(), seedOf('2')]).toEqual([1, 2]);
});

it.each(['x', '', '1.5', '1e3'])('DRAWN=%s is refused, with what to do', (drawn) => {
  expect(() => seedOf(drawn)).toThrow(/must be a whole number.*DRAWN=2 npm test/);
});
