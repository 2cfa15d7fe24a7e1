import { describe, expect, it } from 'vitest';
import { readRecord } from '../../../src/main/record/reading';
import { writeRecord } from '../../../src/main/record/writing';
import { RecordError } from '../../../src/records/problems';
import { someone } from '../../domain/people/someone';
import { behind, device, type Device } from '../../records/device';
import { ended, finding, outcome, started } from '../../records/entries';
import { MADE_AT } from './wholeRecords';

const session = [
  started('mon', undefined, 'p1'),
  finding('mon', 1),
  outcome('mon', 2, 'hinge'),
  ended('mon', 3),
];
const athlete = someone('p1', {
  ...{ name: 'Quib Marn', squad: 'Mornings', birthYear: 2013, mindText: 'left wrist' },
});
const note = {
  id: 'n1',
  session: 'mon',
  person: 'p1',
  text: 'tired, slept badly',
  writtenAt: MADE_AT,
};

async function withAthlete(): Promise<Device> {
  const here = device();
  await here.people.save([athlete, someone('p2', { name: 'Vennel Ashgrove' })]);
  await here.records.addAll(session);
  await here.notes.add(note);
  return here;
}
const out = async ({ keeping }: Device) => (await writeRecord(await keeping.whole(), MADE_AT)).text;
const into = async ({ keeping }: Device, text: string) =>
  keeping.bringIn(await readRecord(new TextEncoder().encode(text)));
/** All that lies in the database, as text. */
const everything = ({ indexedDB }: Device) =>
  behind(indexedDB, async (db) =>
    JSON.stringify(await Promise.all(db.tables.map((table) => table.toArray()))),
  );
const PERSONAL = /Quib|Marn|Mornings|2013|left wrist|slept badly/;

describe('an athlete who is erased', () => {
  it('is nowhere on the device, nor in what is saved from it, and the entries stay whole', async () => {
    const here = await withAthlete();
    expect(await everything(here)).toMatch(PERSONAL);
    await here.people.remove(['p1']);
    expect(await everything(here)).not.toMatch(PERSONAL);
    expect(await out(here)).not.toMatch(PERSONAL);
    expect(await here.records.read('mon')).toEqual(session);
    expect(await here.keeping.damage()).toEqual([]);
    expect((await here.people.all()).map(({ id }) => id)).toEqual(['p2']);
  });

  it('leaves a tombstone that says who by a random name alone', async () => {
    const here = await withAthlete();
    await here.people.remove(['p1']);
    const { erased } = await here.keeping.whole();
    expect(erased).toEqual([{ id: 'p1', kind: 'person', erasedAt: '2031-03-01T12:00:00.000Z' }]);
  });

  it('does not come back with a record that was saved before, and that is told', async () => {
    const here = await withAthlete();
    const before = await out(here);
    await here.people.remove(['p1']);
    const after = await out(here);
    expect(await into(here, before)).toMatchObject({
      stayErased: 1,
      peopleAdded: 0,
      notesAdded: 0,
    });
    expect(await out(here)).toBe(after);
    expect(await everything(here)).not.toMatch(PERSONAL);
  });

  it('goes from the other device too, with the notes, when the record comes there', async () => {
    const [here, other] = [await withAthlete(), device()];
    await into(other, await out(here));
    await other.notes.add({ ...note, id: 'n2' });
    await here.people.remove(['p1']);
    expect(await into(other, await out(here))).toMatchObject({ peopleErased: 1, peopleAdded: 0 });
    expect(await everything(other)).not.toMatch(PERSONAL);
    expect(await other.records.read('mon')).toEqual(session);
  });

  it('stays erased on a third device, whichever of the two others it hears of first', async () => {
    const here = await withAthlete();
    const before = await out(here);
    await here.people.remove(['p1']);
    const after = await out(here);
    for (const order of [
      [before, after],
      [after, before],
    ]) {
      const third = device();
      for (const text of order) await into(third, text);
      expect(await everything(third)).not.toMatch(PERSONAL);
      expect(await out(third)).toBe(after);
    }
  });

  it('is not saved again, nor noted upon, by a window that was open meanwhile', async () => {
    const here = await withAthlete();
    const window = device(here.indexedDB);
    await window.people.all();
    await here.people.remove(['p1']);
    const saving = window.people.save([{ ...athlete, name: 'Quib M.' }, someone('p3')]);
    await expect(saving).rejects.toBeInstanceOf(RecordError);
    await expect(saving).rejects.toThrow(/were erased on this device/);
    await expect(window.notes.add({ ...note, id: 'n3' })).rejects.toThrow(
      /were erased on this device/,
    );
    expect((await here.people.all()).map(({ id }) => id)).toEqual(['p2']);
    expect(await everything(here)).not.toMatch(PERSONAL);
  });

  it('keeps nobody else from being erased, added or changed', async () => {
    const here = await withAthlete();
    await here.people.remove(['p1', 'never']);
    await here.people.save([someone('p2', { name: 'Vennel A.' }), someone('p4')]);
    expect((await here.people.all()).map(({ id }) => id)).toEqual(['p2', 'p4']);
    expect((await here.keeping.whole()).erased).toHaveLength(1);
  });

  it('leaves no tombstone where they were of the invented club, which may come again', async () => {
    const here = device();
    const invented = someone('invented-1', { isInvented: true });
    await here.people.save([invented]);
    await here.people.remove(['invented-1']);
    expect((await here.keeping.whole()).erased).toEqual([]);
    await here.people.save([invented]);
    expect(await here.people.all()).toEqual([invented]);
  });
});

describe('a note that is removed', () => {
  it('does not come back with a record that was saved before', async () => {
    const here = await withAthlete();
    const before = await out(here);
    await here.notes.remove('n1');
    expect(await into(here, before)).toMatchObject({ notesAdded: 0 });
    expect(await here.notes.of('mon')).toEqual([]);
    expect(await everything(here)).not.toMatch(/slept badly/);
  });
});
