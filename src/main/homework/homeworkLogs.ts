import { HOMEWORK } from '../../domain/handover/progressDay';
import { startOf, type ReportedSession } from '../../domain/handover/returning';
import type { Records } from '../../ports';

/** The sessions of homework in the record of this device, by the id of what was handed over; oldest first. */
export async function homeworkLogs(
  records: Pick<Records, 'sessions' | 'read'>,
): Promise<Map<string, ReportedSession[]>> {
  const heads = (await records.sessions()).filter(({ routine }) => routine === HOMEWORK);
  const logs = new Map<string, ReportedSession[]>();
  for (const { session } of heads.reverse()) {
    const entries = await records.read(session).catch(() => []);
    const id = startOf(entries)?.homework?.handover.id;
    if (id !== undefined) logs.set(id, [...(logs.get(id) ?? []), { session, entries }]);
  }
  return logs;
}

/** Of these, what ended, however it did; what is still open is not told of yet. */
export const ended = (logs: readonly ReportedSession[]): ReportedSession[] =>
  logs.filter(({ entries }) => entries.some(({ type }) => type === 'ended'));
