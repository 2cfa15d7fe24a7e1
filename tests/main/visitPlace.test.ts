import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { saidFindings } from '../../src/domain/deciding/corrected';
import type { InventedClub } from '../../src/domain/people/inventedClub';
import { createPeoplePlace } from '../../src/main/people/peoplePlace';
import type { Keeping } from '../../src/records/dexieKeeping';
import { createVisitPlace } from '../../src/main/people/visitPlace';
import { memoryNotes } from '../../src/records/memoryNotes';
import { memoryPeople } from '../../src/records/memoryPeople';
import { memoryRecords } from '../../src/records/memoryRecords';
import { damageProblem } from '../../src/records/checked';
import { problem, RecordError } from '../../src/records/problems';
import type { ElsewhereState } from '../../src/screens/people/elsewhere';
import { createSeatStore } from '../../src/screens/seat';
import { sharedManner } from '../../src/voice/manner';
import { STATE } from '../screens/fakeSeat';

const NOW = Date.parse('2031-06-15T12:00:00Z');
const clock = { now: () => NOW, setTimeout: () => null, clearTimeout: () => undefined };
let club: InventedClub;
beforeAll(() => {
  club = JSON.parse(readFileSync('public/invented-club/club.json', 'utf8'));
});

/** A seat with the invented club; a visit that ended with the hinge ready is shown. */
async function seated(
  change: Partial<ReturnType<typeof memoryRecords>> = {},
  damaged: Awaited<ReturnType<Keeping['upToDamage']>> = { entries: [], damage: null },
) {
  const book = bookOf();
  const store = createSeatStore({ ...STATE, where: 'people', book });
  const memory = memoryRecords();
  const { notes, people } = memoryNotes(memoryPeople());
  await people.save(club.people);
  await memory.addAll(club.sessions.flat());
  const records = { ...memory, ...change };
  const { look: lookAtPeople } = createPeoplePlace({
    ...{ assetsBase: '', book, people, records, clock, store, manner: sharedManner() },
  });
  const saved: string[][] = [];
  const save = (...file: [string, BlobPart, string?]) => void saved.push(file.map(String));
  const keeping = { upToDamage: async () => damaged };
  const place = createVisitPlace({
    book,
    records,
    keeping,
    notes,
    clock,
    store,
    lookAtPeople,
    save,
  });
  const visit = () => {
    const shown = store.state().visit;
    if (shown?.state !== 'here') throw new Error('No visit is shown.');
    return shown;
  };
  const ready = (await memory.outcomes()).find(({ areas }) =>
    areas.some(({ outcome }) => outcome === 'ready'),
  )!.head.session;
  await Promise.all([lookAtPeople(), place.look(ready)]);
  return { place, store, records: memory, notes, visit, ready, saved };
}
/** What another tab does with the visit that was cut off. */
const RUNS: ElsewhereState = {
  ...{ session: 'cut', person: null, routine: 'hinge', step: null, phase: null, cue: null },
  ...{ heard: null, mayGoOnHere: true, isAsked: false, trouble: null },
};
const FAILED = { result: 'lost', faults: ['back-rounded'] } as const;

/** The last check of the visit, as failed. */
const lastCheck = ({ visit }: Awaited<ReturnType<typeof seated>>) => {
  const one = visit().record!.said.findLast(({ finding }) => finding.check !== null)!;
  return {
    ...{ finding: one.finding, of: one.of },
    said: { ...one.first, ...FAILED, faults: [...FAILED.faults] },
  };
};

