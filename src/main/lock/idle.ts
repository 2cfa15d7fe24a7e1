import type { Cancel, Clock } from '../../ports';

/** How often is looked; a device that slept is looked at when it wakes. */
const LOOK_MILLISECONDS = 10_000;
const TOUCHES = ['pointerdown', 'keydown', 'wheel', 'touchstart'] as const;

/**
 * Calls `lock` once nobody has touched the page, pressed a key or spoken for so many minutes. While
 * `isBusy`, time does not count: a session is never locked, nor the minutes after it shortened.
 */
export function lockWhenIdle({
  clock,
  minutes,
  isBusy,
  lock,
  page = window,
}: {
  clock: Clock;
  /** Null: never. */
  minutes: () => number | null;
  isBusy: () => boolean;
  lock: () => void;
  page?: Pick<Window, 'addEventListener' | 'removeEventListener'>;
}): { touched: () => void; stop: Cancel } {
  let lastMilliseconds = clock.now();
  let timer: unknown = null;
  const look = () => {
    const limit = minutes();
    if (isBusy()) lastMilliseconds = clock.now();
    else if (limit !== null && clock.now() - lastMilliseconds >= limit * 60_000) lock();
  };
  /** A touch that wakes a page which was left alone too long is too late. */
  const touched = () => {
    look();
    lastMilliseconds = clock.now();
  };
  const again = () => {
    look();
    timer = clock.setTimeout(again, LOOK_MILLISECONDS);
  };
  again();
  for (const each of TOUCHES) page.addEventListener(each, touched, { capture: true });
  for (const each of ['pageshow', 'visibilitychange', 'focus'] as const)
    page.addEventListener(each, look);
  return {
    touched,
    stop() {
      clock.clearTimeout(timer);
      for (const each of TOUCHES) page.removeEventListener(each, touched, { capture: true });
      for (const each of ['pageshow', 'visibilitychange', 'focus'] as const)
        page.removeEventListener(each, look);
    },
  };
}
