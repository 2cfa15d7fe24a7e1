import type { TiltRead } from './line';

/** The shin is upright within these as the load passes the knee (common practice, no source). */
export const SHIN_WITHIN_DEGREES = 10;

/**
 * Nothing is graded on a smaller difference than this: two measurements of the lower leg with an
 * inclinometer differ by up to 4.6 degrees (MDC of the lunge test, Powden 2015).
 */
export const NEVER_UNDER_DEGREES = 5;

/** `close`: too near the line to be told by a phone; a person says what it was. */
export type TiltVerdict = 'within' | 'close' | 'outside';

/** How many degrees from a line a reading has to be before it says anything. */
const least = ({ uncertainDegrees }: TiltRead): number =>
  Math.max(NEVER_UNDER_DEGREES, uncertainDegrees);

/** The shin against its ten degrees from upright. */
export function shinVerdict(read: TiltRead): TiltVerdict {
  const over = read.degrees - SHIN_WITHIN_DEGREES;
  if (Math.abs(over) < least(read)) return 'close';
  return over < 0 ? 'within' : 'outside';
}

/** An arm lifted overhead against the pass line of the session. */
export function armVerdict(read: TiltRead, passLineDegrees: number): TiltVerdict {
  const over = read.degrees - passLineDegrees;
  if (Math.abs(over) < least(read)) return 'close';
  return over > 0 ? 'within' : 'outside';
}

/** The middle one of readings at rest, so that neither the way in nor the way out counts. */
export const middleOf = (reads: readonly TiltRead[]): TiltRead | null =>
  [...reads].sort((one, other) => one.degrees - other.degrees)[Math.floor(reads.length / 2)] ??
  null;

/** What a whole set comes to: its worst pause counts; null where fewer than half were read. */
export function worstOf(pauses: readonly (TiltRead | null)[]): TiltRead | null {
  const read = pauses.filter((pause) => pause !== null);
  if (read.length === 0 || read.length * 2 < pauses.length) return null;
  return read.reduce((worst, pause) => (pause.degrees > worst.degrees ? pause : worst));
}
