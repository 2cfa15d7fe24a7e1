import { Dexie } from 'dexie';
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { describe, expect, it } from 'vitest';
import { checksumOf } from '../../src/domain/keeping/checksum';
import type { Row } from '../../src/records/checked';
import { someone } from '../domain/people/someone';
import { stored } from './contract';
import { behind, damageEntry, device } from './device';
import { ended, finding, outcome, started } from './entries';

const session = [
  started('mon', undefined, 'a'),
  finding('mon', 1),
  outcome('mon', 2, 'hinge'),
  ended('mon', 3),
];
const note = {
  id: 'n',
  session: 'mon',
  person: 'a',
  text: 'calm',
  writtenAt: '2031-03-01T09:00:00Z',
};

/** The shapes that this page wrote before, each as it was. */
const SHAPES: ((db: Dexie) => void)[] = [
  (db) => db.version(1).stores({ entries: '++order, &id, session, type' }),
  (db) => db.version(2).stores({ entries: '++order, &id, session, type, tells', people: 'id' }),
  (db) => db.version(3).stores({ notes: 'id, session, person' }),
];

/** The database of that version, with a session and what else it could keep. */
async function written(version: number): Promise<IDBFactory> {
  const indexedDB = new IDBFactory();
  const db = new Dexie('sayso', { indexedDB, IDBKeyRange });
  for (const shape of SHAPES.slice(0, version)) shape(db);
  for (const entry of session) {
    const tells = version > 1 && entry.type !== 'finding' && { tells: 1 };
    await db
      .table('entries')
      .add({ id: entry.id, session: 'mon', type: entry.type, ...tells, entry });
  }
  if (version > 1) await db.table('people').add(someone('a'));
  if (version > 2) await db.table('notes').add(note);
  db.close();
  return indexedDB;
}

describe.each([1, 2, 3])('a record that version %i of the database wrote', (version) => {
  it('is there whole, in its order, with people and notes, and goes on', async () => {
    const here = device(await written(version));
    expect(await here.records.read('mon')).toEqual(session);
    expect(await here.people.all()).toEqual(version > 1 ? [someone('a')] : []);
    expect(await here.notes.of('mon')).toEqual(version > 2 ? [note] : []);
    expect(await here.records.outcomes()).toMatchObject([
      { head: { session: 'mon', person: 'a' }, areas: [{ area: 'hinge', outcome: 'ready' }] },
    ]);
    expect(await stored(here.records, finding('mon', 4))).toBeNull();
    expect(await device(here.indexedDB).records.read('mon')).toEqual([
      ...session,
      finding('mon', 4),
    ]);
    expect(await here.keeping.damage()).toEqual([]);
  });

  it('gets a checksum beside each entry, so that damage shows from then on', async () => {
    const here = device(await written(version));
    await here.records.sessions();
    const rows = await behind(here.indexedDB, (db) => db.table<Row>('entries').toArray());
    expect(rows.map(({ schema, checksum }) => [schema, checksum])).toEqual(
      session.map((entry) => [1, checksumOf(entry)]),
    );
    await damageEntry(here, 'mon:rack:1', { result: 'held' });
    await expect(here.records.read('mon')).rejects.toThrow(/Entry 2 of this session was damaged/);
  });
});
