import { detectableChange, type DetectableChange } from './detectableChange';
import { motionOf, type Measured } from './motion';

/** How an angle changed since the last visit. */
export type Change =
  | {
      /** `better` and `worse` only where the change exceeds the error of tool and motion. */
      change: 'better' | 'worse' | 'within-error';
      /** Now less before; more is more range. */
      differenceDegrees: number;
      error: DetectableChange;
    }
  | {
      change: 'not-comparable';
      why: 'other-check' | 'other-side' | 'other-tool' | 'no-angle' | 'nothing-published';
    };

/**
 * The change of one angle between two visits. Never across checks, sides or tools: tools differ
 * by 2 to 20 degrees (Kolber and Hanney 2012). A change of exactly the error is within it; by eye
 * (`error.mayBeCalled` false) it may be noted, not called.
 */
export function changeSince(before: Measured, now: Measured): Change {
  if (before.check !== now.check) return { change: 'not-comparable', why: 'other-check' };
  if (before.side !== now.side) return { change: 'not-comparable', why: 'other-side' };
  if (before.angleDegrees === null || now.angleDegrees === null) {
    return { change: 'not-comparable', why: 'no-angle' };
  }
  if (before.tool !== now.tool) return { change: 'not-comparable', why: 'other-tool' };
  const motion = motionOf(now.check);
  const error = now.tool === null || motion === null ? null : detectableChange(now.tool, motion);
  if (error === null) return { change: 'not-comparable', why: 'nothing-published' };
  const differenceDegrees = now.angleDegrees - before.angleDegrees;
  const exceeds = Math.abs(differenceDegrees) > error.degrees;
  const way = differenceDegrees > 0 ? 'better' : 'worse';
  return { change: exceeds ? way : 'within-error', differenceDegrees, error };
}
