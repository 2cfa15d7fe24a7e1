import type { PhoneReader } from './phoneReader';
import { HEARD_RATE } from './resampling';

/** The two sizes of the ear: the small one hears first; then the strong one beside it, and both judge. */
export type EarSize = 'small' | 'strong';

/** Why the small one hears on: what it needs is not there, is damaged, or this device is too slow. */
export type WhySmall = 'missing' | 'damaged' | 'slow';

/**
 * The strong reader must read a second of sound in less than this. While somebody speaks there is
 * a look four times a second, and each is also the wait after the last word.
 */
export const TRIAL_SECONDS_AT_MOST = 0.4;
/** The best of so many trials counts: the first also warms up, and others may be using the device. */
const TRIALS = 3;
/** So many readings in a row that took longer than their sound: the device has become too slow. */
const TOO_SLOW_IN_A_ROW = 3;

/** A second of quiet noise: the time that a reader takes does not hang on what is said. */
export const TRIAL_SOUND = Float32Array.from(
  { length: HEARD_RATE },
  (_, at) => Math.sin(at * at) / 100,
);

/**
 * Whether this device reads with it fast enough to hear with.
 * @param now seconds, on any clock that only goes on.
 */
export async function keepsUp(reader: PhoneReader, now: () => number): Promise<boolean> {
  for (let trial = 0; trial < TRIALS; trial += 1) {
    const began = now();
    await reader.read(TRIAL_SOUND);
    if (now() - began < TRIAL_SECONDS_AT_MOST) return true;
  }
  return false;
}

/** The same reader; `tooSlow` is called once, when it no longer keeps up with the sound. */
export function watched(reader: PhoneReader, now: () => number, tooSlow: () => void): PhoneReader {
  let slow = 0;
  return {
    ...reader,
    read: async (samples) => {
      const began = now();
      const rows = await reader.read(samples);
      const late = now() - began > samples.length / HEARD_RATE;
      slow = late ? slow + 1 : 0;
      if (slow === TOO_SLOW_IN_A_ROW) tooSlow();
      return rows;
    },
  };
}
