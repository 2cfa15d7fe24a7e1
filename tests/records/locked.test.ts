import { IDBFactory } from 'fake-indexeddb';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/domain/log';
import type { Records } from '../../src/ports';
import { ITERATIONS, WrongPassphrase } from '../../src/records/passphrase';
import { createDexieLock } from '../../src/records/dexieLock';
import { recordsContract, stored } from './contract';
import { behind, device, type Device } from './device';
import { ended, finding, outcome, started } from './entries';

const PASSPHRASE = 'kettle under violet ladder';
const OTHER = 'seven quiet northern boats';
const PERSON = {
  ...{ id: 'p1', name: 'Quib Marn', squad: 'Early', birthYear: 2001, sex: null },
  ...{ statureMillimetres: null, kneeMillimetres: null, angleTool: null },
  ...{ mindText: 'old shoulder', guardianAgreedOn: null, isInvented: false },
};
const NOTE = {
  ...{ id: 'n1', session: 'mon', person: 'p1', text: 'slept badly' },
  writtenAt: '2031-03-01T12:00:00Z',
};
const MON = [
  started('mon', undefined, 'p1'),
  finding('mon', 1),
  outcome('mon', 2, 'hinge'),
  ended('mon', 3),
];

async function filled(more: Entry[] = []): Promise<Device> {
  const here = device();
  await here.records.addAll([...MON, ...more]);
  await here.people.save([PERSON]);
  await here.notes.add(NOTE);
  return here;
}
async function locked(more: Entry[] = []): Promise<Device> {
  const here = await filled(more);
  await here.lock.turnOn(PASSPHRASE);
  await here.lock.settle();
  return here;
}
/** The device as it is after the page was loaded anew. */
const reloaded = ({ indexedDB }: Device) => device(indexedDB);
async function reopened(here: Device, passphrase = PASSPHRASE): Promise<Device> {
  const again = reloaded(here);
  await again.lock.open(passphrase);
  return again;
}

/** All that lies in the database, letter for letter, bytes as Latin letters. */
const everything = ({ indexedDB }: Device): Promise<string> =>
  behind(indexedDB, async (db) => {
    const tables = await Promise.all(db.tables.map((table) => table.toArray()));
    return JSON.stringify(tables, (_, value: unknown) =>
      value instanceof Uint8Array ? new TextDecoder('latin1').decode(value) : value,
    );
  });
const entriesIn = ({ indexedDB }: Device) =>
  behind(indexedDB, (db) => db.table<{ id: string; type: string }>('entries').toArray());

/** Records of a device that is locked before anything is kept in it. */
const lockedRecords = (): Records => {
  const { records, lock } = device();
  const ready = lock.turnOn(PASSPHRASE);
  return {
    append: (entry, done) => void ready.then(() => records.append(entry, done)),
    read: async (session) => ready.then(() => records.read(session)),
    sessions: async () => ready.then(() => records.sessions()),
    outcomes: async () => ready.then(() => records.outcomes()),
    addAll: async (entries) => ready.then(() => records.addAll(entries)),
    removeInvented: async () => ready.then(() => records.removeInvented()),
  };
};
recordsContract('a locked database', lockedRecords);

