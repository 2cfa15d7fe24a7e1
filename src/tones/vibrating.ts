import type { ToneName, Tones } from '../ports';

/**
 * The tones as a phone in a pocket tells them: milliseconds of trembling and stillness by turns.
 * Each differs from each other by its number of pulses or by a pulse three times as long.
 */
export const VIBRATIONS: Record<ToneName, number[]> = {
  listening: [60],
  heard: [20],
  accepted: [60, 60, 60],
  'not-understood': [60, 60, 220],
  countdown: [30],
  begin: [220],
  'not-stored': [220, 80, 220, 80, 220],
  halted: [600],
  upright: [30, 60, 30],
  tilted: [220, 60, 60],
};

/**
 * The same tones, felt too where the device can tremble; `vibrate` is `navigator.vibrate`, or
 * undefined where there is none.
 */
export const alsoFelt = <T extends Tones>(
  tones: T,
  vibrate: ((pattern: number[]) => unknown) | undefined,
): T => ({
  ...tones,
  play(name) {
    tones.play(name);
    vibrate?.(VIBRATIONS[name]);
  },
  hush() {
    tones.hush();
    vibrate?.([]);
  },
});