describe('a visit that is corrected', () => {
  it('is added to the record, and shown anew on its page and in the list of people', async () => {
    const seat = await seated();
    const before = await seat.records.read(seat.ready);
    const { person } = seat.visit().head;
    expect(await seat.place.correct(lastCheck(seat))).toBeNull();
    const log = await seat.records.read(seat.ready);
    expect(log.slice(0, before.length)).toEqual(before);
    expect(log[before.length]).toMatchObject({ type: 'corrected', ...FAILED });
    expect(log.at(-1)).toMatchObject({ type: 'outcome' });
    expect(seat.visit().moments.at(-1)).toMatchObject({ type: 'stands', before: 'ready' });
    const now = seat.store.state().people.all.find((one) => one.person.id === person);
    const left = now?.visits.find(({ head }) => head.session === seat.ready)?.areas;
    expect(left?.map(({ outcome }) => outcome)).not.toContain('ready');
  });

  it('twice in one moment is kept twice', async () => {
    const seat = await seated();
    const one = lastCheck(seat);
    await Promise.all([seat.place.correct(one), seat.place.correct(one)]);
    const [said] = saidFindings(await seat.records.read(seat.ready)).filter(
      ({ finding }) => finding.id === one.finding.id,
    );
    expect(said?.corrections).toHaveLength(2);
  });

  it.each([
    ['full', /no room/],
    ['refused', /private window/],
    ['damaged', /other windows/],
    ['unknown', /Save it again/],
  ] as const)('that cannot be kept says so: %s', async (reason, says) => {
    const addAll = () => Promise.reject(new RecordError(null, problem(reason)));
    const seat = await seated({ addAll });
    const log = await seat.records.read(seat.ready);
    expect(await seat.place.correct(lastCheck(seat))).toMatch(says);
    expect(await seat.records.read(seat.ready)).toEqual(log);
  });

  it('that is damaged opens up to the damage, and nothing is graded from it', async () => {
    const damage = { session: 'any', id: 'any:rack:9', number: 9, isNewer: false };
    const { say } = damageProblem(damage);
    const read = () => Promise.reject(new RecordError(null, { reason: 'damaged', say }));
    const entries = club.sessions.find((one) => one.length > 20)!.slice(0, 9);
    const { place, store, ready } = await seated({ read }, { entries, damage });
    await place.look(ready);
    const visit = store.state().visit;
    expect(visit).toMatchObject({ state: 'trouble', trouble: say });
    const ids = entries.map(({ id }) => id);
    const upTo = visit?.state === 'trouble' ? (visit.upTo ?? []) : [];
    expect(upTo.length).toBeGreaterThan(0);
    for (const { id } of upTo) expect(ids.some((each) => id.startsWith(each))).toBe(true);
  });

  it('of a rehearsal is never corrected or noted', async () => {
    const seat = await seated();
    const log = await seat.records.read(seat.ready);
    const name = (id: string) => id.replace(seat.ready, 'rehearsal-1');
    await seat.records.addAll(log.map((entry) => ({ ...entry, id: name(entry.id) })));
    await seat.place.look('rehearsal-1');
    expect(seat.visit().head.session).toBe('rehearsal-1');
    expect(seat.visit().record).toBeUndefined();
  });

  it('was cut off: it is closed, not offered again, and may be corrected then', async () => {
    const seat = await seated();
    const log = (await seat.records.read(seat.ready)).filter(({ type }) => type !== 'ended');
    const name = (id: string) => id.replace(seat.ready, 'cut');
    await seat.records.addAll(log.map((entry) => ({ ...entry, id: name(entry.id) })));
    await seat.place.look('cut');
    expect(seat.visit().record?.isCutOff).toBe(true);
    const other = { ...seat.visit().head, session: 'other' };
    seat.store.patch({
      unfinished: [seat.visit().head, other].map((head) => ({ head, open: null, trouble: null })),
    });
    expect(await seat.place.correct(lastCheck(seat))).not.toBeNull();
    seat.store.patch({ elsewhere: RUNS });
    expect(await seat.place.close()).toMatch(/runs in another tab/);
    expect(seat.visit().record?.isCutOff).toBe(true);
    seat.store.patch({ elsewhere: null });
    expect(await seat.place.close()).toBeNull();
    expect(seat.store.state().unfinished.map(({ head }) => head)).toEqual([other]);
    expect(seat.visit().record?.isCutOff).toBe(false);
    expect(await seat.place.correct(lastCheck(seat))).toBeNull();
  });
});

