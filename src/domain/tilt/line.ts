import { GRAVITY } from './following';
import { between, degreesBetween, lengthOf, type Vector } from './vector';

/**
 * What the sensor told while the limb lay along a wall or post, upright: mean of two readings, the
 * limb turned round in between. A wall that leans does so by as much to the other side the second
 * time and falls out of the mean, and so does the taper of the limb where its front lay against it
 * first and its back then. What is left holds how the phone is strapped, and what the sensor is
 * off by: both are the same whenever the limb is upright again, so there they fall out too.
 */
export type Line = Vector;

/** Why two readings make no line, worst first. */
export type LineProblem = 'off-scale' | 'across' | 'slipped';

/** A sensor that tells this much more or less than gravity at rest is not believed. */
const OFF_SCALE = 0.6;
/** The phone's long edge lies along the limb, at most so far from it. */
const ACROSS_DEGREES = 30;
/** A wall, a limb and a strap do not lean more than this together. */
const SLIPPED_DEGREES = 20;

/** The line of two readings at rest, or what is wrong with them. */
export function lineOf(first: Vector, second: Vector): { line: Line } | { problem: LineProblem } {
  const both = [first, second];
  if (both.some((one) => Math.abs(lengthOf(one) - GRAVITY) > OFF_SCALE))
    return { problem: 'off-scale' };
  if (!both.every(isAlong)) return { problem: 'across' };
  if (degreesBetween(first, second) > SLIPPED_DEGREES) return { problem: 'slipped' };
  return { line: between(first, second, 0.5) };
}

/** The long edge is upright, whichever end is up: browsers do not agree on the sign. */
export function isAlong(gravity: Vector): boolean {
  const degrees = degreesBetween(gravity, { x: 0, y: 1, z: 0 });
  return Math.min(degrees, 180 - degrees) <= ACROSS_DEGREES;
}

/** An angle from the line, degrees, and how far it may be off. */
export interface TiltRead {
  degrees: number;
  uncertainDegrees: number;
}

/** Noise that is left after smoothing, and the hand that held the limb to the wall (practice). */
const AT_BEST_DEGREES = 1.5;
/** What a sensor may be off by and not show it, m/s² (from memory, of data sheets). */
const HIDDEN_OFFSET = 0.15;

/**
 * The limb's angle from upright, 0 to 180 degrees: 0 as it lay on the wall. It is the angle of two
 * directions of gravity as the phone sees them, so turning the limb about its own line changes
 * nothing. What the sensor is off by counts nothing at 0 and doubles at 180 (the offset points the
 * same way for the phone, which stands the other way up); how much that may be is at least what
 * the two lengths of gravity differ by.
 */
export function tiltFrom(line: Line, gravity: Vector): TiltRead {
  const degrees = degreesBetween(line, gravity);
  const offset = Math.max(HIDDEN_OFFSET, Math.abs(lengthOf(gravity) - lengthOf(line)));
  const ofOffset = (offset / GRAVITY) * 2 * Math.sin((degrees * Math.PI) / 360) * (180 / Math.PI);
  return { degrees, uncertainDegrees: Math.hypot(AT_BEST_DEGREES, ofOffset) };
}
