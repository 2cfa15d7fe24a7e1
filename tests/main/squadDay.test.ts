import { describe, expect, it, vi } from 'vitest';
import { secondsOf } from '../../src/cli/durations';
import { bookOf } from '../../src/cli/verb';
import { createVirtualClock } from '../../src/cli/virtualClock';
import { NO_REPLY, type Command } from '../../src/domain/hearing/reply';
import type { Entry } from '../../src/domain/log';
import { createHands } from '../../src/ear/hands';
import { randomName } from '../../src/main/names';
import type { ToRun } from '../../src/main/running';
import { createSquadDayPlace } from '../../src/main/squadDay/squadDayPlace';
import { createUnfinished } from '../../src/main/unfinished';
import { memoryNotes } from '../../src/records/memoryNotes';
import { memoryPeople } from '../../src/records/memoryPeople';
import { memoryRecords } from '../../src/records/memoryRecords';
import { RecordError } from '../../src/records/problems';
import type { Voice } from '../../src/ports';
import { createSeatStore } from '../../src/screens/seat';
import type { SquadDayChoice } from '../../src/screens/squadDay/state';
import { someone } from '../domain/people/someone';
import { STATE } from '../screens/fakeSeat';

const book = bookOf();
const known = (id: string, name: string) => ({
  person: someone(name, { id }),
  open: { overhead: null, squat: null, hinge: null },
  visits: [],
});
const ALL = [known('marn', 'Quib Marn'), known('tosk', 'Élodie Tosk'), known('ash', 'Ash Vennel')];
const CHOICE: SquadDayChoice = {
  ...{ people: ['marn', 'tosk', 'ash'], routine: 'hinge', way: 'hands-on', listen: 'hands' },
  missing: ['bands'],
};
/** What listens between two comes in a file of its own, which takes long on a busy machine. */
const until = (seen: () => void) => vi.waitFor(seen, { timeout: 30_000 });
const KEY = 'sayso-squad-day';

function storageOf(kept: Record<string, string> = {}) {
  const texts = new Map(Object.entries(kept));
  const storage = {
    getItem: (key: string) => texts.get(key) ?? null,
    setItem: (key: string, text: string) => void texts.set(key, text),
  } as Storage;
  return { storage, kept: () => texts.get(KEY) ?? '' };
}

/** A squad day at a seat whose sessions and hands are in the test's hand. */
function seated(
  options: {
    kept?: string;
    all?: typeof ALL;
    canRun?: () => boolean;
    read?: (session: string) => Promise<Entry[]>;
    /** Notes are refused as often. */
    refusals?: number;
  } = {},
) {
  const { all = ALL, canRun = () => true } = options;
  const clock = createVirtualClock(Date.UTC(2031, 2, 8, 9));
  const store = createSeatStore({
    ...STATE,
    where: 'people',
    book,
    people: { ...STATE.people, all },
  });
  const hands = createHands();
  const said: string[] = [];
  const started: ToRun[] = [];
  const began: string[] = [];
  const languages: string[] = [];
  const shelf = storageOf(options.kept === undefined ? {} : { [KEY]: options.kept });
  const records = memoryRecords();
  const { notes } = memoryNotes(memoryPeople());
  const tones: string[] = [];
  let refusals = options.refusals ?? 0;
  let ends = 0;
  const place = createSquadDayPlace({
    parts: {
      ...{ book, clock, secondsOf, isHeard: true },
      records: { ...records, read: options.read ?? records.read },
      coach: { book: () => book, callWord: () => null, fitEar: async () => undefined } as never,
      manner: { speakFor: () => undefined } as never,
      music: { level: () => undefined } as never,
      notes: {
        ...notes,
        async add(note) {
          refusals -= 1;
          if (refusals >= 0) throw new RecordError(new DOMException('', 'QuotaExceededError'));
          await notes.add(note);
        },
      },
      tones: { play: (tone: string) => tones.push(tone), hush: () => undefined } as never,
      beats: { place: () => () => undefined, prepare: () => undefined },
      voice: {
        say(text, { ended }) {
          said.push(text);
          const timer = clock.setTimeout(() => ended('spoken'), 500);
          return () => clock.clearTimeout(timer);
        },
        prepare: () => undefined,
        adjust: () => undefined,
        duck: () => undefined,
      } satisfies Voice as never,
    },
    store,
    listening: hands,
    people: {
      choose: (chosen) => store.patch({ people: { ...store.state().people, chosen } }),
      look: async () => undefined,
      nameSession: (person) => `${person}-${randomName()}`,
    },
    running: {
      start: async (wanted) => {
        if (!canRun()) return false;
        started.push(wanted);
        store.patch({ where: 'run' });
        return true;
      },
      end: () => {
        ends += 1;
      },
    },
    begins: (listen) => began.push(listen),
    stays: () => () => undefined,
    freed: () => undefined,
    chooseLanguage: (language) => languages.push(language),
    storage: () => shelf.storage,
  });
  const seat = {
    ...{ place, store, said, started, began, languages, shelf, records, notes, tones },
    ends: () => ends,
    stage: () => store.state().squadDay?.stage ?? null,
    /** Somebody says it by hand, once the place listens and has said what it says. */
    say: async (command: Command) => {
      await until(() => {
        clock.advance(100);
        const before = said.length;
        clock.advance(5000);
        expect(said.length).toBe(before);
        expect(seat.cue()).not.toBe('');
      });
      hands.reply({ ...NO_REPLY, command });
      clock.advance(1000);
    },
    tap: (command: Command) => hands.reply({ ...NO_REPLY, command }),
    /** A warning sign, once the place listens. */
    sign: async () => {
      await until(() => expect(seat.cue()).not.toBe(''));
      hands.reply({ ...NO_REPLY, redFlag: 'chest-pain' });
    },
    /** Until the session of that turn runs. */
    runs: async (count: number) => {
      await until(() => expect(started).toHaveLength(count));
      return started.at(-1)!;
    },
    cue: () => store.state().view.cue?.text ?? '',
    hears: async (text: string) => {
      await until(() => {
        clock.advance(500);
        expect(said).toContain(text);
      });
    },
  };
  return seat;
}

