import type { Clock } from '../ports';

/** True time from the page's monotonic clock: it never jumps when the wall clock is set. */
export const browserClock: Clock = {
  now: () => performance.timeOrigin + performance.now(),
  setTimeout: (run, milliseconds) => window.setTimeout(run, milliseconds),
  clearTimeout: (id) => window.clearTimeout(id as number),
};
