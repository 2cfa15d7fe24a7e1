import { expect, it, vi } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { understand } from '../../src/domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import { readSoon } from '../../src/main/readSoon';
import { StandingClock } from '../ear/doubles';

/** A book that counts how often all its faults are read. */
function counted() {
  let read = 0;
  const { vocabulary, ...book } = bookOf();
  const { faults } = vocabulary;
  const counting = Object.defineProperty({ ...vocabulary }, 'faults', {
    enumerable: true,
    get: () => {
      read += 1;
      return faults;
    },
  });
  return { book: { ...book, vocabulary: counting }, read: () => read };
}

it('whoever speaks first does not wait for the book to be read', async () => {
  const clock = new StandingClock();
  const { book, read } = counted();
  readSoon(book, clock);
  expect(read()).toBe(0);
  clock.advance(10_000);
  await vi.waitFor(() => expect(read()).toBeGreaterThan(0));
  const before = read();
  const { reply } = understand(book, 'idle', 'stop', { ...DEFAULT_SETTINGS, confidence: 1 });
  expect(reply?.command).toBe('stop');
  expect(read()).toBe(before);
});
