import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import type { Person } from '../../src/domain/people/person';
import { createPeoplePlace } from '../../src/main/people/peoplePlace';
import { createVisitPlace } from '../../src/main/people/visitPlace';
import { memoryPeople } from '../../src/records/memoryPeople';
import { memoryRecords } from '../../src/records/memoryRecords';
import { createSeatStore } from '../../src/screens/seat';
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

function place(people = memoryPeople()) {
  const store = createSeatStore({ ...STATE, where: 'people', book: bookOf() });
  const records = memoryRecords();
  const assetsBase = 'http://gym.test/';
  const made = createPeoplePlace({ assetsBase, book: bookOf(), people, records, clock, store });
  const visits = createVisitPlace({ book: bookOf(), records, store });
  return { place: made, visits, store, records, all: () => store.state().people.all };
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

describe('the invented club', () => {
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
