/** What one speaker leads a group through: timed blocks that wait for nobody. */
import { EXHALES_IN_A_ROW } from '../pacing/line';
import type { DrillId, EquipmentId, RoutineId } from '../script';

/**
 * Twenty to forty seconds of work, ten to twenty to change, eight to twelve minutes in all (common
 * practice, no source). What is shortened stays in them.
 */
export const WORK_SECONDS = { least: 20, most: 40 } as const;
export const CHANGE_SECONDS = { least: 10, most: 20 } as const;
/** A change of a whole warm-up is not drawn out beyond this: it ends before its time instead. */
export const MOST_WAIT_SECONDS = 60;
/** Fewer long exhales than this settle nobody (common practice, no source). */
export const LEAST_BREATHS = 3;

export const BREATHS = { least: LEAST_BREATHS, most: EXHALES_IN_A_ROW } as const;
export const ROUNDS = { least: 1, most: 4 } as const;
/** An hour at the most: nobody warms up longer, and it can still be planned at once. */
export const MOST_TURNS = 60;

/** A drill done for a time. */
export interface WorkBlock {
  do: 'work';
  /** Gives its name, sides, equipment and caution. */
  drill: DrillId;
  /** What the leader shows before it is done for the first time. */
  demo: string;
  workSeconds: number;
  /** To get ready before it; longer where what is said takes longer. */
  changeSeconds: number;
}

/** Long exhales counted aloud, everybody at once. */
export interface BreatheBlock {
  do: 'breathe';
  /** As spoken inside a sentence: "long breaths out". */
  name: string;
  demo: string;
  breaths: number;
  exhaleSeconds: number;
  changeSeconds: number;
}

export type WarmUpBlock = WorkBlock | BreatheBlock;

/** Everybody does the same, or each station does its own and the group moves on by one. */
export type WarmUpPart =
  | { arrangement: 'together'; rounds: number; blocks: WarmUpBlock[] }
  | {
      arrangement: 'stations';
      rounds: number;
      stations: { drill: DrillId; demo: string }[];
      workSeconds: number;
      changeSeconds: number;
    };

export interface WarmUp {
  id: RoutineId;
  /** As spoken inside a sentence: "the warm-up before the bar". */
  name: string;
  parts: WarmUpPart[];
}

/** What a group of so many needs: how many of each thing, at which station or everybody. */
export interface Needed {
  equipment: EquipmentId;
  count: number;
  /** Number of the station, from 1; null where everybody needs one at once. */
  station: number | null;
}
