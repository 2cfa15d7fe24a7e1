import { fromCallback } from 'xstate';
import type { Entry } from '../domain/log';
import type { Clock, RecordProblem, Records } from '../ports';

export type StoredEvent = { type: 'STORED'; problem: RecordProblem | null };

/** Above the 3 s after which the records adapter itself calls a write failed: the last resort. */
const STORE_WATCHDOG_MILLISECONDS = 3500;

/**
 * Waits until every entry is durable, then sends STORED: with the first problem, where there was
 * one. The records adapter keeps what failed and tries again, so nothing is lost by going on.
 */
export const storing = fromCallback<
  { type: 'NONE' },
  { records: Records; clock: Clock; entries: Entry[] }
>(({ input: { records, clock, entries }, sendBack }) => {
  let waitingFor = entries.length;
  let problem: RecordProblem | null = null;
  let over = false;
  const finish = () => {
    if (over) return;
    over = true;
    clock.clearTimeout(watchdog);
    sendBack({ type: 'STORED', problem });
  };
  const watchdog = clock.setTimeout(() => {
    problem ??= { reason: 'unknown', say: '' };
    finish();
  }, STORE_WATCHDOG_MILLISECONDS);
  for (const entry of entries) {
    records.append(entry, (trouble) => {
      problem ??= trouble;
      waitingFor -= 1;
      if (waitingFor === 0) finish();
    });
  }
  if (entries.length === 0) finish();
  return () => {
    over = true;
    clock.clearTimeout(watchdog);
  };
});
