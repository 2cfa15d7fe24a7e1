import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { guessColumns } from '../../src/domain/people/columns';
import { importPeople } from '../../src/domain/people/importing';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import type { Person } from '../../src/domain/people/person';
import { createPeoplePlace } from '../../src/main/people/peoplePlace';
import { createVisitPlace } from '../../src/main/people/visitPlace';
import { memoryNotes } from '../../src/records/memoryNotes';
import { memoryPeople } from '../../src/records/memoryPeople';
import { memoryRecords } from '../../src/records/memoryRecords';
import { createSeatStore } from '../../src/screens/seat';
import { createMannerShelf } from '../../src/main/mannerShelf';
import { sharedManner, USUAL_MANNER } from '../../src/voice/manner';
import { behind, device } from '../records/device';
import { STATE } from '../screens/fakeSeat';

const NOW = Date.parse('2031-06-15T12:00:00Z');
const clock = { now: () => NOW, setTimeout: () => null, clearTimeout: () => undefined };
const MARN: Person = {
  ...{ id: 'marn', name: 'Quib Marn', squad: null, birthYear: 1999, sex: null },
  ...{ statureMillimetres: 1750, kneeMillimetres: null, angleTool: 'inclinometer' },
  ...{ mindText: '', guardianAgreedOn: null, isInvented: false },
};
const club = (): unknown =>
  JSON.parse(
    readFileSync(new URL('../../public/invented-club/club.json', import.meta.url), 'utf8'),
  );

afterEach(() => vi.unstubAllGlobals());

function place(people = memoryPeople(), manner = sharedManner()) {
  const store = createSeatStore({ ...STATE, where: 'people', book: bookOf() });
  const records = memoryRecords();
  const assetsBase = 'http://gym.test/';
  const files: [name: string, text: string][] = [];
  const made = createPeoplePlace({
    ...{ assetsBase, book: bookOf(), people, records, clock, store, manner },
    handOver: (name, text) => files.push([name, text]),
  });
  const { notes } = memoryNotes(people);
  const visits = createVisitPlace({
    ...{ book: bookOf(), records, notes, clock, store },
    keeping: { upToDamage: async () => ({ entries: [], damage: null }) },
    lookAtPeople: made.look,
  });
  return { place: made, visits, store, records, files, all: () => store.state().people.all };
}
const serve = (answer: () => unknown) =>
  vi.stubGlobal('fetch', async () => ({ json: async () => answer() }));

describe('people at the seat', () => {
  it('are kept, shown by name, and a session is told who it is and what was measured', async () => {
    const { place: people, all } = place();
    expect(await people.save([MARN, { ...MARN, id: 'ash', name: 'Ash Vennel' }])).toBeNull();
    expect(all().map(({ person }) => person.name)).toEqual(['Ash Vennel', 'Quib Marn']);
    expect(people.forSession()).toEqual({});
    people.toGate('marn');
    expect(people.forSession()).toEqual({
      person: 'marn',
      athlete: { ageYears: 31, statureMillimetres: 1750 },
      angleTool: 'inclinometer',
    });
  });

  it('after a session one is at their page, and where nobody was named at the list', () => {
    const { place: people, store } = place();
    store.patch({ where: 'finished' });
    expect(people.placeAfter()).toBe('people');
    store.patch({ where: 'voiceCheck' });
    expect(people.placeAfter()).toBe('gate');
  });

  it('a deleted one is gone, and the list is shown', async () => {
    const { place: people, store, all } = place();
    await people.save([MARN]);
    people.showOne('marn');
    expect(people.placeAfter()).toBe('athlete');
    expect(await people.remove('marn')).toBeNull();
    expect(all()).toEqual([]);
    expect(store.state().where).toBe('people');
  });

  it('that cannot be kept say what to do, and change nothing', async () => {
    const broken = { ...memoryPeople(), save: () => Promise.reject(new Error('no')) };
    const { place: people, all } = place(broken);
    expect(await people.save([MARN])).toMatch(/could not be kept.*try it again/);
    expect(all()).toEqual([]);
  });
});

/** The page's storage, as text. */
function shelved() {
  let text: string | null = null;
  const storage = {
    getItem: () => text,
    setItem: (_: string, next: string) => void (text = next),
  } as unknown as Storage;
  return { shelf: createMannerShelf(() => storage), text: () => text ?? '' };
}

