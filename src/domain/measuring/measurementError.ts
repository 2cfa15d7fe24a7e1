import { FIGURES, valueOf } from './figures';
import { within } from './within';

/**
 * Standard error of measurement, in the unit of the standard deviation: SD x sqrt(1 - ICC)
 * (Weir 2005). Throws RangeError for a negative SD, or an ICC outside 0 to 1.
 *
 * @example standardError(10, 0.9) // 3.162
 */
export function standardError(standardDeviation: number, icc: number): number {
  if (!within(standardDeviation, { from: 0, to: Number.MAX_VALUE })) {
    throw new RangeError(`A standard deviation of ${standardDeviation} is none: give 0 or more.`);
  }
  if (!within(icc, { from: 0, to: 1 })) {
    throw new RangeError(`A reliability (ICC) of ${icc} is outside 0 to 1.`);
  }
  return standardDeviation * Math.sqrt(1 - icc);
}

/**
 * Minimal detectable change, in the unit of the standard error: what two measurements of somebody
 * who did not change stay within, 90 or 95 times of 100; z x sqrt 2 x SEM (Weir 2005). Throws
 * RangeError for a negative error.
 *
 * @example minimalDetectableChange(12.3, 95) // 34.1
 */
export function minimalDetectableChange(standardErrorOf: number, percent: 90 | 95): number {
  if (!within(standardErrorOf, { from: 0, to: Number.MAX_VALUE })) {
    throw new RangeError(`A standard error of ${standardErrorOf} is none: give 0 or more.`);
  }
  return valueOf(percent === 90 ? FIGURES.z90 : FIGURES.z95) * Math.SQRT2 * standardErrorOf;
}