describe('a squad day at the seat', () => {
  it('says who is next, begins at "ready", and goes on by itself to the last', async () => {
    const seat = seated();
    seat.place.begin(CHOICE);
    expect(seat.began).toEqual(['hands']);
    expect(seat.store.state().where).toBe('squadDay');
    await seat.say('ready');
    const first = await seat.runs(1);
    expect(seat.said.slice(0, 3)).toEqual([
      'Next is Quib Marn.',
      'Two more after this one.',
      'Tell me when you are ready.',
    ]);
    expect(first).toMatchObject({
      ...{ routine: 'hinge', way: 'hands-on', missing: ['bands'], log: [], othersWait: true },
    });
    expect(seat.store.state().people.chosen).toBe('marn');
    first.over?.('completed');
    await seat.say('ready');
    (await seat.runs(2)).over?.('stopped');
    await seat.hears('This is the last one.');
    await seat.say('ready');
    const last = await seat.runs(3);
    expect(last.othersWait).toBe(false);
    last.over?.('completed');
    await seat.hears('That was the last one. All of it is kept.');
    expect(seat.stage()).toBe('over');
    expect(seat.store.state().squadDay?.day.seen.map(({ person }) => person)).toEqual(
      CHOICE.people,
    );
    expect(new Set(seat.started.map(({ session }) => session)).size).toBe(3);
  });

  it('"next person" in a session comes back to the very session, with its log', async () => {
    const seat = seated();
    seat.place.begin({ ...CHOICE, people: ['marn', 'tosk'] });
    await seat.say('ready');
    const first = await seat.runs(1);
    const entry: Entry = {
      ...{ id: `${first.session}:bench:1`, atSeconds: 1, type: 'asked' },
      ...{ prompt: 'check/hinge-unloaded', side: null },
    };
    seat.records.append(entry, () => undefined);
    first.over?.('left');
    await seat.hears('Quib Marn comes later.');
    await seat.hears('Next is Élodie Tosk.');
    await seat.say('ready');
    (await seat.runs(2)).over?.('completed');
    await seat.hears('Next is Quib Marn, where we stopped before.');
    await seat.say('ready');
    const again = await seat.runs(3);
    expect(again.session).toBe(first.session);
    expect(again.log).toEqual([entry]);
    expect(again.othersWait).toBe(false);
  });

  it('keeps what is chosen while the microphone is checked, and not of a day that began', () => {
    const seat = seated();
    const draft = {
      people: ['ash'],
      wanted: { routine: 'hinge', way: 'hands-on' as const, notHere: [] },
    };
    seat.place.show();
    seat.place.keepDraft(draft);
    expect(seat.store.state().squadDay?.draft).toEqual(draft);
    seat.place.leave();
    seat.place.keepDraft(draft);
    expect(seat.store.state().squadDay).toBeNull();
  });

  it('a tap on "Ready" before anything listens counts', async () => {
    const seat = seated();
    seat.place.begin(CHOICE);
    seat.tap('ready');
    await seat.runs(1);
  });

  it('"skip" before a session puts that one to the end, and begins nothing', async () => {
    const seat = seated();
    seat.place.begin(CHOICE);
    await seat.say('skip');
    await seat.hears('Quib Marn comes later.');
    await seat.hears('Next is Élodie Tosk.');
    expect(seat.started).toEqual([]);
  });

  it('after a warning sign it waits for help before it names anybody', async () => {
    const seat = seated();
    seat.place.begin(CHOICE);
    await seat.say('ready');
    (await seat.runs(1)).over?.('red-flag');
    await seat.hears('Take care of that first.');
    expect(seat.said).not.toContain('Next is Élodie Tosk.');
    expect(seat.store.state().squadDay?.asks).toBe('help');
    await seat.say('ready');
    await seat.hears('Next is Élodie Tosk.');
    expect(seat.started).toHaveLength(1);
  });

  it('a warning sign between two stops, waits for help, and is noted with the visit before', async () => {
    const seat = seated();
    seat.place.begin(CHOICE);
    await seat.say('ready');
    const first = await seat.runs(1);
    first.over?.('completed');
    await seat.hears('Next is Élodie Tosk.');
    await seat.sign();
    await seat.hears('Get help now. Follow your local rules.');
    expect(seat.store.state().squadDay?.asks).toBe('sign');
    await until(() => expect(seat.store.state().squadDay?.signs?.[0]?.isNoted).toBe(true));
    const [note] = await seat.notes.of(first.session);
    expect(note).toMatchObject({ person: 'marn' });
    expect(note?.text).toMatch(/^Warning sign: chest pain\. .*after this visit/);
    expect(note?.text).not.toMatch(/Quib|Tosk/);
    await seat.say('ready');
    await until(() => expect(seat.store.state().squadDay?.asks).toBe('ready'));
    await seat.say('ready');
    expect((await seat.runs(2)).session).not.toBe(first.session);
    expect(await seat.notes.of(first.session)).toHaveLength(1);
  });

  it('one before the first turn is noted for who is next, with the visit that follows', async () => {
    const seat = seated();
    seat.place.begin(CHOICE);
    await seat.sign();
    await seat.hears('Get help now. Follow your local rules.');
    await until(() => expect(seat.shelf.kept()).toContain('"isNoted":true'));
    expect((await seat.notes.last('marn'))?.text).toMatch(/before their first turn/);
    await seat.say('ready');
    await until(() => expect(seat.store.state().squadDay?.asks).toBe('ready'));
    await seat.say('ready');
    const { session, log } = await seat.runs(1);
    expect(log).toEqual([]);
    expect(await seat.notes.of(session)).toHaveLength(1);
  });

  it('one that cannot be noted is told and kept, also by a closed page, and noted later', async () => {
    const seat = seated({ refusals: 1 });
    seat.place.begin(CHOICE);
    await seat.sign();
    await until(() =>
      expect(seat.store.state().squadDay?.trouble).toMatch(/not noted yet: write it down.*space/),
    );
    expect(seat.tones).toContain('not-stored');
    const later = seated({ kept: seat.shelf.kept() });
    later.place.goOn();
    await until(() => expect(later.store.state().squadDay?.signs?.[0]?.isNoted).toBe(true));
    expect((await later.notes.last('marn'))?.text).toContain('chest pain');
    seat.place.end();
    await until(() => expect(seat.store.state().squadDay?.signs?.[0]?.isNoted).toBe(true));
    expect(seat.store.state().squadDay?.trouble).toBeNull();
  });

  it('after the last one too a warning sign waits for help before the day is over', async () => {
    const seat = seated();
    seat.place.begin({ ...CHOICE, people: ['marn'] });
    await seat.say('ready');
    (await seat.runs(1)).over?.('red-flag');
    await seat.hears('Take care of that first.');
    expect(seat.stage()).toBe('between');
    await seat.say('ready');
    await seat.hears('That was the last one. All of it is kept.');
    expect(seat.stage()).toBe('over');
  });

  it('"stop" and a yes end the day, and those who are left are there to go on with', async () => {
    const seat = seated();
    seat.place.begin(CHOICE);
    await seat.say('stop');
    await seat.hears('Shall I end this squad day?');
    await seat.say('yes');
    await seat.hears('The squad day is over. All of it is kept.');
    expect(seat.stage()).toBe('over');
    seat.place.goOn();
    expect(seat.stage()).toBe('between');
    await seat.say('ready');
    await seat.runs(1);
  });

  it('once it is left it is forgotten here; the sessions are not its own any more', async () => {
    const seat = seated();
    seat.place.begin({ ...CHOICE, people: ['marn'] });
    await seat.say('ready');
    const { session, over } = await seat.runs(1);
    expect(seat.place.holds(session)).toBe(true);
    over?.('completed');
    await seat.hears('That was the last one. All of it is kept.');
    seat.place.leave();
    expect(seat.store.state()).toMatchObject({ where: 'people', squadDay: null });
    expect(seat.shelf.kept()).toBe('');
    expect(seat.place.holds(session)).toBe(false);
  });

  it('where a session could not be loaded, the day is kept and offered again with a word', async () => {
    const seat = seated({ canRun: () => false });
    seat.place.begin(CHOICE);
    await seat.say('ready');
    await until(() => expect(seat.stage()).toBe('kept'));
    expect(seat.store.state().where).toBe('people');
    expect(seat.store.state().squadDay?.trouble).toContain('Connect to the network');
  });

  it('where the open session cannot be read, another one begins, and it is told', async () => {
    const seat = seated({ read: () => Promise.reject(new Error('broken')) });
    seat.place.begin(CHOICE);
    await seat.say('ready');
    const { session, log } = await seat.runs(1);
    expect(log).toEqual([]);
    expect(seat.store.state().squadDay?.trouble).toContain('Quib Marn');
    expect(seat.place.holds(session)).toBe(true);
  });
});

