import type { Cancel, Clock } from '../ports';

/** So often it is looked whether time went by unseen. */
const LOOK_MILLISECONDS = 2000;
/** Longer than a busy page ever stands: the device slept, or the browser froze the page. */
const ASLEEP_MILLISECONDS = 20_000;

export interface AwakeClock extends Clock {
  /** Looks at once; to be called before anything from outside is taken. */
  look(): void;
  leave: Cancel;
}

/**
 * A clock that notices when nobody lived through the time that has passed. `woke` is told first,
 * before anything that was due meanwhile, and while it runs the clock shows when the device fell
 * asleep: what it puts on record (a pause) is of then. Some devices stop the page's clock while
 * they sleep, so `wallNow` is held beside it; where the wall clock was only set forward, a pause
 * does no harm.
 */
export function createAwakeClock(
  clock: Clock,
  woke: () => void,
  wallNow: () => number = Date.now,
): AwakeClock {
  let seen = { now: clock.now(), wall: wallNow() };
  let fellAsleepAt: number | null = null;
  const look = () => {
    const before = seen;
    seen = { now: clock.now(), wall: wallNow() };
    if (Math.max(seen.now - before.now, seen.wall - before.wall) < ASLEEP_MILLISECONDS) return;
    fellAsleepAt = before.now;
    woke();
    fellAsleepAt = null;
  };
  let looking = clock.setTimeout(lookOn, LOOK_MILLISECONDS);
  function lookOn() {
    look();
    looking = clock.setTimeout(lookOn, LOOK_MILLISECONDS);
  }
  const open = new Set<unknown>();
  return {
    look,
    now: () => fellAsleepAt ?? clock.now(),
    setTimeout(run, milliseconds) {
      const id = clock.setTimeout(() => {
        look();
        // Waking may have taken it back.
        if (open.delete(id)) run();
      }, milliseconds);
      open.add(id);
      return id;
    },
    clearTimeout(id) {
      open.delete(id);
      clock.clearTimeout(id);
    },
    leave: () => clock.clearTimeout(looking),
  };
}
