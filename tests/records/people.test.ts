import { Dexie } from 'dexie';
import { IDBFactory, IDBKeyRange, IDBObjectStore } from 'fake-indexeddb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createDexiePeople } from '../../src/records/dexiePeople';
import { createDexieRecords } from '../../src/records/dexieRecords';
import { lazyPeople } from '../../src/records/lazyPeople';
import { memoryPeople } from '../../src/records/memoryPeople';
import { memoryRecords } from '../../src/records/memoryRecords';
import { RecordError } from '../../src/records/problems';
import { ended, finding, outcome, started } from './entries';
import { someone } from '../domain/people/someone';
import { peopleContract } from './peopleContract';

afterEach(() => void vi.restoreAllMocks());

const open = (indexedDB = new IDBFactory()) => {
  const database = { indexedDB, IDBKeyRange };
  return {
    indexedDB,
    people: createDexiePeople('sayso', database),
    records: createDexieRecords('sayso', database),
  };
};

peopleContract('memory', () => ({ people: memoryPeople(), records: memoryRecords() }));
peopleContract("the browser's database", open);
peopleContract('loaded when asked for', () => {
  const { people, records } = open();
  return { people: lazyPeople(() => Promise.resolve(people)), records };
});

/** The database as it was before there were people in it. */
const before = async (indexedDB: IDBFactory) => {
  const db = new Dexie('sayso', { indexedDB, IDBKeyRange });
  db.version(1).stores({ entries: '++order, &id, session, type' });
  const session = [
    started('mon', undefined, 'a'),
    finding('mon', 1),
    outcome('mon', 2, 'hinge'),
    ended('mon', 3),
  ];
  for (const entry of session)
    await db.table('entries').add({ id: entry.id, session: 'mon', type: entry.type, entry });
  db.close();
  return session;
};

describe("people in the browser's database", () => {
  it('come into a database of the first version, which keeps every entry', async () => {
    const indexedDB = new IDBFactory();
    const session = await before(indexedDB);
    const { people, records } = open(indexedDB);
    expect(await people.all()).toEqual([]);
    await people.save([someone('a')]);
    expect(await records.read('mon')).toEqual(session);
    expect(await records.outcomes()).toMatchObject([
      { head: { session: 'mon', person: 'a' }, areas: [{ area: 'hinge', outcome: 'ready' }] },
    ]);
    await records.addAll([finding('mon', 4)]);
    expect(await open(indexedDB).records.read('mon')).toEqual([...session, finding('mon', 4)]);
    expect(await open(indexedDB).people.all()).toEqual([someone('a')]);
  });

  it('are all saved or none', async () => {
    const { people } = open();
    const broken = { ...someone('b'), id: undefined as unknown as string };
    await expect(people.save([someone('a'), broken])).rejects.toBeInstanceOf(RecordError);
    expect(await people.all()).toEqual([]);
  });

  it('say so and what to do where the browser has no database, or no room', async () => {
    const none = createDexiePeople();
    await expect(none.all()).rejects.toMatchObject({ problem: { reason: 'refused' } });
    await expect(none.save([someone('a')])).rejects.toThrow(/ordinary window/);
    await expect(none.remove(['a'])).rejects.toBeInstanceOf(RecordError);
    const { people } = open();
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no', 'QuotaExceededError');
    });
    await expect(people.save([someone('a')])).rejects.toMatchObject({
      problem: { reason: 'full' },
    });
  });
});
