import { blockHeight, type BlockHeight } from './measuring/blockHeight';

export type Sex = 'female' | 'male';
export const SEXES: readonly Sex[] = ['female', 'male'];

/** What is known of the athlete and the bell at hand, all of it optional; lengths in millimetres. */
export interface Athlete {
  statureMillimetres?: number;
  /** From the floor to the middle of the kneecap, barefoot. */
  kneeMillimetres?: number;
  ageYears?: number;
  sex?: Sex;
  /** Thickness of the sole in the shoe worn. */
  soleMillimetres?: number;
  /** From the floor to the top of the bell's handle. */
  bellHandleMillimetres?: number;
  /** Thickness of each block at hand. */
  blocksMillimetres?: readonly number[];
}

/**
 * The blocks for this athlete's bell hinge; null where neither knee nor stature is known. A
 * measured knee goes before one that is estimated. Throws RangeError as `blockHeight` does.
 */
export function blocksFor(athlete: Athlete): BlockHeight | null {
  const { statureMillimetres, kneeMillimetres, ageYears } = athlete;
  const { soleMillimetres, bellHandleMillimetres: handleMillimetres, blocksMillimetres } = athlete;
  const blocks = { soleMillimetres, handleMillimetres, blocksMillimetres };
  if (kneeMillimetres !== undefined) {
    return blockHeight({ knee: { measuredMillimetres: kneeMillimetres }, ...blocks });
  }
  return statureMillimetres === undefined
    ? null
    : blockHeight({ knee: { statureMillimetres, ageYears }, ...blocks });
}
