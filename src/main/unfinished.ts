import { INVENTED_SESSION, type Records } from '../ports';
import type { SeatStore } from '../screens/seat';

/** Sessions of the invented rehearsal are told apart by their name, and never offered again. */
export const REHEARSAL = 'rehearsal-';

/** The session that was cut off last, where there is one, is offered at the seat. */
export function createUnfinished({
  records,
  store,
  isTaken,
}: {
  records: Records;
  store: SeatStore;
  /** Whether a squad day takes that session up itself. */
  isTaken: (session: string) => boolean;
}) {
  /** The one that was left alone. */
  let discarded: string | null = null;
  const isOffered = (session: string) =>
    ![REHEARSAL, INVENTED_SESSION].some((name) => session.startsWith(name)) &&
    session !== discarded &&
    !isTaken(session);

  async function look() {
    const heads = await records.sessions().catch(() => []);
    const unfinished = heads.find(({ session, ended }) => ended === null && isOffered(session));
    store.patch({ unfinished: unfinished ?? null });
  }
  return {
    look,
    discard() {
      discarded = store.state().unfinished?.session ?? null;
      void look();
    },
  };
}
