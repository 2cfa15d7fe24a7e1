import type { Clock } from '../ports';
import type { TimerDue, TimerWanted } from './timers';

/** A worker's timers go on in a page that nobody looks at, where the page's come once a second. */
const startTimers = (): Worker | null => {
  try {
    return new Worker(new URL('./timers.ts', import.meta.url), { type: 'module' });
  } catch {
    // The page's own timers are there as well.
    return null;
  }
};

/**
 * True time from the page's monotonic clock: it never jumps when the wall clock is set. Timers are
 * a worker's and the page's at once, and whichever is first runs.
 */
export function createBrowserClock(timers: Worker | null = startTimers()): Clock {
  const waiting = new Map<number, { run: () => void; ownTimer: number }>();
  let lastId = 0;
  const take = (id: number) => {
    const timer = waiting.get(id);
    waiting.delete(id);
    window.clearTimeout(timer?.ownTimer);
    return timer;
  };
  const due = (id: number) => take(id)?.run();
  timers?.addEventListener('message', ({ data }: MessageEvent<TimerDue>) => due(data.id));
  return {
    now: () => performance.timeOrigin + performance.now(),
    setTimeout(run, milliseconds) {
      lastId += 1;
      const id = lastId;
      waiting.set(id, { run, ownTimer: window.setTimeout(() => due(id), milliseconds) });
      timers?.postMessage({ id, milliseconds } satisfies TimerWanted);
      return id;
    },
    clearTimeout(id) {
      if (take(id as number) !== undefined)
        timers?.postMessage({ id: id as number, milliseconds: null } satisfies TimerWanted);
    },
  };
}
