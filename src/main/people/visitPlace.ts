import type { Entry, Fact } from '../../domain/log';
import type { Moment } from '../../domain/reporting/moments';
import type { CueBook } from '../../domain/script';
import type { Clock, Note, Notes, Records, SessionHead } from '../../ports';
import type { Keeping } from '../../records/dexieKeeping';
import type { VisitHands } from '../../screens/finished/state';
import type { SeatStore } from '../../screens/seat';
import { momentAt } from '../../session/startedAt';
import { download } from '../download';
import { randomName } from '../names';
import { REHEARSAL } from '../unfinished';
import { notKept } from './notKept';
import { saidBy } from './saidBy';

/** What is read of a session needs the rules, which come when asked for. */
const reading = () => import('./reading');
const visitRecord = () => import('./visitRecord');
const noting = () => import('../../domain/reporting/note');
const readinessFile = () => import('./readinessFile');

/** The place at the seat of a session that is read afterwards. */
export interface VisitPlace extends VisitHands {
  /** Reads the log of a session that ended just now, for what is shown after it. */
  look(session: string): Promise<void>;
}

const RUNS_ELSEWHERE =
  'This session runs in another tab. End it there, or go on with it here, first; nothing was changed.';
const NOT_READ =
  'This visit cannot be read here. It may be in the other language: change it at the start gate.';
const INVENTED = 'An invented athlete: nobody was tested.';
const NOT_WRITTEN = 'The sheet could not be written. Load the page again, and save it once more.';

export function createVisitPlace({
  book,
  records,
  keeping,
  notes,
  clock,
  store,
  lookAtPeople,
  save = download,
}: {
  book: CueBook;
  records: Records;
  keeping: Pick<Keeping, 'upToDamage'>;
  notes: Notes;
  clock: Clock;
  store: SeatStore;
  /** The pages of the people tell what the record says now. */
  lookAtPeople: () => Promise<void>;
  save?: typeof download;
}): VisitPlace {
  /** The session that is shown or being read; what comes late of another is not shown. */
  let shown: string | null = null;

  async function look(session: string) {
    shown = session;
    store.patch({ visit: { state: 'loading' } });
    await read(session);
  }

  async function read(session: string) {
    try {
      const [{ visitOf }, { recordOf }, log, heads, noted] = await Promise.all([
        reading(),
        visitRecord(),
        records.read(session),
        records.sessions(),
        notesOf(session),
      ]);
      const head = heads.find((one) => one.session === session);
      if (head === undefined) throw new Error(`No session ${session}.`);
      const visit = visitOf(book, head, log, await visitBefore(heads, head));
      const isReal = !session.startsWith(REHEARSAL);
      if (shown !== session) return;
      store.patch({
        visit: {
          ...{ state: 'here', ...visit },
          ...(isReal && { record: recordOf(book, log, noted) }),
        },
      });
    } catch (error) {
      const trouble = saidBy(error, NOT_READ);
      const upTo = await upToDamage(session);
      if (shown !== session) return;
      store.patch({ visit: { state: 'trouble', trouble, ...(upTo !== null && { upTo }) } });
    }
  }

  /** What was heard and decided before the first damaged entry; null where that is nothing. */
  async function upToDamage(session: string): Promise<Moment[] | null> {
    try {
      const { entries, damage } = await keeping.upToDamage(session);
      if (damage === null || entries.length === 0) return null;
      return (await reading()).momentsOf(book, entries);
    } catch {
      return null;
    }
  }

  /** Null where they cannot be read: that hides no visit. */
  const notesOf = async (session: string): Promise<Note[] | null> => {
    try {
      return await notes.of(session);
    } catch {
      return null;
    }
  };

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

  const now = () => momentAt(clock.now(), -new Date(clock.now()).getTimezoneOffset());
  const headShown = (): SessionHead | null => {
    const { visit } = store.state();
    return visit?.state === 'here' ? visit.head : null;
  };

  /** Adds to the record of the visit that is shown, all of it or nothing, and reads it anew. */
  async function adding(
    make: (log: Entry[], to: Awaited<ReturnType<typeof visitRecord>>) => Fact[],
  ): Promise<string | null> {
    const session = headShown()?.session;
    if (session === undefined) return NOT_READ;
    if (store.state().elsewhere?.session === session) return RUNS_ELSEWHERE;
    try {
      const [to, log] = await Promise.all([visitRecord(), records.read(session)]);
      const facts = make(log, to);
      await records.addAll(to.entriesAfter(session, randomName(), log, facts, clock.now()));
    } catch (error) {
      return notKept(error);
    }
    const { unfinished } = store.state();
    store.patch({ unfinished: unfinished.filter(({ head }) => head.session !== session) });
    await Promise.all([read(session), lookAtPeople()]);
    return null;
  }

  /** Changes the notes of the visit that is shown, and shows them. */
  async function changingNotes(change: () => Promise<void>): Promise<string | null> {
    try {
      await change();
    } catch (error) {
      return notKept(error);
    }
    if (shown !== null) await read(shown);
    return null;
  }

  return {
    look,
    open(session) {
      store.patch({ where: 'visit' });
      void look(session);
    },
    correct: (correction) =>
      adding((log, { correctionFacts }) => correctionFacts(book, log, correction, now())),
    close: () => adding((log, { closingFacts }) => closingFacts(book, log)),
    async addNote(typed) {
      const head = headShown();
      if (head === null) return NOT_READ;
      const { noteFrom } = await noting();
      const read = noteFrom(typed);
      if ('problem' in read) return read.problem;
      const { session, person } = head;
      const note = { id: randomName(), session, person, text: read.text, writtenAt: now() };
      return changingNotes(() => notes.add(note));
    },
    removeNote: (id) => changingNotes(() => notes.remove(id)),
    async saveSheet(wanted) {
      const head = headShown();
      if (head === null) return NOT_READ;
      const known = store.state().people.all.find(({ person }) => person.id === head.person);
      try {
        const [{ readinessFile: fileOf }, log, noted] = await Promise.all([
          readinessFile(),
          records.read(head.session),
          wanted.hasNotes ? notes.of(head.session) : [],
        ]);
        const notesTold = noted.map(({ text }) => text);
        if (known?.person.isInvented === true) notesTold.unshift(INVENTED);
        save(...fileOf(book, log, { wanted, name: known?.person.name, notes: notesTold }));
        return null;
      } catch (error) {
        return saidBy(error, NOT_WRITTEN);
      }
    },
    async lastNote(person) {
      try {
        return await notes.last(person);
      } catch {
        return null;
      }
    },
  };
}
