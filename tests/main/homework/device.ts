import { createVirtualClock } from '../../../src/cli/virtualClock';
import { DEFAULT_SETTINGS, type Entry, type Fact } from '../../../src/domain/log';
import type { Address } from '../../../src/main/homework/address';
import { createHomeworkHands, HOMEWORK } from '../../../src/main/homework/homeworkHands';
import { createPeoplePlace } from '../../../src/main/people/peoplePlace';
import { sharedManner } from '../../../src/voice/manner';
import { createVisitPlace } from '../../../src/main/people/visitPlace';
import type { ToRun } from '../../../src/main/running';
import { memoryNotes } from '../../../src/records/memoryNotes';
import { memoryPeople } from '../../../src/records/memoryPeople';
import { memoryRecords } from '../../../src/records/memoryRecords';
import { createSeatStore, type SeatState } from '../../../src/screens/seat';
import type { Told } from '../../../src/screens/view';
import { STATE } from '../../screens/fakeSeat';
import { ADDRESS, book, NOW } from './examples';

/** A storage of its own, as a device has. */
function memoryStorage(): Storage {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  } as Storage;
}

/** What was found in a session of homework, as somebody alone answers. */
export interface Answered {
  result: 'held' | 'lost' | 'pain';
  pain?: number;
}

/** A device with the page open: its seat's places, and what was saved and copied on it. */
export function device({ hash = '', where = 'people' as SeatState['where'], now = NOW } = {}) {
  const clock = createVirtualClock(now);
  const store = createSeatStore({ ...STATE, where, book, homework: HOMEWORK });
  const records = memoryRecords();
  const { notes, people } = memoryNotes(memoryPeople());
  const peoplePlace = createPeoplePlace({
    ...{ assetsBase: '', book, people, records, clock, store, handOver: () => undefined },
    manner: sharedManner(),
  });
  const visits = createVisitPlace({
    ...{ book, records, notes, clock, store, lookAtPeople: peoplePlace.look },
    keeping: { upToDamage: async () => ({ entries: [], damage: null }) },
    save: () => undefined,
  });
  const storage = memoryStorage();
  const copied: string[] = [];
  const saved: [name: string, text: string][] = [];
  let changed: () => void = () => undefined;
  const at = { hash };
  const address: Address = {
    page: ADDRESS,
    hash: () => at.hash,
    clear: () => void (at.hash = ''),
    onChange: (told) => void (changed = told),
  };
  let answers: Answered[] = [{ result: 'held' }];

  /** Stands in for the machines: the homework is answered at once, and the session is over. */
  async function start({ session, over, homework, settings = DEFAULT_SETTINGS, ...ran }: ToRun) {
    const prompt = `set/${homework?.tasks[0]?.drill}`;
    const drill = homework?.tasks[0]?.drill ?? '';
    const source = { by: 'hand', text: '', confidence: 1 } as const;
    const facts: Fact[] = [
      {
        ...{ type: 'started', routine: ran.routine, language: book.language, settings },
        ...{ way: ran.way ?? 'alone', startedAt: new Date(clock.now()).toISOString(), homework },
      },
      {
        type: 'decision',
        rule: '1',
        because: 'So.',
        area: null,
        from: null,
        to: null,
        by: 'rules',
      },
      ...answers.map(({ result, pain = null }): Fact => ({
        ...{ type: 'finding', prompt, check: null, drill, load: 'as-written', side: null },
        ...{ result, faults: [], angleDegrees: null, tool: null, pain: pain ?? null, source },
      })),
      { type: 'ended', reason: 'completed' },
    ];
    store.patch({ where: 'run' });
    await records.addAll(
      facts.map((fact, n): Entry => ({ ...fact, id: `${session}:phone:${n}`, atSeconds: n * 10 })),
    );
    const end: Told<'end'> | null = null;
    store.patch({ view: { ...store.state().view, end } });
    over?.('completed');
    return true;
  }

  const homework = createHomeworkHands({
    parts: { assetsBase: ADDRESS, book, clock, people, records },
    ...{ store, address, storage: () => storage, isStarting: () => false, begins: () => undefined },
    running: { start, end: () => undefined },
    changed: peoplePlace.look,
    outside: {
      copy: async (text) => void copied.push(text),
      ...{ share: undefined, canShare: undefined },
      save: (name, text) => void saved.push([name, text]),
    },
  });
  return {
    ...{ homework, people: peoplePlace, keptPeople: people, visits, records, store, storage },
    ...{ clock, copied, saved, address },
    stage: () => store.state().homework.stage,
    where: () => store.state().where,
    openLink(link: string) {
      at.hash = link.slice(link.indexOf('#'));
      changed();
    },
    willAnswer: (those: Answered[]) => void (answers = those),
  };
}
export type Device = ReturnType<typeof device>;