describe('a locked record', () => {
  it('shows nothing of people, notes and findings, only ids, places and what is listed', async () => {
    const here = await locked();
    const text = await everything(here);
    for (const word of [
      'Quib',
      'shoulder',
      'slept',
      'knees',
      'hinge',
      'hands-on',
      'Early',
      '2031-03',
    ])
      expect(text).not.toContain(word);
    expect((await entriesIn(here)).map((row) => Object.keys(row).sort().join())).toEqual([
      ...['id,order,sealed,session,tells,type', 'id,order,sealed,session,type'],
      ...['id,order,sealed,session,tells,type', 'id,order,sealed,session,tells,type'],
    ]);
    expect((await entriesIn(here)).map(({ type }) => type)).toEqual([
      ...['sealed-started', 'sealed', 'sealed', 'sealed-ended'],
    ]);
  });

  it('is whole again with its passphrase after the page was loaded anew, and so is what comes then', async () => {
    const before = await (await filled()).keeping.whole();
    const again = await reopened(await locked());
    expect(await again.keeping.whole()).toEqual(before);
    expect(await again.people.all()).toEqual([PERSON]);
    expect(await again.notes.last('p1')).toEqual(NOTE);
    expect(await again.keeping.damage()).toEqual([]);
    expect(await stored(again.records, started('tue'))).toBeNull();
    await again.people.save([{ ...PERSON, mindText: 'left hip' }]);
    expect(await everything(again)).not.toContain('left hip');
    expect(await (await reopened(again)).records.read('tue')).toEqual([started('tue')]);
  });

  it('is told and not read without it, and nothing of it changes', async () => {
    const here = await locked();
    const without = reloaded(here);
    const readings = [
      () => without.records.sessions(),
      () => without.records.outcomes(),
      () => without.records.read('mon'),
      () => without.people.all(),
      () => without.notes.of('mon'),
      () => without.keeping.whole(),
    ];
    for (const read of readings)
      await expect(read()).rejects.toThrow(/The record is locked.*passphrase/);
  });

  it('does not open with a wrong passphrase, and loses nothing', async () => {
    const here = await locked();
    const before = await everything(here);
    const again = reloaded(here);
    for (const wrong of ['', 'kettle under violet', OTHER]) {
      const opening = again.lock.open(wrong);
      await expect(opening).rejects.toBeInstanceOf(WrongPassphrase);
      await expect(opening).rejects.toThrow(/does not open the record. Nothing was lost/);
    }
    await expect(again.lock.change(OTHER, OTHER)).rejects.toBeInstanceOf(WrongPassphrase);
    await expect(again.lock.turnOff(OTHER)).rejects.toBeInstanceOf(WrongPassphrase);
    expect(again.vault.open).toBeNull();
    expect(await everything(here)).toBe(before);
    await again.lock.open(PASSPHRASE);
    expect(await again.records.read('mon')).toEqual(MON);
  });

  it('gets another passphrase without a row written anew; the old one opens nothing from then on', async () => {
    const here = await locked();
    const before = await entriesIn(here);
    await here.lock.change(PASSPHRASE, OTHER);
    expect(await entriesIn(here)).toEqual(before);
    await expect(reloaded(here).lock.open(PASSPHRASE)).rejects.toBeInstanceOf(WrongPassphrase);
    expect(await (await reopened(here, OTHER)).records.read('mon')).toEqual(MON);
  });

  it('lies open again once the lock is off', async () => {
    const here = await locked();
    await here.lock.turnOff(PASSPHRASE);
    await here.lock.settle();
    expect(await here.lock.state()).toBe('off');
    const again = reloaded(here);
    expect(await again.records.read('mon')).toEqual(MON);
    expect(await again.keeping.whole()).toEqual(await (await filled()).keeping.whole());
  });

  it('has a key that no script can take out, and as many rounds as the file has', async () => {
    const { indexedDB } = device();
    const here = device(indexedDB);
    await createDexieLock('sayso', here.database, here.vault).turnOn(PASSPHRASE);
    expect(here.vault.open?.key.extractable).toBe(false);
    const [row] = await behind(indexedDB, (db) => db.table('locks').toArray());
    expect(row).toMatchObject({ iterations: ITERATIONS });
  });
});

