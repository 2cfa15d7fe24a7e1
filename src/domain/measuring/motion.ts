import type { Side } from '../areas';
import type { AngleTool } from '../findings';
import type { CheckId } from '../script';

/** Whether the athlete moves the arm or is moved: published figures are for one of them. */
export type Motion = 'active' | 'passive';

const MOTIONS: Record<CheckId, Motion> = {
  'overhead-passive': 'passive',
  'overhead-active-lying': 'active',
  'overhead-active-standing': 'active',
};

/** The motion that a check measures; null where nothing is published of its angle. */
export const motionOf = (check: CheckId | null): Motion | null =>
  check !== null && Object.hasOwn(MOTIONS, check) ? (MOTIONS[check] ?? null) : null;

/** An angle as a finding holds it; a finding of the log is one. */
export interface Measured {
  check: CheckId | null;
  side: Side | 'both' | null;
  angleDegrees: number | null;
  tool: AngleTool | null;
}