/** What is kept of a day in whose first session the page was killed. */
async function killed() {
  const seat = seated();
  seat.place.begin(CHOICE);
  await seat.say('ready');
  const { session } = await seat.runs(1);
  return { kept: seat.shelf.kept(), session };
}

describe('a squad day whose page was killed', () => {
  it('is offered again, by ids alone, and goes on in the session that was cut off', async () => {
    const { kept, session } = await killed();
    expect(kept).not.toContain('Marn');
    const seat = seated({ kept });
    expect(seat.stage()).toBe('kept');
    expect(seat.place.holds(session)).toBe(true);
    seat.place.goOn();
    expect(seat.began).toEqual(['hands']);
    await seat.hears('Next is Quib Marn, where we stopped before.');
    await seat.say('ready');
    expect((await seat.runs(1)).session).toBe(session);
  });

  it('its open session is not offered beside it', async () => {
    const { kept, session } = await killed();
    const { place, store, records } = seated({ kept });
    const head = {
      session,
      routine: 'hinge',
      startedAt: '2031-03-08',
      ended: null,
      person: 'marn',
    };
    const all = { ...records, sessions: async () => [head] };
    await createUnfinished({ book, records: all, store, isTaken: place.holds }).look();
    expect(store.state().unfinished).toEqual([]);
    await createUnfinished({ book, records: all, store, isTaken: () => false }).look();
    expect(store.state().unfinished).toMatchObject([{ head }]);
  });

  it('leaves out whoever was deleted meanwhile', async () => {
    const { kept } = await killed();
    const seat = seated({ kept, all: ALL.slice(1) });
    seat.place.goOn();
    await seat.hears('Next is Élodie Tosk.');
    await seat.hears('One more after this one.');
  });

  it('that was in another language goes on in it', async () => {
    const { kept } = await killed();
    const seat = seated({ kept: kept.replace('"language":"en"', '"language":"es"') });
    seat.place.goOn();
    expect(seat.languages).toEqual(['es']);
    expect(seat.stage()).toBe('kept');
  });

  it('can be ended: what came of it is shown', async () => {
    const seat = seated({ kept: (await killed()).kept });
    seat.place.end();
    expect(seat.store.state().where).toBe('squadDay');
    expect(seat.stage()).toBe('over');
  });

  it.each(['nonsense', '{}', '{"format":"sayso-squad-day-1","language":"en"}'])(
    'and cannot be read is dropped with a word: %s',
    (kept) => {
      const seat = seated({ kept });
      expect(seat.stage()).toBe('dropped');
      expect(seat.shelf.kept()).toBe('');
      seat.place.show();
      expect(seat.stage()).toBe('choosing');
    },
  );
});