describe('a locked row that is not as it was written', () => {
  type Table = 'entries' | 'people' | 'notes';
  const change = (
    { indexedDB }: Device,
    name: Table,
    how: (rows: { sealed: Uint8Array; session?: string; tells?: 1 }[]) => void,
  ) =>
    behind(indexedDB, async (db) => {
      const rows = await db.table<{ sealed: Uint8Array; session?: string }>(name).toArray();
      how(rows);
      await db.table(name).bulkPut(rows);
    });

  it.each<[string, Parameters<typeof change>[2]]>([
    ['a bit of it turned', ([, row]) => void (row!.sealed[20]! ^= 1)],
    ['cut off', ([, row]) => void (row!.sealed = row!.sealed.slice(0, 40))],
    ['empty', ([, row]) => void (row!.sealed = new Uint8Array())],
    ['another one’s content', ([a, b]) => void ([a!.sealed, b!.sealed] = [b!.sealed, a!.sealed])],
    ['its mark for lists added', ([, row]) => void (row!.tells = 1)],
  ])('with %s is damage: said, and nothing graded from it', async (_, how) => {
    const here = await locked();
    await change(here, 'entries', how);
    await expect(here.records.read('mon')).rejects.toThrow(/Entry \d of this session was damaged/);
    expect((await here.keeping.damage()).map(({ id }) => id)).toContain('mon:rack:1');
  });

  it('is mended by a saved record, and lies under the key then', async () => {
    const here = await locked();
    const file = await here.keeping.whole();
    await change(here, 'entries', ([, row]) => void (row!.sealed[20]! ^= 1));
    await change(here, 'people', ([row]) => void (row!.sealed[20]! ^= 1));
    await change(here, 'notes', ([row]) => void (row!.sealed[20]! ^= 1));
    expect(await here.people.all()).toEqual([]);
    expect(await here.keeping.bringIn(file)).toMatchObject({ entriesMended: 1, peopleAdded: 1 });
    expect(await here.keeping.whole()).toEqual(file);
    expect(await everything(here)).not.toMatch(/Quib|slept|knees/);
  });
});

describe('where locking is broken off', () => {
  const many = Array.from({ length: 11 }, (_, at) => finding('mon', at + 4));
  const kill = new Error('killed');
  /** Breaks off when so many rows are left or fewer; the page is loaded anew. */
  const brokenOff = (here: Device, left: number) =>
    here.lock
      .settle((now) => {
        if (now <= left) throw kill;
      })
      .catch(() => undefined);

  it.each([15, 10, 5, 0])(
    'with %d rows left, on the way in and on the way out, all is read and it goes on',
    async (left) => {
      const here = await filled(many);
      await here.lock.turnOn(PASSPHRASE);
      await brokenOff(here, left);
      const sealed = async (of: Device) =>
        (await entriesIn(of)).filter(({ type }) => type.startsWith('sealed')).length;
      expect(await sealed(here)).toBe(15 - left);
      const again = await reopened(here);
      expect(await again.records.read('mon')).toEqual([...MON, ...many]);
      await again.lock.settle();
      expect(await sealed(again)).toBe(15);
      await again.lock.turnOff(PASSPHRASE);
      await brokenOff(again, left);
      const last = await reopened(again);
      expect(await last.records.read('mon')).toEqual([...MON, ...many]);
      // What is written on the way out lies open.
      expect(await stored(last.records, started('tue'))).toBeNull();
      await last.lock.settle();
      expect(await last.lock.state()).toBe('off');
      expect(await reloaded(last).records.read('mon')).toEqual([...MON, ...many]);
      expect(await sealed(last)).toBe(0);
    },
  );
});

describe('another window of a record that is locked meanwhile', () => {
  it('goes on storing its session, which is sealed when the record is opened next', async () => {
    const other = await filled();
    const here = reloaded(other);
    await here.lock.turnOn(PASSPHRASE);
    await here.lock.settle();
    expect(await stored(other.records, started('tue'))).toBeNull();
    expect(await stored(other.records, finding('tue', 1))).toBeNull();
    const again = await reopened(here);
    expect(await again.records.read('tue')).toEqual([started('tue'), finding('tue', 1)]);
    await again.lock.settle();
    expect(await everything(again)).not.toContain('knees');
  });

  it('cannot lock it a second time, and asks for the new passphrase where it was locked anew', async () => {
    const here = await locked();
    await expect(reloaded(here).lock.turnOn(OTHER)).rejects.toThrow();
    const other = await reopened(here);
    await here.lock.turnOff(PASSPHRASE);
    await here.lock.settle();
    await here.lock.turnOn(OTHER);
    await here.lock.settle();
    // No damage: the key is of a lock that is gone.
    await expect(other.records.read('mon')).rejects.toThrow(/The record is locked/);
    expect(await stored(other.records, finding('mon', 9))).toBeNull();
    expect(await (await reopened(here, OTHER)).records.read('mon')).toEqual([
      ...MON,
      finding('mon', 9),
    ]);
  });
});

it('an empty device can be locked and opened', async () => {
  const here = device(new IDBFactory());
  await here.lock.turnOn(PASSPHRASE);
  await here.lock.settle();
  expect(await (await reopened(here)).records.sessions()).toEqual([]);
});
