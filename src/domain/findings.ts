import type { Side } from './areas';
import type { FaultId } from './faults';

/**
 * What a coach says of one check or one set. `lost`: range reached by giving up the
 * position; `short`: position kept, range not reached. Never a number of points.
 */
export type Result = 'held' | 'lost' | 'short' | 'pain' | 'not-tested';
export const RESULTS: readonly Result[] = ['held', 'lost', 'short', 'pain', 'not-tested'];

/** How an angle was read; angles of different tools are never compared. */
export type AngleTool = 'eye' | 'inclinometer' | 'goniometer' | 'tilt-sensor';
export const ANGLE_TOOLS: readonly AngleTool[] = [
  'eye',
  'inclinometer',
  'goniometer',
  'tilt-sensor',
];

/** What a drill was done with, relative to its script. */
export type Load = 'as-written' | 'lighter' | 'heavier' | 'raised' | 'shallower' | 'unloaded';

/** Heard at every prompt and over every cue; ends the session and is recorded. */
export type RedFlag =
  'chest-pain' | 'faint-dizzy' | 'breathless' | 'numb-tingling' | 'gave-way' | 'back-numb';
export const RED_FLAGS: readonly RedFlag[] = [
  'chest-pain',
  'faint-dizzy',
  'breathless',
  'numb-tingling',
  'gave-way',
  'back-numb',
];

/** Known pain may go on at 1 to 2; new or sharp pain ends the drill. */
export type PainKind = 'new' | 'sharp' | 'known';

/** One finding: what was said of one check or set. `side` is null where there are none. */
export interface Finding {
  side: Side | 'both' | null;
  result: Result;
  faults: FaultId[];
  /** Spoken or measured angle in degrees, 20 to 200, or null. */
  angleDegrees: number | null;
  tool: AngleTool | null;
  /** 0 to 10, or null where no number was said. */
  pain: number | null;
}
