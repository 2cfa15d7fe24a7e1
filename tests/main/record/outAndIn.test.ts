import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { IDBObjectStore } from 'fake-indexeddb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { canonicalJson } from '../../../src/domain/keeping/canonical';
import { checksumOf } from '../../../src/domain/keeping/checksum';
import { RefusedRecord } from '../../../src/domain/keeping/wholeRecord';
import type { InventedClub } from '../../../src/domain/people/inventedClub';
import { readRecord } from '../../../src/main/record/reading';
import { entrySchema } from '../../../src/schemas/entry';
import { writeRecord } from '../../../src/main/record/writing';
import { someone } from '../../domain/people/someone';
import { damageEntry, device, type Device } from '../../records/device';
import { ended, finding, outcome, started } from '../../records/entries';
import { deeds, fullDevice, kept, MADE_AT, used } from './wholeRecords';

afterEach(() => void vi.restoreAllMocks());

const bytesOf = (text: string) => new TextEncoder().encode(text);
const out = async ({ keeping }: Device) => (await writeRecord(await keeping.whole(), MADE_AT)).text;
const into = async ({ keeping }: Device, text: string) =>
  keeping.bringIn(await readRecord(bytesOf(text)));

describe('a whole record', () => {
  it('comes out as one file, and into an empty device as it was', async () => {
    await fc.assert(
      fc.asyncProperty(deeds('a'), async (done) => {
        const [here, empty] = [await used(done), device()];
        await into(empty, await out(here));
        expect(await kept(empty)).toBe(await kept(here));
        expect(await out(empty)).toBe(await out(here));
        for (const { session, entries } of (await here.keeping.whole()).sessions)
          expect(await empty.records.read(session)).toEqual(entries);
      }),
      { numRuns: 40 },
    );
  });

  it('brought in twice is there once', async () => {
    await fc.assert(
      fc.asyncProperty(deeds('a'), deeds('b'), async (one, other) => {
        const [here, text] = [await used(one), await out(await used(other))];
        await into(here, text);
        const once = await kept(here);
        const again = await into(here, text);
        expect(await kept(here)).toBe(once);
        expect(again).toMatchObject({
          ...{ peopleAdded: 0, peopleChanged: 0, sessionsAdded: 0, entriesAdded: 0, notesAdded: 0 },
          ...{ entriesMended: 0, peopleErased: 0 },
        });
      }),
      { numRuns: 25 },
    );
  });

  it('of two devices is the same whichever takes in the other', async () => {
    await fc.assert(
      fc.asyncProperty(deeds('a'), deeds('b'), async (one, other) => {
        const [a, b] = [await used(one), await used(other)];
        const [fromA, fromB] = [await out(a), await out(b)];
        await into(a, fromB);
        await into(b, fromA);
        expect(await kept(a)).toBe(await kept(b));
      }),
      { numRuns: 40 },
    );
  });

  it('of a session that went on differently on two devices has both, in one order', async () => {
    const first = [started('mon'), finding('mon', 1), ended('mon', 2)];
    const [a, b] = [device(), device()];
    for (const here of [a, b]) await here.records.addAll(first);
    const later = (id: string, atSeconds: number) => ({ ...finding('mon', 3), id, atSeconds });
    await a.records.addAll([later('mon:x:3', 50), later('mon:x:4', 90)]);
    await b.records.addAll([later('mon:y:3', 70)]);
    const [fromA, fromB] = [await out(a), await out(b)];
    expect(await into(a, fromB)).toMatchObject({ sessionsAdded: 0, entriesAdded: 1 });
    await into(b, fromA);
    const ids = (await a.records.read('mon')).map(({ id }) => id);
    expect(ids).toEqual([
      'mon:rack:0',
      'mon:rack:1',
      'mon:rack:2',
      'mon:x:3',
      'mon:y:3',
      'mon:x:4',
    ]);
    expect(await b.records.read('mon')).toEqual(await a.records.read('mon'));
  });

  it('tells before and after what is new, and a trial changes nothing', async () => {
    const [here, empty] = [await fullDevice(), device()];
    const record = await readRecord(bytesOf(await out(here)));
    const counts = {
      ...{ peopleAdded: 1, peopleChanged: 0, sessionsAdded: 2, entriesAdded: 6, notesAdded: 1 },
      ...{ entriesMended: 0, stayErased: 0, peopleErased: 0 },
    };
    const nothing = await kept(empty);
    expect(await empty.keeping.bringIn(record, true)).toEqual(counts);
    expect(await kept(empty)).toBe(nothing);
    expect(await empty.keeping.bringIn(record)).toEqual(counts);
  });

  it('leaves the invented club at home', async () => {
    const here = await fullDevice();
    const without = await out(here);
    await here.people.save([someone('invented-1', { isInvented: true })]);
    await here.records.addAll([started('invented-1-visit', undefined, 'invented-1')]);
    await here.notes.add({
      ...{
        id: 'n9',
        session: 'invented-1-visit',
        person: 'invented-1',
        text: 'x',
        writtenAt: MADE_AT,
      },
    });
    expect(await out(here)).toBe(without);
  });

  it('takes who was changed last, also where the clock was set back meanwhile', async () => {
    let now = Date.parse('2031-03-01T12:00:00Z');
    const here = device(undefined, () => now);
    await here.people.save([someone('p1', { name: 'Quib Marn' })]);
    const before = await out(here);
    now -= 3_600_000;
    await here.people.save([someone('p1', { name: 'Quib Ashgrove' })]);
    expect(await into(here, before)).toMatchObject({ peopleChanged: 0 });
    expect(await here.people.all()).toMatchObject([{ name: 'Quib Ashgrove' }]);
  });

  it('has every kind of entry: all that the invented club says is understood', () => {
    const club = JSON.parse(readFileSync('public/invented-club/club.json', 'utf8')) as InventedClub;
    const entries = club.sessions.flat();
    const wrong = entries.filter((entry) => !entrySchema.safeParse(entry).success);
    expect(wrong).toEqual([]);
    expect(entries.length).toBeGreaterThan(1000);
  });
});

