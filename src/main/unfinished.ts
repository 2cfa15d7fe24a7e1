import { INVENTED_SESSION, type Records } from '../ports';
import { RUN_WITH_INVENTED } from '../domain/people/inventedClub';
import type { CueBook } from '../domain/script';
import type { SeatStore, UnfinishedSession } from '../screens/seat';

/** Sessions of the invented rehearsal are told apart by their name, and never offered again. */
export const REHEARSAL = 'rehearsal-';

/** What was open in a session needs the rules, which come behind the first screen. */
const reading = () => import('./people/reading');

/** The sessions that were cut off are offered at the seat, newest first. */
export function createUnfinished({
  book,
  records,
  store,
  isTaken,
}: {
  book: CueBook;
  records: Pick<Records, 'sessions' | 'read'>;
  store: SeatStore;
  /** Whether a squad day takes that session up itself. */
  isTaken: (session: string) => boolean;
}) {
  /** Those that were left alone, until the page is loaded anew. */
  const discarded = new Set<string>();
  /** How often was looked; what comes late of an earlier look is not shown. */
  let looks = 0;
  const isOffered = (session: string) =>
    !session.startsWith(REHEARSAL) &&
    (!session.startsWith(INVENTED_SESSION) || session.startsWith(RUN_WITH_INVENTED)) &&
    !discarded.has(session) &&
    !isTaken(session);

  const change = (session: string, more: Partial<UnfinishedSession>) =>
    store.patch({
      unfinished: store
        .state()
        .unfinished.map((one) => (one.head.session === session ? { ...one, ...more } : one)),
    });
  const forget = (session: string) =>
    store.patch({
      unfinished: store.state().unfinished.filter(({ head }) => head.session !== session),
    });

  async function look() {
    looks += 1;
    const now = looks;
    const all = await records.sessions().catch(() => []);
    if (now !== looks) return;
    const before = new Map(store.state().unfinished.map((one) => [one.head.session, one]));
    const heads = all.filter(({ session, ended }) => ended === null && isOffered(session));
    store.patch({
      unfinished: heads.map((head) => ({
        ...{ head, open: before.get(head.session)?.open ?? null, trouble: null },
      })),
    });
    for (const { session } of heads) {
      // What cannot be read here, as of another language, is offered without it.
      const open = await openOf(session).catch(() => null);
      if (now !== looks) return;
      change(session, { open });
    }
  }

  const openOf = async (session: string) => {
    const [{ openIn }, log] = await Promise.all([reading(), records.read(session)]);
    return openIn(book, log);
  };

  return {
    look,
    discard(session: string) {
      discarded.add(session);
      forget(session);
    },
    /** It stays offered, with why it did not go on. */
    tell: (session: string, trouble: string) => change(session, { trouble }),
  };
}
