import type { Entry } from '../domain/log';
import { AREAS } from '../domain/areas';
import { ELSEWHERE, leftBy, type Left } from '../domain/people/left';
import { INVENTED_SESSION, type SessionHead, type SessionOutcomes } from '../ports';

/** The session an entry belongs to: its id without device and number. */
export const sessionOf = (id: string): string => id.split(':').slice(0, -2).join(':');

/** The order of sessions that are listed. */
export const newestFirst = (a: SessionHead, b: SessionHead): number =>
  Date.parse(b.startedAt) - Date.parse(a.startedAt);

/** Heads of `known` and of all sessions that were started in these entries, newest first. */
export const headsOf = (entries: Entry[], known: SessionHead[] = []): SessionHead[] => {
  const heads = new Map(known.map((head) => [head.session, { ...head }]));
  for (const entry of entries) {
    const session = sessionOf(entry.id);
    if (entry.type === 'started') {
      const { routine, startedAt, person = null, way } = entry;
      heads.set(session, {
        session,
        routine,
        startedAt,
        ended: heads.get(session)?.ended ?? null,
        person,
        ...(way === 'alone' && { isReported: true }),
      });
    }
    const head = heads.get(session);
    if (entry.type === 'ended' && head !== undefined) head.ended = entry.reason;
  }
  return [...heads.values()].sort(newestFirst);
};

/** Whether a session, by its name, is of the invented club; its people are named in the same way. */
export const isInvented = (name: string): boolean => name.startsWith(INVENTED_SESSION);

/** The heads of these entries' sessions, newest first, each with what it left. */
export const outcomesOf = (entries: Entry[]): SessionOutcomes[] => {
  const own = new Map<string, Entry[]>();
  for (const entry of entries) {
    const session = sessionOf(entry.id);
    const known = own.get(session);
    if (known === undefined) own.set(session, [entry]);
    else known.push(entry);
  }
  return headsOf(entries).map((head) => ({ head, ...leftBy(own.get(head.session) ?? []) }));
};

/**
 * What a session left whose entries cannot all be read: pain, a warning sign or a worse outcome may
 * be among those that cannot, so nothing in it stands as ready, and each area waits.
 */
export const unknownLeft = ({ areas, newPainAt, isWarned }: Left): Left => ({
  areas: AREAS.map((area) => ({
    area,
    outcome: 'unfinished',
    rung: areas.find((left) => left.area === area)?.rung ?? null,
  })),
  newPainAt: [...newPainAt, ELSEWHERE],
  isWarned,
});