describe('how loud and how fast somebody is spoken to', () => {
  const ASH = { ...MARN, id: 'ash', name: 'Ash Vennel' };
  /** Both were adjusted to, and so was nobody in particular. */
  function adjusted(people = memoryPeople()) {
    const { shelf, text } = shelved();
    const manner = sharedManner(shelf);
    manner.adjust('louder');
    for (const id of ['marn', 'ash']) {
      manner.speakFor('hands-on', id);
      manner.adjust('slower');
    }
    return { ...place(people, manner), people, manner, text };
  }

  it('is forgotten with them, and nobody else is', async () => {
    const { place: seat, manner, text } = adjusted();
    await seat.save([MARN, ASH]);
    expect(text()).toMatch(/marn.*ash|ash.*marn/);
    expect(await seat.remove('ash')).toBeNull();
    expect(text()).not.toContain('ash');
    expect(text()).toContain('marn');
    // What is spoken next, too, is as to nobody in particular.
    expect(manner.now()).toEqual({ ...USUAL_MANNER, volume: 1 });
    manner.speakFor('hands-on', 'marn');
    expect(manner.now().stretch).toBeGreaterThan(1);
  });

  it('is forgotten with the invented club', async () => {
    const { place: seat, text } = adjusted();
    await seat.save([MARN, { ...ASH, isInvented: true }]);
    expect(await seat.removeInvented()).toBeNull();
    expect(text()).not.toContain('ash');
    expect(text()).toContain('marn');
  });

  it('is forgotten where a record that was brought in erases them', async () => {
    const [here, other] = [device(), device()];
    const { place: seat, text } = adjusted(here.people);
    await seat.save([MARN, ASH]);
    await other.people.save([ASH]);
    await other.people.remove(['ash']);
    await here.keeping.bringIn(await other.keeping.whole());
    await seat.look();
    expect(text()).not.toContain('ash');
    expect(text()).toContain('marn');
  });

  it('stays where the people cannot be read', async () => {
    const broken = { ...memoryPeople(), all: () => Promise.reject(new Error('no')) };
    const { place: seat, text } = adjusted(broken);
    await seat.look();
    expect(text()).toMatch(/marn.*ash|ash.*marn/);
  });

  it('stays where one of them is damaged under the lock, and cannot be read', async () => {
    const here = device();
    await here.people.save([MARN, ASH]);
    await here.lock.turnOn('kettle under violet ladder');
    await here.lock.settle();
    await behind(here.indexedDB, (db) =>
      db.table('people').update('ash', { sealed: new Uint8Array(40) }),
    );
    const { place: seat, text, all } = adjusted(here.people);
    await seat.look();
    expect(all().map(({ person }) => person.id)).toEqual(['marn']);
    expect(text()).toMatch(/marn.*ash|ash.*marn/);
    expect(await seat.remove('ash')).toBeNull();
    expect(text()).not.toContain('ash');
  });
});

describe('lists at the seat', () => {
  const csv = (text: string) => new Blob([text]);

  it('are read from a file, and nothing of it is kept by that', async () => {
    const { place: people, all } = place();
    people.showImport();
    const read = await people.readSheet(csv('Name;Born\nŽo Marn;1999'));
    expect(read).toMatchObject({
      sheet: { columns: [{ title: 'Name' }, { title: 'Born' }], rows: [{ line: 2 }] },
    });
    expect(all()).toEqual([]);
  });

  it('say what to do where a file is none, is too large, or cannot be opened any more', async () => {
    const { place: people } = place();
    const said = async (file: Blob) => {
      const read = await people.readSheet(file);
      return 'say' in read ? read.say : null;
    };
    expect(await said(csv(''))).toMatch(/The file is empty/);
    const huge = new Blob([]);
    Object.defineProperty(huge, 'size', { value: 3e9 });
    huge.arrayBuffer = () => Promise.reject(new Error('must not be read'));
    expect(await said(huge)).toMatch(/at most 5 MB/);
    const gone = new Blob([]);
    gone.arrayBuffer = () => Promise.reject(new DOMException('changed', 'NotReadableError'));
    expect(await said(gone)).toMatch(/could not be opened. Close it in other programs/);
  });

  it('are taken out without the invented, named by the day, and come in again the same', async () => {
    serve(club);
    const { place: people, files } = place();
    await people.save([MARN]);
    await people.showInvented();
    expect(await people.takeOut('who')).toEqual({ file: 'sayso-athletes-2031-06-15.csv' });
    const [[name, text] = []] = files;
    expect(name).toBe('sayso-athletes-2031-06-15.csv');
    expect(text?.trim().split('\r\n')).toHaveLength(2);
    const read = await people.readSheet(csv(text ?? ''));
    if ('say' in read) throw new Error(read.say);
    const { rows, columns } = read.sheet;
    const options = { today: '2031-06-15', newId: () => 'marn', known: [] };
    expect(importPeople(rows, columns, guessColumns(columns), options).people).toEqual([MARN]);
  });

  it('tell how they stand, and of the invented club where nobody else is there', async () => {
    serve(club);
    const { place: people, files } = place();
    await people.showInvented();
    expect(await people.takeOut('standing')).toEqual({
      file: 'sayso-invented-standing-2031-06-15.csv',
    });
    const lines = files[0]?.[1].trim().split('\r\n') ?? [];
    expect(lines).toHaveLength(13);
    expect(lines[0]).toMatch(/Name,Squad,overhead/);
    expect(lines.join()).toMatch(/working,\d/);
  });

  it('that the device refuses say what to do', async () => {
    const { place: people, files } = place();
    files.push = () => {
      throw new DOMException('no', 'SecurityError');
    };
    expect(await people.takeOut('who')).toEqual({ say: expect.stringMatching(/try it again/) });
  });

  it('stay narrowed while somebody of them is looked at', async () => {
    const { place: people, store } = place();
    people.narrow('due');
    people.showOne('marn');
    people.show();
    expect(store.state().people.only).toBe('due');
  });
});

