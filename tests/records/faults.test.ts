import { Dexie } from 'dexie';
import { IDBFactory, IDBKeyRange, IDBObjectStore } from 'fake-indexeddb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openFor } from '../../src/domain/people/openFor';
import type { Entry, Fact } from '../../src/domain/log';
import type { RecordProblem, Records } from '../../src/ports';
import { keepTrying } from '../../src/records/keepTrying';
import { entriesFor } from '../../src/session/logbook';
import { momentAt } from '../../src/session/startedAt';
import { book } from '../domain/deciding/book';
import { someone } from '../domain/people/someone';
import { stored } from './contract';
import { device } from './device';
import { ended, finding, outcome, started } from './entries';
import { handClock } from './handClock';

afterEach(() => void vi.restoreAllMocks());

const session = [
  started('mon', undefined, 'p1'),
  finding('mon', 1),
  outcome('mon', 2, 'hinge'),
  ended('mon', 3),
];
const note = {
  id: 'n',
  session: 'mon',
  person: 'p1',
  text: 'calm',
  writtenAt: '2031-03-01T09:00:00Z',
};

/** Everything that is asked of a database, each as a promise. */
const everyUse = ({ records, people, notes, keeping }: ReturnType<typeof device>) => [
  records.read('mon'),
  records.sessions(),
  records.outcomes(),
  records.addAll(session),
  people.all(),
  people.save([someone('p1')]),
  people.remove(['p1']),
  notes.of('mon'),
  notes.add(note),
  keeping.whole(),
  keeping.damage(),
  keeping.upToDamage('mon'),
];

/** All that is appended is told of, and held until it can be written. */
async function held(records: Records, entries: Entry[]): Promise<(RecordProblem | null)[]> {
  return Promise.all(entries.map((entry) => stored(records, entry)));
}

describe.each([
  ['the database is refused by a setting of the browser', 'SecurityError'],
  ['a private window has a database that does not open', 'InvalidStateError'],
])('where %s', (_, name) => {
  it('each use says so and what to do, a session goes on, and all of it is written once it opens', async () => {
    const indexedDB = new IDBFactory();
    const refused = vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('no', name);
    });
    const here = device(indexedDB);
    for (const use of everyUse(here)) {
      await expect(use).rejects.toMatchObject({
        name: 'RecordError',
        problem: { reason: 'refused' },
      });
      await expect(use).rejects.toThrow(
        /kept only while this page is open: open it in an ordinary window/,
      );
    }
    const clock = handClock();
    const records = keepTrying(here.records, clock);
    const told = await held(records, session);
    expect(told.map((problem) => problem?.reason)).toEqual(Array(4).fill('refused'));
    expect(await records.read('mon')).toEqual(session);
    refused.mockRestore();
    clock.pass(1000);
    await vi.waitFor(async () => expect(await here.records.read('mon')).toEqual(session));
  });
});

describe('where a private window has no database at all', () => {
  it('each use says so, and nothing throws on the way', async () => {
    expect(globalThis.indexedDB).toBeUndefined();
    const { createDexieKeeping } = await import('../../src/records/dexieKeeping');
    await expect(createDexieKeeping().whole()).rejects.toMatchObject({
      problem: { reason: 'refused' },
    });
  });
});

describe('where the quota is exceeded', () => {
  it('what was stored stays, what was not is told, held and written when there is room', async () => {
    const here = device();
    const clock = handClock();
    const records = keepTrying(here.records, clock);
    expect(await held(records, session.slice(0, 2))).toEqual([null, null]);
    const full = vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(() => {
      throw new DOMException('no', 'QuotaExceededError');
    });
    const told = await held(records, session.slice(2));
    expect(told.map((problem) => problem?.reason)).toEqual(['full', 'full']);
    expect(told[0]?.say).toMatch(/free some space and leave this page open/);
    expect(await here.records.read('mon')).toEqual(session.slice(0, 2));
    expect(await records.read('mon')).toEqual(session);
    full.mockRestore();
    clock.pass(1000);
    await vi.waitFor(async () => expect(await here.records.read('mon')).toEqual(session));
  });
});

describe('where another tab of an older version blocks the upgrade', () => {
  /** A tab that does not let go of the database as an older version made it. */
  const olderTab = async (indexedDB: IDBFactory) => {
    const older = new Dexie('sayso', { indexedDB, IDBKeyRange });
    older.version(3).stores({
      entries: '++order, &id, session, type, tells',
      ...{ people: 'id', notes: 'id, session, person' },
    });
    older.on('versionchange', () => false);
    await older.open();
    return older;
  };

  it('each use says so at once instead of waiting for ever, and works when that tab is closed', async () => {
    const indexedDB = new IDBFactory();
    const older = await olderTab(indexedDB);
    const here = device(indexedDB);
    for (const use of everyUse(here))
      await expect(use).rejects.toThrow(/Another window of this page.*close the other windows/i);
    await expect(here.records.sessions()).rejects.toMatchObject({ problem: { reason: 'damaged' } });
    older.close();
    await vi.waitFor(async () => expect(await here.records.sessions()).toEqual([]));
    expect(await stored(here.records, started('mon'))).toBeNull();
  });

  it('what is appended meanwhile is held, and written in its order afterwards', async () => {
    const indexedDB = new IDBFactory();
    const older = await olderTab(indexedDB);
    const here = device(indexedDB);
    const clock = handClock();
    const records = keepTrying(here.records, clock);
    const told = await held(records, session);
    expect(told[0]?.say).toMatch(/close the other windows, and it is written/);
    expect(await records.read('mon')).toEqual(session);
    older.close();
    await vi.waitFor(async () => expect(await here.records.sessions()).toEqual([]));
    clock.pass(1000);
    await vi.waitFor(async () => expect(await here.records.read('mon')).toEqual(session));
  });
});

