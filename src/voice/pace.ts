/** Words a minute at the usual pace: between the 130 and 150 that are understood in a loud room. */
export const USUAL_WORDS_PER_MINUTE = 140;

/** What a voice of which nothing is known may speak: about the middle of those that were seen. */
const UNKNOWN_WORDS_PER_MINUTE = 165;
/** Shorter lines are mostly their beginning and end. */
const FEWEST_WORDS = 5;
/** The middle of so many lines, the latest: one that stumbled does not count for much. */
const KEPT_LINES = 9;
/** Browsers take rates of 0.1 to 10; what is further from 1 sounds broken. */
const SLOWEST = 0.5;
const FASTEST = 1.8;

/** The pace of voices that nobody has measured before, measured from the lines they speak. */
export interface Paces {
  /**
   * The rate at which that voice speaks so many words a minute, from what was measured of it, 0.5
   * to 1.8 for the browser's own `rate`.
   */
  rateFor(voice: string, wordsPerMinute: number): number;
  /** Words a minute at rate 1, rounded; null where nothing was measured. */
  naturalOf(voice: string): number | null;
  /** A line was spoken to its end: `seconds` from its start to its end at that rate. */
  spoke(voice: string, text: string, seconds: number, rate: number): void;
}

/** Natural paces of the lines of each voice, words a minute. */
export type MeasuredPaces = Record<string, number[]>;

/** Goes on from what was kept; `changed` is told what is to be kept. */
export function measuredPaces(
  kept: MeasuredPaces = {},
  changed: (paces: MeasuredPaces) => void = () => undefined,
): Paces {
  const paces = new Map(Object.entries(kept));
  const naturalOf = (voice: string) => middleOf(paces.get(voice) ?? []);
  return {
    rateFor(voice, wordsPerMinute) {
      const rate = wordsPerMinute / (naturalOf(voice) ?? UNKNOWN_WORDS_PER_MINUTE);
      return Math.min(FASTEST, Math.max(SLOWEST, rate));
    },
    naturalOf(voice) {
      const natural = naturalOf(voice);
      return natural === null ? null : Math.round(natural);
    },
    spoke(voice, text, seconds, rate) {
      const words = text.split(/\s+/).filter(Boolean).length;
      if (words < FEWEST_WORDS || !(seconds > 0)) return;
      const natural = (words * 60) / seconds / rate;
      paces.set(voice, [...(paces.get(voice) ?? []), natural].slice(-KEPT_LINES));
      changed(Object.fromEntries(paces));
    },
  };
}

/** What was kept as text; nothing where it cannot be read. */
export function pacesFrom(text: string): MeasuredPaces {
  try {
    const read: unknown = JSON.parse(text);
    if (typeof read !== 'object' || read === null) return {};
    const rows = Object.entries(read).filter(
      (row): row is [string, number[]] =>
        Array.isArray(row[1]) && row[1].every((pace) => typeof pace === 'number' && pace > 0),
    );
    return Object.fromEntries(rows);
  } catch {
    return {};
  }
}

const middleOf = (values: number[]): number | null =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? null;
