import type { CueBook } from '../../domain/script';
import type { Records, SessionHead } from '../../ports';
import type { VisitHands } from '../../screens/finished/state';
import type { SeatStore } from '../../screens/seat';
import { saidBy } from './saidBy';

/** What is read of a session needs the rules, which come when asked for. */
const reading = () => import('./reading');

/** The place at the seat of a session that is read afterwards. */
export interface VisitPlace extends VisitHands {
  /** Reads the log of a session that ended just now, for what is shown after it. */
  look(session: string): Promise<void>;
}

export function createVisitPlace({
  book,
  records,
  store,
}: {
  book: CueBook;
  records: Records;
  store: SeatStore;
}): VisitPlace {
  async function look(session: string) {
    store.patch({ visit: { state: 'loading' } });
    try {
      const [{ visitOf }, log, heads] = await Promise.all([
        reading(),
        records.read(session),
        records.sessions(),
      ]);
      const head = heads.find((one) => one.session === session);
      if (head === undefined) throw new Error(`No session ${session}.`);
      const visit = visitOf(book, head, log, await visitBefore(heads, head));
      store.patch({ visit: { state: 'here', ...visit } });
    } catch (error) {
      const trouble = saidBy(
        error,
        'This visit cannot be read here. It may be in the other language: change it at the start gate.',
      );
      store.patch({ visit: { state: 'trouble', trouble } });
    }
  }

  /** The one before of the same person that has an area of it; null where there is none. */
  async function visitBefore(heads: SessionHead[], head: SessionHead) {
    const isBefore = ({ startedAt }: SessionHead) =>
      Date.parse(startedAt) < Date.parse(head.startedAt);
    const areas = areasOf(head);
    const before = heads.find(
      (one) =>
        head.person !== null &&
        one.person === head.person &&
        isBefore(one) &&
        areasOf(one).some((area) => areas.includes(area)),
    );
    if (before === undefined) return null;
    return { head: before, log: await records.read(before.session) };
  }

  const areasOf = ({ routine }: SessionHead) =>
    book.routines[routine]?.items.flatMap((item) => ('area' in item ? [item.area] : [])) ?? [];

  return {
    look,
    open(session) {
      store.patch({ where: 'visit' });
      void look(session);
    },
  };
}
