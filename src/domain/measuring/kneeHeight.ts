import { FIGURES, valueOf } from './figures';
import { KNEE } from './length';
import { within } from './within';

/** Outside these statures the estimate was not fitted. */
const STATURE_MILLIMETRES = { from: 1400, to: 2000 } as const;
const ADULT_FROM_YEARS = 17;

/** Measured, or to be estimated from stature, for adults only. */
export type Knee =
  { measuredMillimetres: number } | { statureMillimetres: number; ageYears: number | undefined };

export interface KneeHeight {
  /** From the floor to the middle of the kneecap, barefoot. */
  millimetres: number;
  /** Standard error: two thirds of people lie within it. 0 where it was measured. */
  errorMillimetres: number;
}

/**
 * Knee height, measured or estimated: -84.73 + 0.32678 x stature (regression on ANSUR II). No two
 * people of one stature are alike, so measure where it matters. Throws RangeError where a measured
 * knee cannot be one, where the age is missing or under 17, and for a stature outside 140 to
 * 200 cm: each says to measure the knee.
 *
 * @example kneeHeight({ statureMillimetres: 1750, ageYears: 30 }).millimetres // 487.1
 */
export function kneeHeight(knee: Knee): KneeHeight {
  if ('measuredMillimetres' in knee) {
    const { measuredMillimetres } = knee;
    if (!within(measuredMillimetres, KNEE)) {
      throw new RangeError(
        `A knee height of ${measuredMillimetres} mm is outside ${KNEE.from} to ${KNEE.to} mm: measure from the floor to the middle of the kneecap, in millimetres.`,
      );
    }
    return { millimetres: measuredMillimetres, errorMillimetres: 0 };
  }
  const { statureMillimetres, ageYears } = knee;
  if (ageYears === undefined) {
    throw new RangeError(
      `Knee height is estimated from stature for adults only: give the age in years, or measure the knee.`,
    );
  }
  if (!(ageYears >= ADULT_FROM_YEARS)) {
    throw new RangeError(
      `Knee height is estimated from stature for adults only: measure the knee of an athlete under ${ADULT_FROM_YEARS}.`,
    );
  }
  if (!within(statureMillimetres, STATURE_MILLIMETRES)) {
    throw new RangeError(
      `Knee height is estimated for statures of 140 to 200 cm, not for ${statureMillimetres / 10} cm: measure the knee.`,
    );
  }
  const millimetres =
    valueOf(FIGURES.kneeInterceptMillimetres) +
    valueOf(FIGURES.kneePerStature) * statureMillimetres;
  return { millimetres, errorMillimetres: valueOf(FIGURES.kneeErrorMillimetres) };
}
