import type { Athlete } from '../../domain/athlete';
import type { AngleTool } from '../../domain/findings';
import { athleteOf } from '../../domain/people/age';
import { RUN_WITH_INVENTED } from '../../domain/people/inventedClub';
import { fileNameOf, takenOut } from '../../domain/people/takenOut';
import type { Person } from '../../domain/people/person';
import { momentAt } from '../../session/startedAt';
import type { CueBook } from '../../domain/script';
import { download } from '../download';
import { randomName } from '../names';
import { saidBy } from './saidBy';
import type { Clock, People, Records } from '../../ports';
import type { PeopleHands, PeopleState } from '../../screens/people/state';
import { chosenOf } from '../../screens/people/state';
import type { SeatState, SeatStore } from '../../screens/seat';
import type { SharedManner } from '../../voice/manner';

/** What is read of people needs the rules, the club its sessions, a list its reader: all come late. */
const reading = () => import('./reading');
const invented = () => import('../../records/inventedClub');
const sheets = () => import('./sheets');

/** The people's place at the seat: what this device keeps of them. */
export interface PeoplePlace extends PeopleHands {
  /** Reads people and sessions anew, and shows them. */
  look(): Promise<void>;
  /** Whose session begins; nothing where nobody is named. */
  forSession(): { person?: string; athlete?: Athlete; angleTool?: AngleTool };
  /** A new name for a session of this one, by id; with somebody invented it leaves with the club. */
  nameSession(person: string | null): string;
  /** Whose session it is that runs or has run. */
  choose(id: string | null): void;
  /** Where one is after a session or the voice check is left. */
  placeAfter(): SeatState['where'];
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
const NOT_THERE = 'A part of the page did not arrive. Connect to the network and try it again.';
const NOT_OPENED = 'The file could not be opened. Close it in other programs, and choose it again.';
const NOT_TAKEN_OUT = 'The file could not be made. Nothing has changed; try it again.';
const NOT_KEPT = 'That could not be kept on this device. Nothing has changed; try it again.';

export function createPeoplePlace({
  assetsBase,
  book,
  people,
  records,
  clock,
  manner,
  store,
  handOver = download,
}: {
  assetsBase: string;
  book: CueBook;
  people: People;
  records: Records;
  clock: Clock;
  /** How they are spoken to goes where they go, whichever way that was. */
  manner: Pick<SharedManner, 'keepOnly'>;
  store: SeatStore;
  /** Hands a text over as a file of that name. */
  handOver?: (name: string, text: string) => void;
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
      const [all, ids, sessions, { known }] = await Promise.all([
        people.all(),
        people.ids(),
        records.outcomes(),
        reading(),
      ]);
      const on = today();
      manner.keepOnly(ids);
      patch({ state: 'here', trouble: null, today: on, all: known(book, all, sessions, on) });
    } catch (error) {
      patch({ state: 'here', trouble: saidBy(error, NOT_READ), today: today() });
    }
  }

  /** Null once it is done and shown; else what to do. */
  async function changing(change: () => Promise<unknown>): Promise<string | null> {
    try {
      await change();
    } catch (error) {
      return saidBy(error, NOT_KEPT);
    }
    await look();
    return null;
  }

  /** No form knows what was handed over to them. */
  const withHandovers = (person: Person): Person => {
    const known = store.state().people.all.find((one) => one.person.id === person.id)?.person;
    return known?.handovers === undefined ? person : { handovers: known.handovers, ...person };
  };

  return {
    look,
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
    nameSession(id) {
      const one = store.state().people.all.find(({ person }) => person.id === id);
      return `${one?.person.isInvented === true ? RUN_WITH_INVENTED : ''}${randomName()}`;
    },
    choose: (chosen) => patch({ chosen }),
    placeAfter() {
      if (store.state().where === 'voiceCheck') return 'gate';
      return chosenOf(store.state().people) === null ? 'people' : 'athlete';
    },
    show: () => go('people', null),
    showOne: (id) => go('athlete', id),
    showImport: () => go('import', null),
    narrow: (only) => patch({ only }),
    toGate: (id) => go('gate', id),
    save: (those) => changing(() => people.save(those.map(withHandovers))),
    remove: async (id) => {
      const trouble = await changing(() => people.remove([id]));
      if (trouble === null) go('people', null);
      return trouble;
    },
    async readSheet(file) {
      const reader = await sheets().catch(() => null);
      if (reader === null) return { say: NOT_THERE };
      try {
        return { sheet: await reader.sheetIn(file) };
      } catch (error) {
        return { say: saidBy(error, NOT_OPENED) };
      }
    },
    async takeOut(kind) {
      const writer = await sheets().catch(() => null);
      if (writer === null) return { say: NOT_THERE };
      const { all } = store.state().people;
      const file = fileNameOf(kind, takenOut(all), today());
      try {
        handOver(file, writer.listOf(kind, all));
        return { file };
      } catch (error) {
        return { say: saidBy(error, NOT_TAKEN_OUT) };
      }
    },
    async showInvented() {
      const loader = await invented().catch(() => null);
      if (loader === null) return NO_CLUB;
      const { loadInventedClub, INVENTED_CLUB, InventedClubError } = loader;
      try {
        const club = await (await fetch(`${assetsBase}${INVENTED_CLUB}`)).json();
        await loadInventedClub(people, records, club, today());
      } catch (error) {
        return error instanceof InventedClubError ? error.message : saidBy(error, NO_CLUB);
      }
      await look();
      return null;
    },
    removeInvented: () =>
      changing(async () => (await invented()).removeInventedClub(people, records)),
  };
}
