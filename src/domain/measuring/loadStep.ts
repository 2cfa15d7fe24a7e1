import { FIGURES, valueOf } from './figures';

export interface LoadInput {
  /** What was lifted. */
  loadKilograms: number;
  /** What can be added at once: a pair of 1.25 kg plates is a step of 2.5. */
  stepsKilograms: readonly number[];
  /** How many repetitions were done above the target. */
  repsOverTarget: number;
}

/** What to change for the next session. */
export type LoadStep =
  | { do: 'stay' }
  /** `loadKilograms` is the new load. */
  | { do: 'add-load'; loadKilograms: number }
  /** No step at hand is small enough. */
  | { do: 'add-reps' };

/**
 * How the load goes up: 2 to 10 % once one repetition or more over the target can be done (ACSM
 * 2009); of the steps at hand, once or several times, the smallest that fits; where none fits,
 * repetitions. Throws RangeError for a load or step that is not more than 0.
 *
 * @example nextLoad({ loadKilograms: 40, stepsKilograms: [2.5], repsOverTarget: 1 }) // 42.5
 */
export function nextLoad({ loadKilograms, stepsKilograms, repsOverTarget }: LoadInput): LoadStep {
  for (const kilograms of [loadKilograms, ...stepsKilograms]) {
    if (!(kilograms > 0 && kilograms < Infinity)) {
      throw new RangeError(`${kilograms} kg is no load or step: give kilograms, more than 0.`);
    }
  }
  if (!Number.isFinite(repsOverTarget)) {
    throw new RangeError(`${repsOverTarget} is no number of repetitions over the target.`);
  }
  if (repsOverTarget < 1) return { do: 'stay' };
  const least = grams(loadKilograms * valueOf(FIGURES.leastLoadStep));
  const most = grams(loadKilograms * valueOf(FIGURES.mostLoadStep));
  const fitting = stepsKilograms
    .map(grams)
    .map((step) => step * Math.max(1, Math.ceil(least / step)))
    .filter((step) => step <= most);
  if (fitting.length === 0) return { do: 'add-reps' };
  return {
    do: 'add-load',
    loadKilograms: (grams(loadKilograms) + Math.min(...fitting)) / 1000,
  };
}

/** Whole grams, so that 10 % of 20 kg is exactly 2 kg; no plate is finer. */
const grams = (kilograms: number): number => Math.max(1, Math.round(kilograms * 1000));
