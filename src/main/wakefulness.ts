import type { Cancel } from '../ports';

/**
 * Keeps the screen on until cancelled. The system takes the lock away with the page's visibility,
 * so it is taken again whenever the page comes back; a browser without it just goes dark.
 */
export function stayAwake(): Cancel {
  let lock: WakeLockSentinel | null = null;
  let over = false;
  const take = async () => {
    if (over || document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
    try {
      lock = await navigator.wakeLock.request('screen');
      if (over) await lock.release();
    } catch {
      // Refused on a low battery: the next time the page is seen it is asked for again.
    }
  };
  const again = () => void take();
  document.addEventListener('visibilitychange', again);
  void take();
  return () => {
    over = true;
    document.removeEventListener('visibilitychange', again);
    void lock?.release();
  };
}
