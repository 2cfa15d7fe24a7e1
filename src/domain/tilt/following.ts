import { between, degreesBetween, isWhole, lengthOf, type Vector } from './vector';

/** Standard gravity, m/s² (3rd CGPM, 1901); on the ground it is 9.76 to 9.83. */
export const GRAVITY = 9.80665;

/** Time constant of the smoothing: after it 63 % of a sudden change is taken over, after three 95 %. */
export const SMOOTHING_MILLISECONDS = 150;
/** Without a reading for so long the sensor has dropped out, and what it told before is forgotten. */
export const DROPPED_OUT_MILLISECONDS = 500;
/** An angle counts once the phone has been still for so long: two time constants. */
export const STILL_MILLISECONDS = 300;
/**
 * What is further from standard gravity than this is not gravity alone: the phone is being moved.
 * Wide enough for a sensor that is off by 0.4, as cheap ones are (from memory, of data sheets).
 */
const MOVED_METRES_A_SECOND_SQUARED = 0.8;
/** A reading so far from the smoothed direction turns, or is shaken sideways. */
const TURNED_DEGREES = 6;

/** One reading, its time on any clock that only goes forward. */
export interface Sample {
  vector: Vector;
  atMilliseconds: number;
}

/** What the readings so far come to. */
export interface Following {
  smoothed: Vector;
  atMilliseconds: number;
  /** Since when the phone has been still; null while it moves. */
  stillFromMilliseconds: number | null;
}

/**
 * The smoothed vector after one more reading: an exponential mean whose weight follows the time
 * that has passed, since sensors tell at uneven times. The vector is smoothed, not the angle, so
 * nothing jumps at 180 degrees. While the phone is being moved the vector is no gravity, and no
 * angle counts; after a gap everything begins anew. A reading that is no number is left out.
 */
export function followed(before: Following | null, { vector, atMilliseconds }: Sample) {
  if (!isWhole(vector)) return before;
  const isShaken = Math.abs(lengthOf(vector) - GRAVITY) > MOVED_METRES_A_SECOND_SQUARED;
  const passed = before === null ? Infinity : atMilliseconds - before.atMilliseconds;
  if (before === null || passed < 0 || passed > DROPPED_OUT_MILLISECONDS) {
    return begun(vector, atMilliseconds, isShaken);
  }
  const isTurned = degreesBetween(vector, before.smoothed) > TURNED_DEGREES;
  const share = 1 - Math.exp(-passed / SMOOTHING_MILLISECONDS);
  const following: Following = {
    smoothed: between(before.smoothed, vector, share),
    atMilliseconds,
    stillFromMilliseconds:
      isShaken || isTurned ? null : (before.stillFromMilliseconds ?? atMilliseconds),
  };
  return following;
}

const begun = (vector: Vector, atMilliseconds: number, isShaken: boolean): Following => ({
  smoothed: vector,
  atMilliseconds,
  stillFromMilliseconds: isShaken ? null : atMilliseconds,
});

/** How long the phone has been still, milliseconds; 0 while it moves. */
export const stillFor = (following: Following | null): number =>
  following?.stillFromMilliseconds == null
    ? 0
    : following.atMilliseconds - following.stillFromMilliseconds;

export const isStill = (following: Following | null): following is Following =>
  stillFor(following) >= STILL_MILLISECONDS;
