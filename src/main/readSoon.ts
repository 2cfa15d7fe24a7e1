import { DEFAULT_SETTINGS } from '../domain/log';
import type { CueBook } from '../domain/script';
import type { Clock } from '../ports';

/** Where a browser does not say when it is idle. */
const LATER_MILLISECONDS = 1500;
const LATEST_MILLISECONDS = 10_000;

/**
 * Lets a book's words be learnt while nobody waits: whoever speaks first, "stop" perhaps, would wait
 * for it, a quarter of a second and more on a busy device.
 */
export function readSoon(book: CueBook, clock: Clock): void {
  // Fetched then: the first screen waits for none of it.
  const read = () =>
    void import('../domain/hearing/understanding').then(
      ({ understand }) => understand(book, 'idle', 'stop', { ...DEFAULT_SETTINGS, confidence: 1 }),
      () => undefined,
    );
  const { requestIdleCallback } = globalThis as Partial<Pick<Window, 'requestIdleCallback'>>;
  if (requestIdleCallback) requestIdleCallback(read, { timeout: LATEST_MILLISECONDS });
  else clock.setTimeout(read, LATER_MILLISECONDS);
}