describe('where another tab has a newer version', () => {
  it('this one lets go of the database at once, then reads and writes on in it', async () => {
    const here = device();
    await here.records.addAll(session);
    const newer = new Dexie('sayso', { indexedDB: here.indexedDB, IDBKeyRange });
    newer.version(99).stores({
      ...{ entries: '++order, &id, session, type, tells', people: 'id' },
      ...{ notes: 'id, session, person', erased: 'id', more: 'id' },
    });
    await newer.open();
    expect(await here.records.read('mon')).toEqual(session);
    expect(await stored(here.records, finding('mon', 4))).toBeNull();
    expect(await newer.table('entries').count()).toBe(session.length + 1);
    newer.close();
  });
});

/** A session that is held by the clock of a device, a fact at each of these true times. */
function heldAt(startedAt: string, times: string[], device = 'rack'): Entry[] {
  const logbook = { session: 'mon', device, startedAtMilliseconds: Date.parse(startedAt) };
  const start = started('mon', startedAt);
  const facts: Fact[] = [
    start,
    ...times.map((): Fact => ({ type: 'asked', prompt: 'check/hinge-unloaded', side: null })),
  ];
  return facts.reduce<Entry[]>(
    (log, fact, at) => [
      ...log,
      ...entriesFor(logbook, log, [fact], Date.parse(at === 0 ? startedAt : (times[at - 1] ?? ''))),
    ],
    [],
  );
}
const secondsOf = (log: readonly Entry[]) => log.map(({ atSeconds }) => atSeconds);

describe('where the clock of the device is set back in mid-session', () => {
  const log = heldAt('2031-03-01T09:00:00+01:00', [
    '2031-03-01T09:01:00+01:00',
    '2031-03-01T08:02:00+01:00',
    '2031-03-01T08:03:00+01:00',
    '2031-03-01T09:02:00+01:00',
  ]);

  it('no time of the session falls, and time goes on when the clock has caught up', () => {
    expect(secondsOf(log)).toEqual([0, 60, 60, 60, 120]);
  });

  it('the entries stay in the order in which they were said', async () => {
    const here = device();
    for (const entry of log) await stored(here.records, entry);
    expect(await device(here.indexedDB).records.read('mon')).toEqual(log);
    expect(await here.keeping.damage()).toEqual([]);
  });

  it('a session that was begun later is listed by the time that it says itself', async () => {
    const here = device();
    await here.records.addAll([...log, started('tue', '2031-03-01T08:30:00+01:00')]);
    expect((await here.records.sessions()).map((head) => head.session)).toEqual(['mon', 'tue']);
  });
});

describe('where the time zone changes in mid-session', () => {
  it('seconds go on from true time, and the day is that of the place where it began', async () => {
    const log = heldAt('2031-03-01T23:50:00+01:00', [
      '2031-03-01T17:55:00-05:00',
      '2031-03-02T08:00:00+09:00',
    ]);
    expect(secondsOf(log)).toEqual([0, 300, 600]);
    const here = device();
    await here.records.addAll([...log, { ...outcome('mon', 9, 'hinge'), atSeconds: 700 }]);
    const [left] = await here.records.outcomes();
    expect(openFor(book, left ? [left] : [], '2031-03-02').hinge?.on).toBe('2031-03-01');
  });

  it('sessions of two zones stand in the order of true time', async () => {
    const here = device();
    await here.records.addAll([
      started('here', '2031-03-01T09:00:00+09:00'),
      started('there', '2031-02-28T20:00:00-05:00'),
    ]);
    expect((await here.records.sessions()).map((head) => head.session)).toEqual(['there', 'here']);
  });
});

describe('where daylight saving begins or ends in mid-session', () => {
  it.each([
    ['begins', '2031-03-30T01:50:00+01:00', '2031-03-30T03:10:00+02:00'],
    ['ends', '2031-10-26T02:50:00+02:00', '2031-10-26T02:10:00+01:00'],
  ])('the hour that it %s with is neither lost nor counted twice', (_, from, to) => {
    expect(secondsOf(heldAt(from, [to]))).toEqual([0, 20 * 60]);
  });

  it('the moment is written with the offset that holds then, and read back as the same', () => {
    const before = Date.parse('2031-10-26T02:50:00+02:00');
    expect(momentAt(before, 120)).toBe('2031-10-26T02:50:00.000+02:00');
    expect(Date.parse(momentAt(before + 20 * 60_000, 60))).toBe(before + 20 * 60_000);
  });
});
