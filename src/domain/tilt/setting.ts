import { followed, stillFor, type Following, type Sample } from './following';
import { isAlong, lineOf, type Line, type LineProblem } from './line';
import type { Vector } from './vector';

/** Held still and upright for so long, a step is taken by itself: the hands may be full. */
export const HELD_MILLISECONDS = 3000;

/**
 * Where the two steps stand. `first`: along the wall; `turning`: on the way round, until the phone
 * has moved; `second`: along the wall again; then the line is set, or it is said why not.
 */
export type Setting = { following: Following | null } & (
  | { at: 'first' }
  | { at: 'turning' | 'second'; first: Vector }
  | { at: 'set'; line: Line }
  | { at: 'failed'; problem: LineProblem }
);

export const SETTING: Setting = { at: 'first', following: null };

/** After one more reading. Gravity does not see a turn about itself, so moving at all is the turn. */
export function settingAfter(setting: Setting, sample: Sample): Setting {
  const following = followed(setting.following, sample);
  const next = { ...setting, following };
  if (following === null) return next;
  if (next.at === 'turning') {
    return following.stillFromMilliseconds === null ? { ...next, at: 'second' } : next;
  }
  const isHeld = stillFor(following) >= HELD_MILLISECONDS && isAlong(following.smoothed);
  return isHeld ? taken(next) : next;
}

/** The step is taken now, because somebody says or touches that the limb lies as it should. */
export function taken(setting: Setting): Setting {
  const { following } = setting;
  if (following === null || setting.at === 'set' || setting.at === 'failed') return setting;
  if (setting.at === 'first') return { at: 'turning', following, first: following.smoothed };
  const found = lineOf(setting.first, following.smoothed);
  return 'line' in found
    ? { at: 'set', following, line: found.line }
    : { at: 'failed', following, problem: found.problem };
}
