import { describe, expect, it, vi } from 'vitest';
import type { Travels } from '../../../src/screens/homework/state';
import { someone } from '../../domain/people/someone';
import { Telling } from '../../domain/deciding/logging';
import { device, type Device } from './device';
import { book } from './examples';

/** Waits for what comes when its part of the page has come. */
const until = (device: Device, at: string) =>
  vi.waitFor(() => expect(device.stage().at).toBe(at), { timeout: 15_000 });

/** A coach's device at a visit of Quib Marn, whose hinge is worked at with the bell. */
async function coach(person: string | null = 'quib') {
  const here = device();
  await here.keptPeople.save([someone('Quib Marn', { id: 'quib' }), someone('Zo', { id: 'zo' })]);
  const told = new Telling('hinge', 'hands-on', {}, book);
  told.lost('back-rounded').held(4);
  while (told.step.do === 'set') told.coach('next');
  while (told.step.do === 'check') told.lost('back-rounded');
  const [start, ...rest] = told.entries;
  const started = { ...start!, ...(person !== null && { person }) } as typeof start;
  await here.records.addAll(
    [started!, ...rest].map((entry, at) => ({ ...entry, id: `visit:rack:${at}` })),
  );
  await here.records.addAll([
    {
      ...{ type: 'outcome', area: 'hinge', outcome: 'working', rung: 2 },
      ...{ id: 'visit:rack:998', atSeconds: 9999 },
    },
    { type: 'ended', reason: 'completed', id: 'visit:rack:999', atSeconds: 9999 },
  ]);
  await here.people.look();
  await here.visits.look('visit');
  return here;
}

const made = (became: Travels | { say: string }): Travels => {
  if ('say' in became) throw new Error(became.say);
  return became;
};

/** The athlete's phone with that homework open. */
async function phone(link: string) {
  const here = device({ hash: link.slice(link.indexOf('#')) });
  await until(here, 'homework');
  return here;
}

async function doneOnce(here: Device) {
  here.homework.begin('hands');
  await until(here, 'done');
}

