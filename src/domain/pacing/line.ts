import type { Side } from '../areas';

/** The silence after words, in which they are understood; without it lines run into each other. */
export const BREATH_SECONDS = 0.5;

/** A cue lasts less than this: browsers' voices die in longer ones, and nobody keeps them in mind. */
export const LONGEST_CUE_SECONDS = 10;

/** One normal breath, in and out: 15 a minute. */
export const NORMAL_BREATH_SECONDS = 4;

/** A long exhale lasts 4 to 8 s: 6 breaths a minute give exhales of 5.6 to 7.0 s (Van Diest 2014, Laborde 2021). */
export const EXHALE_SECONDS = { least: 4, most: 8 } as const;
/** Long exhales in a row before normal breaths must follow (common practice, no source). */
export const EXHALES_IN_A_ROW = 6;

/** The phases that are paced; each is a state of the lines machine. */
export type PacedPhase =
  'cueing' | 'settling' | 'exhaling' | 'holding' | 'repeating' | 'pausingAtKnee' | 'resting';

/**
 * One planned stretch of a check or set. A `cueing` line lasts as long as its words and a breath;
 * every other line lasts exactly `seconds`, whatever is said in it.
 */
export interface PacedLine {
  phase: PacedPhase;
  /** Planned start, seconds from the start of the step; a long cue moves it, nothing overlaps. */
  atSeconds: number;
  seconds: number;
  /** Spoken at the start of the line, or null. */
  text: string | null;
  /** Counts inside the line, in seconds from its start; spoken where `text` is set, else a tone. */
  beats: { atSeconds: number; count: number; text: string | null }[];
  /** Rep this line belongs to, from 1, or null; "rep" skips to the next. */
  rep: number | null;
  side: Side | null;
}
