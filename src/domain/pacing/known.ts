import type { Step } from '../deciding/step';
import type { Entry, EntryOf } from '../log';
import type { PromptId } from '../script';

/**
 * What whoever is trained knows of a set-up: `new`, nothing; `back`, all of it, but other work or
 * a pause came between; `on`, this very thing was done just now.
 */
export type Known = 'new' | 'back' | 'on';

/**
 * The log as it stood when the step at hand was decided. What came since (a pause, fewer words)
 * changes nothing in its lines, so that it can be gone on with where it was left. A stop that was
 * declined decided nothing.
 */
export function asDecided(log: readonly Entry[]): readonly Entry[] {
  const at = log.findLastIndex((entry) => entry.type === 'decision' && !/^7\./.test(entry.rule));
  return at < 0 ? log : log.slice(0, at);
}

/**
 * How known the set-up of a check or drill is in this session. It was heard whole once its question
 * was asked; what was cut short before that is not known.
 */
export function knownOf(log: readonly Entry[], prompt: PromptId): Known {
  const last = log.findLastIndex((entry) => entry.type === 'asked' && entry.prompt === prompt);
  if (last < 0) return 'new';
  const isElsewhere = log
    .slice(last + 1)
    .some((entry) => entry.type === 'resumed' || (entry.type === 'asked' && isWork(entry.prompt)));
  return isElsewhere ? 'back' : 'on';
}

const isWork = (prompt: PromptId): boolean => /^(check|set)\//.test(prompt);

/** Whether a drill was done last with this load, so that nothing is to be fetched or changed. */
export const isLoadSet = (
  log: readonly Entry[],
  { drill, load }: Pick<Extract<Step, { do: 'set' }>, 'drill' | 'load'>,
): boolean =>
  log.findLast(
    (entry): entry is EntryOf<'finding'> => entry.type === 'finding' && entry.drill === drill,
  )?.load === load;
