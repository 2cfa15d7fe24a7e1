import type { Side } from '../areas';
import { FIGURES, valueOf } from './figures';
import type { Measured } from './motion';

export interface SideDifference {
  /** `noted` from 5 degrees, `called` a difference from 10; by eye never more than noted. */
  verdict: 'none' | 'noted' | 'called';
  /** 0 or more. */
  differenceDegrees: number;
  /** The side with less range, which counts; null where both are equal. */
  lower: Side | null;
}

/**
 * How far the two sides of one check differ, in degrees; no symmetry index, which hides them (17
 * degrees less than 170 still scores 90 %). Null where they cannot be compared: another check or
 * tool, or an angle that was not given.
 */
export function sideDifference(left: Measured, right: Measured): SideDifference | null {
  if (left.angleDegrees === null || right.angleDegrees === null) return null;
  if (left.check !== right.check || left.tool !== right.tool || left.tool === null) return null;
  const differenceDegrees = Math.abs(left.angleDegrees - right.angleDegrees);
  const isNoted = differenceDegrees >= valueOf(FIGURES.sideNotedDegrees);
  const isCalled = differenceDegrees >= valueOf(FIGURES.sideCalledDegrees) && left.tool !== 'eye';
  const lower = left.angleDegrees < right.angleDegrees ? 'left' : 'right';
  return {
    verdict: isCalled ? 'called' : isNoted ? 'noted' : 'none',
    differenceDegrees,
    lower: differenceDegrees === 0 ? null : lower,
  };
}