describe('notes on a visit', () => {
  it('are kept with their moment and whose visit it is, shown, and deleted', async () => {
    const seat = await seated();
    const { person } = seat.visit().head;
    expect(await seat.place.addNote('  Slept badly. ')).toBeNull();
    const [note] = seat.visit().record!.notes!;
    expect(note).toMatchObject({ text: 'Slept badly.', person, session: seat.ready });
    expect(Date.parse(note!.writtenAt)).toBe(NOW);
    expect(await seat.place.lastNote(person!)).toEqual(note);
    expect(await seat.records.read(seat.ready)).not.toContainEqual(
      expect.objectContaining({ text: 'Slept badly.' }),
    );
    expect(await seat.place.removeNote(note!.id)).toBeNull();
    expect(seat.visit().record!.notes).toEqual([]);
  });

  it('are no longer than 2,000 letters, and not empty', async () => {
    const { place, visit } = await seated();
    expect(await place.addNote(' ')).toMatch(/nothing in it/);
    expect(await place.addNote('x'.repeat(2001))).toMatch(/2001 letters; at most 2000/);
    expect(await place.addNote('🏋'.repeat(2000))).toBeNull();
    expect(visit().record!.notes).toHaveLength(1);
  });

  it('that cannot be read hide no visit, and one that cannot be kept says so', async () => {
    const seat = await seated();
    seat.notes.of = () => Promise.reject(new Error('no'));
    seat.notes.add = () => Promise.reject(new RecordError(null, problem('full')));
    seat.notes.last = () => Promise.reject(new Error('no'));
    expect(await seat.place.addNote('Slept badly.')).toMatch(/no room/);
    await seat.place.look(seat.ready);
    expect(seat.visit().record?.notes).toBeNull();
    expect(await seat.place.lastNote('anybody')).toBeNull();
  });
});

describe('the readiness sheet of a visit', () => {
  const wanted = { as: 'html', nameAs: 'none', hasNotes: false } as const;

  it.each([
    ['html', '.html', /^<!doctype html>/i],
    ['text', '.txt', /^Homework$/m],
    ['csv', '.csv', /,/],
    ['fhir', '.json', /"resourceType":"Bundle"/],
  ] as const)('is saved as %s, in a file that names nobody', async (as, ending, text) => {
    const seat = await seated();
    expect(await seat.place.saveSheet({ ...wanted, as })).toBeNull();
    const [[name, written] = []] = seat.saved;
    expect(name).toBe(`readiness-${seat.visit().head.startedAt.slice(0, 10)}${ending}`);
    expect(written).toMatch(text);
  });

  it('names the athlete, and tells the notes, only where that is asked for', async () => {
    const seat = await seated();
    await seat.place.addNote('Slept badly.');
    const { name } = club.people.find(({ id }) => id === seat.visit().head.person)!;
    await seat.place.saveSheet(wanted);
    await seat.place.saveSheet({ ...wanted, nameAs: 'whole', hasNotes: true });
    const [without, withAll] = seat.saved.map(([, text]) => text!);
    expect(without).not.toContain(name);
    expect(without).not.toContain('Slept badly.');
    expect(without).toContain('An invented athlete: nobody was tested.');
    expect(withAll).toContain(name);
    expect(withAll).toContain('Slept badly.');
  });

  it('that cannot be written says so, and saves nothing', async () => {
    const seat = await seated();
    seat.notes.of = () => Promise.reject(new RecordError(null, problem('damaged')));
    expect(await seat.place.saveSheet({ ...wanted, hasNotes: true })).toBe(problem('damaged').say);
    expect(seat.saved).toEqual([]);
  });
});
