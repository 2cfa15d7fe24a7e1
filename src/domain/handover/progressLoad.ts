/** Never more load, alone, than was handed over (RULES.md, 15.4). */
import type { Load } from '../findings';
import type { DrillScript } from '../script';
import type { HandoverTask } from './handover';

/** How much is asked for, least first; loads beside each other ask for less in their own way. */
export const LOAD_RANK: Readonly<Record<Load, number>> = {
  unloaded: 0,
  lighter: 1,
  raised: 1,
  shallower: 1,
  'as-written': 2,
  heavier: 3,
};

/** Whether it is less than the script says. */
export const isEased = (load: Load): boolean => LOAD_RANK[load] < LOAD_RANK['as-written'];

/**
 * The most that a drill may be done with under what was handed over for its area: the very load
 * for that drill; for another as written, or made easier where that was. Null where it would be
 * more than was handed over, such as a drill with load under one without.
 */
export function mostLoad(
  drills: Record<string, DrillScript>,
  task: HandoverTask,
  { id, loaded, easier }: DrillScript,
  allowedAlone: readonly string[],
): Load | null {
  if (id === task.drill) return task.load;
  const isMore = loaded && drills[task.drill]?.loaded !== true;
  if (isMore && !allowedAlone.includes(id)) return null;
  if (!isEased(task.load)) return 'as-written';
  return easier?.load ?? (loaded ? null : 'as-written');
}
