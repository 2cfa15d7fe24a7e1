import { readFileSync } from 'node:fs';
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { describe, expect, it, vi } from 'vitest';
import { openByPerson, type OpenArea } from '../../src/domain/people/openFor';
import { consentMissing } from '../../src/domain/people/age';
import { createDexiePeople } from '../../src/records/dexiePeople';
import { createDexieRecords } from '../../src/records/dexieRecords';
import {
  InventedClubError,
  loadInventedClub,
  removeInventedClub,
} from '../../src/records/inventedClub';
import { keepTrying } from '../../src/records/keepTrying';
import { memoryPeople } from '../../src/records/memoryPeople';
import { memoryRecords } from '../../src/records/memoryRecords';
import { bookOf } from '../../src/cli/verb';
import { stored } from './contract';
import { ended, finding, started } from './entries';
import { handClock } from './handClock';
import { someone } from '../domain/people/someone';

const TODAY = '2026-11-25';
const fetched = (): unknown => JSON.parse(readFileSync('public/invented-club/club.json', 'utf8'));
const database = () => {
  const given = { indexedDB: new IDBFactory(), IDBKeyRange };
  return { people: createDexiePeople('test', given), records: createDexieRecords('test', given) };
};
const memory = () => ({ people: memoryPeople(), records: memoryRecords() });

describe.each([
  ['memory', memory],
  ["the browser's database", database],
  [
    'what is tried again',
    () => ({ ...memory(), records: keepTrying(memoryRecords(), handClock()) }),
  ],
])('the invented club in %s', (_, create) => {
  it('comes with twelve people and three visits of each, and leaves without a trace', async () => {
    const { people, records } = create();
    const own = [
      started('mon', '2026-11-20T09:00:00+01:00', 'a'),
      finding('mon', 1),
      ended('mon', 2),
    ];
    for (const entry of own) await stored(records, entry);
    await people.save([someone('a')]);
    const before = await records.sessions();

    await loadInventedClub(people, records, fetched(), TODAY);
    const invented = (await people.all()).filter(({ isInvented }) => isInvented);
    expect(invented).toHaveLength(12);
    const sessions = await records.sessions();
    for (const { id } of invented)
      expect(sessions.filter((head) => head.person === id)).toHaveLength(3);
    expect(sessions).toHaveLength(37);
    expect(await records.read(sessions[1]!.session)).not.toEqual([]);

    await removeInventedClub(people, records);
    expect(await people.all()).toEqual([someone('a')]);
    expect(await records.sessions()).toEqual(before);
    expect(await records.outcomes()).toHaveLength(1);
    expect(await records.read('mon')).toEqual(own);
    for (const { session } of sessions.filter(({ session: name }) => name !== 'mon'))
      expect(await records.read(session)).toEqual([]);
  });

  it('is replaced where it is loaded again on a later day', async () => {
    const { people, records } = create();
    await loadInventedClub(people, records, fetched(), TODAY);
    await loadInventedClub(people, records, fetched(), '2027-02-01');
    expect(await people.all()).toHaveLength(12);
    const sessions = await records.sessions();
    expect(sessions).toHaveLength(36);
    expect(sessions[0]!.startedAt.slice(0, 10)).toBe('2027-01-21');
  });

  it('is not let in where it would not leave again', async () => {
    const { people, records } = create();
    const club = fetched() as { people: object[]; sessions: { id: string }[][] };
    const [first, ...others] = club.people;
    const entry = { ...club.sessions[0]![0]!, id: 'mon:cli:1' };
    for (const wrong of [
      ...[null, 'club', {}, { ...club, format: 'other' }, { ...club, people: [null] }],
      { ...club, people: [{ ...first, isInvented: false }, ...others] },
      { ...club, people: [{ ...first, id: 'a' }, ...others] },
      { ...club, sessions: [[entry]] },
      { ...club, sessions: [[{}]] },
    ]) {
      const loading = loadInventedClub(people, records, wrong, TODAY);
      await expect(loading).rejects.toBeInstanceOf(InventedClubError);
      await expect(loading).rejects.toThrow(/Load this page anew/);
    }
    expect(await people.all()).toEqual([]);
    expect(await records.sessions()).toEqual([]);
  });

  it('comes whole or not at all', async () => {
    const { people, records } = create();
    const full = { ...records, addAll: vi.fn(() => Promise.reject(new Error('full'))) };
    await expect(loadInventedClub(people, full, fetched(), TODAY)).rejects.toThrow('full');
    expect(await people.all()).toEqual([]);
  });
});

describe('what the invented club shows', () => {
  it('is each way in which an area can stand, with some due again and one without consent', async () => {
    const { people, records } = memory();
    await loadInventedClub(people, records, fetched(), TODAY);
    const open = openByPerson(bookOf(), await records.outcomes(), TODAY);
    const all = [...open.values()].flatMap((each) => Object.values(each));
    const areas = all.filter((area): area is OpenArea => area !== null);
    const outcomes = new Set(areas.map(({ outcome }) => outcome));
    expect(outcomes).toEqual(new Set(['ready', 'working', 'referred', 'unfinished']));
    for (const isDue of [true, false])
      expect(areas.filter((area) => area.outcome === 'ready' && area.isDue === isDue)).not.toEqual(
        [],
      );
    expect(areas.filter(({ outcome, isDue }) => outcome === 'working' && isDue)).not.toEqual([]);
    expect(areas.filter(({ outcome, waits }) => outcome !== 'referred' && waits)).not.toEqual([]);
    const missing = (await people.all()).filter((one) => consentMissing(one, TODAY));
    expect(missing.map(({ name }) => name)).toEqual(['Ribbon Gravel']);
  });
});
