import type { Entry } from '../domain/log';
import type { SessionHead } from '../ports';

/** The session an entry belongs to: its id without device and number. */
export const sessionOf = (id: string): string => id.split(':').slice(0, -2).join(':');

/** Heads of `known` and of all sessions that were started in these entries, newest first. */
export const headsOf = (entries: Entry[], known: SessionHead[] = []): SessionHead[] => {
  const heads = new Map(known.map((head) => [head.session, { ...head }]));
  for (const entry of entries) {
    const session = sessionOf(entry.id);
    if (entry.type === 'started') {
      const { routine, startedAt, person = null } = entry;
      heads.set(session, {
        session,
        routine,
        startedAt,
        ended: heads.get(session)?.ended ?? null,
        person,
      });
    }
    const head = heads.get(session);
    if (entry.type === 'ended' && head !== undefined) head.ended = entry.reason;
  }
  return [...heads.values()].sort((a, b) => Date.parse(b.startedAt) - Date.parse(a.startedAt));
};
