import type { Clock } from '../ports';

interface Timer {
  id: number;
  atMilliseconds: number;
  run: () => void;
}

/** A clock that stands still until it is run: time passes from one timer to the next at once. */
export interface VirtualClock extends Clock {
  /**
   * Runs every timer in order of time (then of making) until none is left or `until` says so.
   * @throws Error after `limitMilliseconds` of virtual time, a sign of something without an end.
   */
  runUntil(until: () => boolean, limitMilliseconds: number): void;
  /** Lets that much time pass. */
  advance(milliseconds: number): void;
}

export function createVirtualClock(startMilliseconds: number): VirtualClock {
  let now = startMilliseconds;
  let made = 0;
  const timers = new Map<number, Timer>();

  /** A session keeps a handful of timers, so looking through all of them is quick enough. */
  const earliest = (): Timer | undefined => {
    let first: Timer | undefined;
    for (const timer of timers.values()) {
      if (first === undefined || timer.atMilliseconds < first.atMilliseconds) first = timer;
    }
    return first;
  };

  const fire = (timer: Timer) => {
    timers.delete(timer.id);
    now = Math.max(now, timer.atMilliseconds);
    timer.run();
  };

  return {
    now: () => now,
    setTimeout(run, milliseconds) {
      made += 1;
      timers.set(made, { id: made, atMilliseconds: now + Math.max(0, milliseconds), run });
      return made;
    },
    clearTimeout: (id) => void timers.delete(id as number),
    runUntil(until, limitMilliseconds) {
      for (let timer = earliest(); timer !== undefined && !until(); timer = earliest()) {
        if (timer.atMilliseconds - startMilliseconds > limitMilliseconds) {
          throw new Error(
            `The session did not end within ${Math.round(limitMilliseconds / 60000)} minutes.`,
          );
        }
        fire(timer);
      }
    },
    advance(milliseconds) {
      const target = now + milliseconds;
      for (
        let timer = earliest();
        timer !== undefined && timer.atMilliseconds <= target;
        timer = earliest()
      ) {
        fire(timer);
      }
      now = target;
    },
  };
}