describe('homework goes over and comes back', () => {
  it('by link: consented to, done, sent back, and joined to the person it was handed to', async () => {
    const desk = await coach();
    const { link, code, file } = made(await desk.homework.handOver([]));
    expect(link).toMatch(/^https:\/\/gym\.example\/sayso\/#homework=[\w-]+$/);
    expect(code).not.toBeNull();
    expect(file).toBe('sayso-homework-2031-03-20.json');
    expect(await desk.homework.copyLink()).toBeNull();
    expect(desk.copied).toEqual([link]);

    const athlete = await phone(link!);
    expect(athlete.where()).toBe('homework');
    expect(athlete.stage()).toMatchObject({
      isKept: false,
      homework: { today: { tasks: [{ drill: 'bell-hinge', rung: 2 }] }, done: [] },
    });
    // Nothing is kept before it was agreed to.
    expect(athlete.storage.getItem('sayso-homework')).toBeNull();
    athlete.willAnswer([{ result: 'held' }, { result: 'lost' }]);
    await doneOnce(athlete);
    expect(athlete.address.hash()).toBe('');
    const back = made(await athlete.homework.sendBack());
    expect(back.sessions).toEqual({ all: 1, inLink: 1, inCode: 1 });
    expect(back.link!.length).toBeLessThan(1200);

    desk.openLink(back.link!);
    await until(desk, 'report');
    expect(desk.stage()).toMatchObject({ person: 'quib', sessions: [{ isHere: false }] });
    // Looked at, and nothing is in the record yet.
    expect(await desk.records.sessions()).toHaveLength(1);
    expect(await desk.homework.join('quib')).toBeNull();
    expect(desk.stage()).toEqual({ at: 'joined', added: 1, person: 'quib' });
    const [reported] = (await desk.records.sessions()).filter((head) => head.isReported);
    expect(reported).toMatchObject({ person: 'quib', routine: 'homework', ended: 'completed' });
    const log = await desk.records.read(reported!.session);
    expect(log.filter(({ type }) => type === 'finding')).toMatchObject([
      { result: 'held' },
      { result: 'lost' },
    ]);
    // What was concluded at home is not taken for what the rules here say.
    expect(log.some(({ type }) => type === 'decision')).toBe(false);
    const quib = desk.store.state().people.all.find(({ person }) => person.id === 'quib');
    expect(quib?.open.hinge).toMatchObject({ outcome: 'working', session: 'visit' });

    // The same once more brings nothing twice.
    desk.openLink(back.link!);
    await vi.waitFor(() => expect(desk.stage()).toMatchObject({ sessions: [{ isHere: true }] }));
    expect(await desk.homework.join('quib')).toBeNull();
    expect(await desk.records.read(reported!.session)).toEqual(log);
  });

  it('by file, of nobody named: the coach says whose it is', async () => {
    const desk = await coach(null);
    made(await desk.homework.handOver([]));
    expect(await desk.homework.saveFile()).toBeNull();
    const athlete = device();
    athlete.homework.openFile(new Blob([desk.saved[0]![1]]));
    await until(athlete, 'homework');
    await doneOnce(athlete);
    made(await athlete.homework.sendBack());
    await athlete.homework.saveFile();
    const [name, text] = athlete.saved[0]!;
    expect(name).toBe('sayso-homework-report-2031-03-20.json');
    expect(text).not.toMatch(/Quib|quib/);
    desk.homework.openFile(new Blob([text]));
    await until(desk, 'report');
    expect(desk.stage()).toMatchObject({ person: null });
    expect(await desk.homework.join('zo')).toBeNull();
    expect((await desk.records.sessions())[0]).toMatchObject({ person: 'zo', isReported: true });
  });

  it('stays on the athlete’s device day after day, and leaves it when it is removed', async () => {
    const { link } = made(await (await coach()).homework.handOver([]));
    const athlete = await phone(link!);
    await doneOnce(athlete);
    athlete.homework.leave();
    expect(athlete.where()).toBe('people');
    await vi.waitFor(() =>
      expect(athlete.store.state().homework.kept).toMatchObject([{ done: [{}] }]),
    );
    athlete.clock.advance(24 * 3600 * 1000);
    const [kept] = athlete.store.state().homework.kept;
    athlete.homework.openKept(kept!.handover.id);
    await until(athlete, 'homework');
    expect(athlete.stage()).toMatchObject({ isKept: true, homework: { done: [{}] } });
    await doneOnce(athlete);
    expect(made(await athlete.homework.sendBack()).sessions?.all).toBe(2);
    athlete.homework.remove(kept!.handover.id);
    await vi.waitFor(() => expect(athlete.store.state().homework.kept).toEqual([]));
    // What was done stays in the record.
    expect(await athlete.records.sessions()).toHaveLength(2);
  });

  it('is worked out anew where something is not there, and that is remembered', async () => {
    const { link } = made(await (await coach()).homework.handOver([]));
    const athlete = await phone(link!);
    athlete.homework.notThere(['kettlebell']);
    await vi.waitFor(() =>
      expect(athlete.stage()).toMatchObject({
        homework: { today: { tasks: [{ drill: 'stick-hinge', rung: 2 }] } },
      }),
    );
    await doneOnce(athlete);
    athlete.homework.openKept(kept(athlete));
    await until(athlete, 'homework');
    expect(athlete.stage()).toMatchObject({ homework: { handover: { missing: ['kettlebell'] } } });
  });

  it('many sessions: the file holds all, link and code the last ones that they can', async () => {
    const { link } = made(await (await coach()).homework.handOver([]));
    const athlete = await phone(link!);
    athlete.willAnswer(
      Array.from({ length: 70 }, (_, at) => ({ result: 'pain' as const, pain: (at * 7) % 10 })),
    );
    for (let day = 0; day < 14; day += 1) {
      await doneOnce(athlete);
      athlete.clock.advance(24 * 3600 * 1000);
      athlete.homework.openKept(kept(athlete));
      await until(athlete, 'homework');
    }
    const { sessions, link: back } = made(await athlete.homework.sendBack());
    expect(sessions?.all).toBe(14);
    expect(sessions!.inLink).toBeLessThan(14);
    expect(sessions!.inLink).toBeGreaterThan(sessions!.inCode);
    expect(back!.length).toBeLessThanOrEqual(8000);
  });
  const kept = ({ store }: Device) => store.state().homework.kept[0]!.handover.id;
});

describe('what comes back', () => {
  /** Sent back by an athlete, with this put in its place, and taken to the coach's device. */
  async function cameBack(change: (text: string) => string, desk: Device) {
    const { link } = made(await desk.homework.handOver([]));
    const athlete = await phone(link!);
    await doneOnce(athlete);
    made(await athlete.homework.sendBack());
    await athlete.homework.saveFile();
    const { checksum, ...rest } = JSON.parse(change(athlete.saved[0]![1])) as { checksum: string };
    expect(checksum).toMatch(/^[0-9a-f]{8}$/);
    const { canonicalJson } = await import('../../../src/domain/keeping/canonical');
    const { crc32 } = await import('../../../src/domain/keeping/checksum');
    const sealed = { ...rest, checksum: crc32(canonicalJson(rest)) };
    desk.homework.openFile(new Blob([JSON.stringify(sealed)]));
  }
  const nameIn = (text: string) => /"session":"(\w+)"/.exec(text)![1]!;

  it('never touches another session, by whatever name it comes', async () => {
    const desk = await coach();
    const before = await desk.records.read('visit');
    await cameBack((text) => text.replaceAll(nameIn(text), 'visit'), desk);
    await until(desk, 'refused');
    expect(desk.stage()).toMatchObject({ say: expect.stringMatching(/name of another session/) });
    expect(await desk.records.read('visit')).toEqual(before);
  });

  it('never passes for the invented club or a rehearsal', async () => {
    const desk = await coach();
    await cameBack((text) => text.replaceAll(nameIn(text), 'invented-x'), desk);
    await until(desk, 'refused');
    await cameBack((text) => text.replaceAll(nameIn(text), 'rehearsal-x'), desk);
    await until(desk, 'refused');
    expect(await desk.records.sessions()).toHaveLength(1);
  });

  it('with other words under a name that came before is refused, and the first stays', async () => {
    const desk = await coach();
    let first = '';
    await cameBack((text) => (first = text), desk);
    await until(desk, 'report');
    expect(await desk.homework.join('quib')).toBeNull();
    const log = await desk.records.read(nameIn(first));
    await cameBack(() => first.replace('"result":"held"', '"result":"lost"'), desk);
    await until(desk, 'refused');
    expect(desk.stage()).toMatchObject({ say: expect.stringMatching(/not what came before/) });
    expect(await desk.records.read(nameIn(first))).toEqual(log);
  });

  it('of drills that nobody knows is refused before it stands in the record', async () => {
    const desk = await coach();
    await cameBack((text) => text.replaceAll('bell-hinge', 'barrel-roll'), desk);
    await until(desk, 'refused');
    expect(await desk.records.sessions()).toHaveLength(1);
  });
});

describe('a link that is opened', () => {
  it('while a session runs waits for its end, and cuts nothing', async () => {
    const { link } = made(await (await coach()).homework.handOver([]));
    for (const where of ['run', 'warmUp', 'squadDay', 'voiceCheck'] as const) {
      const here = device({ where });
      here.openLink(link!);
      expect(here.where()).toBe(where);
      expect(here.store.state().homework.waits).toBe(true);
      here.homework.openWaiting();
      await until(here, 'homework');
      expect(here.store.state().homework.waits).toBe(false);
    }
  });

  it('and then another: the later one is shown', async () => {
    const desk = await coach();
    const { link } = made(await desk.homework.handOver([]));
    const here = device();
    here.openLink('#homework=AAAA');
    here.openLink(link!);
    await until(here, 'homework');
    here.openLink('#elsewhere');
    expect(here.stage().at).toBe('homework');
    here.openLink('#homework=AAAA');
    await until(here, 'refused');
    expect(here.stage()).toMatchObject({ say: expect.stringMatching(/Ask your coach/) });
  });

  it('of another language of the page is offered in it', async () => {
    const { homeworkTravels } = await import('../../../src/main/homework/travelling');
    const { ADDRESS, HANDOVER } = await import('./examples');
    const spanish = await homeworkTravels(ADDRESS, { ...HANDOVER, language: 'es' });
    const here = device({ hash: spanish.travels.link!.slice(ADDRESS.length) });
    await until(here, 'otherLanguage');
    // It is there again once the page has come back in that language.
    expect(here.address.hash()).not.toBe('');
  });
});

describe('whose homework it is', () => {
  it('is kept with the person and not in the log, and outlives a change of the name', async () => {
    const desk = await coach();
    made(await desk.homework.handOver([]));
    made(await desk.homework.handOver([]));
    const quib = async () => (await desk.keptPeople.all()).find(({ id }) => id === 'quib');
    // The same homework made twice is one.
    expect((await quib())?.handovers).toHaveLength(1);
    expect(JSON.stringify(await desk.records.read('visit'))).not.toContain(
      (await quib())!.handovers![0],
    );
    await desk.people.save([someone('Quib Marnie', { id: 'quib' })]);
    expect(await quib()).toMatchObject({ name: 'Quib Marnie', handovers: [expect.anything()] });
    await desk.people.remove('quib');
    expect(JSON.stringify(await desk.keptPeople.all())).not.toContain('handovers');
  });
});
