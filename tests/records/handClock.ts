import type { Clock } from '../../src/ports';

/** A clock that moves only when a test moves it. */
export const handClock = (): Clock & { pass(milliseconds: number): void; timers(): number } => {
  let now = 0;
  let next = 1;
  const timers = new Map<number, { at: number; run: () => void }>();
  return {
    now: () => now,
    setTimeout(run, milliseconds) {
      timers.set(next, { at: now + milliseconds, run });
      return next++;
    },
    clearTimeout: (id) => void timers.delete(id as number),
    timers: () => timers.size,
    pass(milliseconds) {
      const until = now + milliseconds;
      for (;;) {
        const due = [...timers].filter(([, { at }]) => at <= until);
        const [first] = due.sort(([, a], [, b]) => a.at - b.at);
        if (first === undefined) break;
        timers.delete(first[0]);
        now = first[1].at;
        first[1].run();
      }
      now = until;
    },
  };
};
