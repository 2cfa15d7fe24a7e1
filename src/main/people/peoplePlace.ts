import type { Athlete } from '../../domain/athlete';
import type { AngleTool } from '../../domain/findings';
import { athleteOf } from '../../domain/people/age';
import { momentAt } from '../../session/startedAt';
import type { CueBook } from '../../domain/script';
import type { Clock, People, Records, SessionHead } from '../../ports';
import type { PeopleHands, PeopleState } from '../../screens/people/state';
import { chosenOf } from '../../screens/people/state';
import type { SeatState, SeatStore } from '../../screens/seat';

/** What is read of people needs the rules, and the club its sessions: both come when asked for. */
const reading = () => import('./reading');
const invented = () => import('../../records/inventedClub');

/** The people's place at the seat: what this device keeps of them, and their past sessions. */
export interface PeoplePlace extends PeopleHands {
  /** Reads people and sessions anew, and shows them. */
  look(): Promise<void>;
  /** Whose session begins; nothing where nobody is named. */
  forSession(): { person?: string; athlete?: Athlete; angleTool?: AngleTool };
  /** Whose session it is that runs or has run. */
  choose(id: string | null): void;
  /** Where one is after a session or the voice check is left. */
  placeAfter(): SeatState['where'];
  /** Reads the log of a session that ended just now, for what is shown after it. */
  lookAtVisit(session: string): Promise<void>;
}

export const NOBODY: PeopleState = {
  state: 'loading',
  trouble: null,
  all: [],
  chosen: null,
  today: '',
};

const NOT_READ = 'The people on this device could not be read. Load the page again.';
const NO_CLUB = 'The invented club did not arrive. Connect to the network and try it again.';
const NOT_KEPT = 'That could not be kept on this device. Nothing has changed; try it again.';

export function createPeoplePlace({
  assetsBase,
  book,
  people,
  records,
  clock,
  store,
}: {
  assetsBase: string;
  book: CueBook;
  people: People;
  records: Records;
  clock: Clock;
  store: SeatStore;
}): PeoplePlace {
  const patch = (change: Partial<PeopleState>) =>
    store.patch({ people: { ...store.state().people, ...change } });
  const go = (where: SeatState['where'], chosen: string | null) => {
    const { people: state } = store.state();
    store.patch({ where, visit: null, people: { ...state, chosen, today: today() } });
  };
  const today = () => {
    const now = clock.now();
    return momentAt(now, -new Date(now).getTimezoneOffset()).slice(0, 10);
  };

  async function look() {
    try {
      const [all, sessions, { known }] = await Promise.all([
        people.all(),
        records.outcomes(),
        reading(),
      ]);
      const on = today();
      patch({ state: 'here', trouble: null, today: on, all: known(book, all, sessions, on) });
    } catch (error) {
      patch({ state: 'here', trouble: saidBy(error, NOT_READ), today: today() });
    }
  }

  /** Null once it is done and shown; else what to do. */
  async function changing(
    change: () => Promise<unknown>,
    otherwise = NOT_KEPT,
  ): Promise<string | null> {
    try {
      await change();
    } catch (error) {
      return saidBy(error, otherwise);
    }
    await look();
    return null;
  }

  async function lookAtVisit(session: string) {
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
    lookAtVisit,
    forSession: () => {
      const one = chosenOf(store.state().people);
      if (one === null) return {};
      const { id, angleTool } = one.person;
      const athlete = athleteOf(one.person, today());
      return {
        person: id,
        ...(Object.keys(athlete).length > 0 && { athlete }),
        ...(angleTool !== null && { angleTool }),
      };
    },
    choose: (chosen) => patch({ chosen }),
    placeAfter() {
      if (store.state().where === 'voiceCheck') return 'gate';
      return chosenOf(store.state().people) === null ? 'people' : 'athlete';
    },
    show: () => go('people', null),
    showOne: (id) => go('athlete', id),
    toGate: (id) => go('gate', id),
    save: (those) => changing(() => people.save(those)),
    remove: async (id) => {
      const trouble = await changing(() => people.remove([id]));
      if (trouble === null) go('people', null);
      return trouble;
    },
    showInvented: () =>
      changing(async () => {
        const { loadInventedClub, INVENTED_CLUB } = await invented();
        const club = await (await fetch(`${assetsBase}${INVENTED_CLUB}`)).json();
        await loadInventedClub(people, records, club, today());
      }, NO_CLUB),
    removeInvented: () =>
      changing(async () => (await invented()).removeInventedClub(people, records)),
    openVisit(session) {
      store.patch({ where: 'visit' });
      void lookAtVisit(session);
    },
  };
}

/** What a problem of the record says itself, else `otherwise`. */
function saidBy(error: unknown, otherwise: string): string {
  const says = error instanceof Error && error.name === 'RecordError';
  return says ? error.message : otherwise;
}