describe('the invented club', () => {
  it('that is none says so in its own words', async () => {
    serve(() => ({ format: 'something else' }));
    expect(await place().place.showInvented()).toMatch(/is not the invented club.*Load this page/);
  });

  it('takes a session that was run with one of them away too, and no other', async () => {
    serve(club);
    const { place: people, records, all } = place();
    await people.save([MARN]);
    await people.showInvented();
    const [one] = all().filter(({ person }) => person.isInvented);
    const names = [people.nameSession(one!.person.id), people.nameSession('marn')];
    for (const session of names) {
      await records.addAll([
        {
          ...{ type: 'started', routine: 'hinge', language: 'en', way: 'hands-on' },
          ...{ startedAt: '2031-06-15T09:00:00+01:00', settings: DEFAULT_SETTINGS },
          ...{ id: `${session}:phone:1`, atSeconds: 0, person: one!.person.id },
        },
      ]);
    }
    await people.look();
    expect(await people.removeInvented()).toBeNull();
    expect((await records.sessions()).map(({ session }) => session)).toEqual([names[1]]);
  });

  it('comes with its visits and leaves with them; who is real stays', async () => {
    serve(club);
    const { place: people, all, records } = place();
    await people.save([MARN]);
    expect(await people.showInvented()).toBeNull();
    expect(all()).toHaveLength(13);
    expect(all().filter(({ person }) => person.isInvented && person.name !== '')).toHaveLength(12);
    expect(await people.removeInvented()).toBeNull();
    expect(all().map(({ person }) => person.id)).toEqual(['marn']);
    expect(await records.sessions()).toEqual([]);
  });

  it('that does not arrive says what to do', async () => {
    vi.stubGlobal('fetch', () => Promise.reject(new TypeError('offline')));
    const { place: people } = place();
    expect(await people.showInvented()).toMatch(/did not arrive. Connect/);
  });

  it('a visit of it is read with its timeline, beside the visit before with the same area', async () => {
    serve(club);
    const { place: people, visits: read, store, all } = place();
    await people.showInvented();
    const [visit] = all().flatMap(({ visits }) =>
      visits.filter(({ head }, at) =>
        visits.slice(at + 1).some((one) => one.head.routine === head.routine),
      ),
    );
    read.open(visit!.head.session);
    expect(store.state().where).toBe('visit');
    await vi.waitFor(() => expect(store.state().visit?.state).toBe('here'));
    const shown = store.state().visit;
    if (shown?.state !== 'here') throw new Error('not read');
    expect(shown.moments.map(({ type }) => type)).toEqual(
      expect.arrayContaining(['heard', 'decided']),
    );
    expect(Date.parse(shown.since!.before.startedAt)).toBeLessThan(
      Date.parse(shown.head.startedAt),
    );
    expect(shown.since!.told.areas.some(({ before, now }) => before && now)).toBe(true);
  });

  it('a visit whose areas no visit before had stands by itself', async () => {
    serve(club);
    const { place: people, visits: read, store, all } = place();
    await people.showInvented();
    // Button Thistle: the squat twice, then overhead for the first time.
    const visits = all().find(({ person }) => person.name === 'Button Thistle')?.visits ?? [];
    expect(visits.map(({ head }) => head.routine)).toEqual(['overhead', 'squat', 'squat']);
    await read.look(visits[0]!.head.session);
    expect(store.state().visit).toMatchObject({ state: 'here', since: null });
  });

  it('a session that is not there says that it cannot be read', async () => {
    const { visits, store } = place();
    await visits.look('nothing');
    expect(store.state().visit).toMatchObject({ state: 'trouble' });
  });
});
