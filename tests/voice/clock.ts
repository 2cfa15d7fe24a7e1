import { afterEach, beforeEach, vi } from 'vitest';
import type { Clock } from '../../src/ports';

/** The page's clock; under fake timers it moves only when a test moves it. */
export const clock: Clock = {
  now: () => Date.now(),
  setTimeout: (run, milliseconds) => setTimeout(run, milliseconds),
  clearTimeout: (id) => clearTimeout(id as ReturnType<typeof setTimeout> | undefined),
};

/** Call in a test file: time stands still until it is passed. */
export const stopTime = (): void => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());
};

export const pass = (milliseconds: number): Promise<unknown> =>
  vi.advanceTimersByTimeAsync(milliseconds);
