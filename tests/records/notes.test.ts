import { IDBFactory, IDBKeyRange, IDBObjectStore } from 'fake-indexeddb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Note } from '../../src/ports';
import { createDexieNotes } from '../../src/records/dexieNotes';
import { createDexiePeople } from '../../src/records/dexiePeople';
import { createDexieRecords } from '../../src/records/dexieRecords';
import { removeInventedClub } from '../../src/records/inventedClub';
import { lazyNotes } from '../../src/records/lazyNotes';
import { memoryNotes } from '../../src/records/memoryNotes';
import { memoryPeople } from '../../src/records/memoryPeople';
import { memoryRecords } from '../../src/records/memoryRecords';
import { RecordError } from '../../src/records/problems';
import { someone } from '../domain/people/someone';

afterEach(() => void vi.restoreAllMocks());

const note = (id: string, more: Partial<Note> = {}): Note => ({
  ...{ id, session: 'mon', person: 'a', text: `Note ${id}` },
  writtenAt: '2031-03-01T09:00:00+01:00',
  ...more,
});
const database = () => {
  const given = { indexedDB: new IDBFactory(), IDBKeyRange };
  return {
    people: createDexiePeople('test', given),
    records: createDexieRecords('test', given),
    notes: lazyNotes(() => Promise.resolve(createDexieNotes('test', given))),
  };
};

describe.each([
  ['memory', () => ({ ...memoryNotes(memoryPeople()), records: memoryRecords() })],
  ["the browser's database", database],
])('notes in %s', (_, create) => {
  it('are given back by session, newest last across time zones, and the last of a person', async () => {
    const { notes } = create();
    await notes.add(note('late', { writtenAt: '2031-03-01T10:00:00+02:00' }));
    await notes.add(note('later', { writtenAt: '2031-03-01T08:30:00+00:00' }));
    await notes.add(note('early'));
    await notes.add(note('other', { session: 'tue', writtenAt: '2031-03-02T08:30:00+00:00' }));
    const ids = (await notes.of('mon')).map(({ id }) => id);
    expect(ids.at(-1)).toBe('later');
    expect([...ids].sort()).toEqual(['early', 'late', 'later']);
    expect(await notes.last('a')).toMatchObject({ id: 'other' });
    expect(await notes.last('nobody')).toBeNull();
    await notes.remove('other');
    expect(await notes.of('tue')).toEqual([]);
  });

  it('go with the person they are about, and only those', async () => {
    const { notes, people } = create();
    await people.save([someone('a'), someone('b')]);
    await notes.add(note('1'));
    await notes.add(note('2', { person: 'b' }));
    await notes.add(note('3', { person: null }));
    await people.remove(['a']);
    expect((await notes.of('mon')).map(({ id }) => id)).toEqual(['2', '3']);
  });

  it('of the invented club leave with it', async () => {
    const { notes, people, records } = create();
    await people.save([someone('invented-1', { isInvented: true }), someone('a')]);
    await notes.add(note('1', { session: 'invented-1-1', person: 'invented-1' }));
    await notes.add(note('2'));
    await removeInventedClub(people, records);
    expect(await notes.of('invented-1-1')).toEqual([]);
    expect(await notes.of('mon')).toHaveLength(1);
  });
});

it('a note that finds no room, or no database, says so', async () => {
  await expect(createDexieNotes().of('mon')).rejects.toMatchObject({
    problem: { reason: 'refused' },
  });
  const { notes } = database();
  vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
    throw new DOMException('no', 'QuotaExceededError');
  });
  await expect(notes.add(note('1'))).rejects.toBeInstanceOf(RecordError);
});