describe('a record in which something is damaged', () => {
  const damagedDevice = async () => {
    const here = await fullDevice();
    await damageEntry(here, 'mon:rack:1', { result: 'held' });
    return here;
  };

  it('comes out with the damage in its place, and shows it on the other device', async () => {
    const [here, other] = [await damagedDevice(), device()];
    const { text, setAside } = await writeRecord(await here.keeping.whole(), MADE_AT);
    expect(setAside).toBe(1);
    await into(other, text);
    await expect(other.records.read('mon')).rejects.toThrow(/Entry 2 of this session was damaged/);
    expect(await other.keeping.upToDamage('mon')).toMatchObject({
      entries: [started('mon', undefined, 'p1')],
    });
    expect(
      (await other.records.outcomes()).find(({ head }) => head.session === 'mon'),
    ).toMatchObject({
      areas: [{ outcome: 'unfinished' }, { outcome: 'unfinished' }, { outcome: 'unfinished' }],
    });
    expect(await out(other)).toBe(text);
  });

  it('is whole again once a record that has the entry as it was written is brought in', async () => {
    const [whole, here] = [await out(await fullDevice()), await damagedDevice()];
    expect(await into(here, whole)).toMatchObject({ entriesMended: 1, entriesAdded: 0 });
    expect(await here.records.read('mon')).toHaveLength(4);
    expect(await out(here)).toBe(whole);
  });

  it('does not take an entry for the lost one that is not', async () => {
    const [here, other] = [await damagedDevice(), device()];
    const [start, , ...rest] = [
      started('mon', undefined, 'p1'),
      0,
      outcome('mon', 2, 'hinge'),
    ] as const;
    await other.records.addAll([start, { ...finding('mon', 1), result: 'held' }, ...rest]);
    expect(await into(here, await out(other))).toMatchObject({ entriesMended: 0 });
    await expect(here.records.read('mon')).rejects.toThrow(/damaged/);
  });

  it('keeps an entry that this version does not know until one comes that does', async () => {
    const here = device();
    const unknown = { ...finding('mon', 1), type: 'juggled' } as unknown as ReturnType<
      typeof finding
    >;
    await here.records.addAll([started('mon'), unknown]);
    const { text, setAside } = await writeRecord(await here.keeping.whole(), MADE_AT);
    expect(setAside).toBe(1);
    expect(text).toContain('juggled');
    await into(device(), text);
  });

  it('has an entry whole that an older version had set aside, once it is understood', async () => {
    const here = await fullDevice();
    const { sessions, ...rest } = await here.keeping.whole();
    const aside = sessions.map(({ session, entries }) => ({
      session,
      entries: entries.map((item) =>
        item.type === 'damaged'
          ? item
          : {
              ...{ type: 'damaged' as const, id: item.id },
              ...{ checksum: checksumOf(item), was: canonicalJson(item) },
            },
      ),
    }));
    const { text } = await writeRecord({ ...rest, sessions: aside }, MADE_AT);
    const empty = device();
    await into(empty, text);
    expect(await kept(empty)).toBe(await kept(here));
  });
});

describe('a record that cannot be brought in changes nothing', () => {
  it('where an entry has the id of one here and other content, with its place', async () => {
    const [here, other] = [await fullDevice(), device()];
    await other.people.save([someone('p9')]);
    await other.records.addAll([started('aaa'), started('mon', undefined, 'p1')]);
    await other.records.addAll([{ ...finding('mon', 1), result: 'held' }]);
    const before = await kept(here);
    const refused = into(here, await out(other));
    await expect(refused).rejects.toBeInstanceOf(RefusedRecord);
    await expect(refused).rejects.toMatchObject({ place: 'sessions[1].entries[1]' });
    await expect(refused).rejects.toThrow(
      /"mon:rack:1" with other content.*Nothing was brought in/,
    );
    expect(await kept(here)).toBe(before);
  });

  it('where a note has the id of one here and other words', async () => {
    const [here, other] = [await fullDevice(), device()];
    await other.notes.add({
      ...{ id: 'n1', session: 'mon', person: 'p1', text: 'wild' },
      writtenAt: MADE_AT,
    });
    const before = await kept(here);
    await expect(into(here, await out(other))).rejects.toMatchObject({ place: 'notes[0]' });
    expect(await kept(here)).toBe(before);
  });

  it('where the device has no room for the last of it', async () => {
    const [here, text] = [device(), await out(await fullDevice())];
    const add = IDBObjectStore.prototype.add;
    let left = 4;
    vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (
      this: IDBObjectStore,
      ...row
    ) {
      left -= 1;
      if (left < 0) throw new DOMException('no', 'QuotaExceededError');
      return add.apply(this, row);
    });
    await expect(into(here, text)).rejects.toMatchObject({ problem: { reason: 'full' } });
    vi.restoreAllMocks();
    expect(await here.keeping.whole()).toEqual({ people: [], sessions: [], notes: [], erased: [] });
  });
});
