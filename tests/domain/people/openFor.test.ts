import { describe, expect, it } from 'vitest';
import type { AreaOutcome } from '../../../src/domain/areas';
import type { Entry } from '../../../src/domain/log';
import {
  ELSEWHERE,
  leftBy,
  tellsWhatIsLeft,
  type SessionLeft,
} from '../../../src/domain/people/left';
import { openByPerson, openFor } from '../../../src/domain/people/openFor';
import { Telling } from '../deciding/logging';
import { book } from '../deciding/book';

const visit = (
  startedAt: string,
  areas: Partial<Record<'overhead' | 'squat' | 'hinge', AreaOutcome>>,
  more: Partial<SessionLeft['head']> & { newPainAt?: string[]; isWarned?: boolean } = {},
): SessionLeft => {
  const { newPainAt = [], isWarned = false, ...head } = more;
  return {
    head: { session: startedAt, startedAt, ended: 'completed', person: 'p1', ...head },
    areas: Object.entries(areas).map(([area, outcome]) => ({
      area: area as 'hinge',
      outcome,
      rung: 2,
    })),
    newPainAt,
    isWarned,
  };
};
const MARCH = '2031-03-01T09:00:00+00:00';
const openOn = (today: string, ...sessions: SessionLeft[]) => openFor(book, sessions, today);

describe('what is open for a person', () => {
  it('13.15 is each area by the newest session that has an outcome for it', () => {
    const early = visit('2031-02-01T09:00:00+00:00', { squat: 'working', hinge: 'unfinished' });
    const open = openOn('2031-03-08', early, visit(MARCH, { hinge: 'working' }));
    expect(open).toEqual({
      overhead: null,
      squat: {
        ...{ outcome: 'working', rung: 2, session: '2031-02-01T09:00:00+00:00' },
        ...{ on: '2031-02-01', waits: false, dueOn: '2031-02-08', isDue: true },
      },
      hinge: {
        ...{ outcome: 'working', rung: 2, session: MARCH },
        ...{ on: '2031-03-01', waits: false, dueOn: '2031-03-08', isDue: true },
      },
    });
    const turned = openOn('2031-03-08', visit(MARCH, { hinge: 'working' }), early);
    expect(turned).toEqual(open);
  });

  it('is not changed by homework that was reported, but by what a professional is to decide', () => {
    const after = '2031-03-04T09:00:00+00:00';
    const seen = visit(MARCH, { hinge: 'working' });
    const alone = (outcome: AreaOutcome, more: Parameters<typeof visit>[2] = {}) =>
      openOn(
        '2031-03-05',
        seen,
        visit(after, { hinge: outcome }, { routine: 'homework', ...more }),
      );
    const asSeen = openOn('2031-03-05', seen);
    for (const outcome of ['ready', 'working', 'unfinished'] as const) {
      expect(alone(outcome)).toEqual(asSeen);
    }
    expect(alone('referred').hinge).toMatchObject({ waits: true, session: after });
    expect(alone('working', { newPainAt: ['bell-hinge'] }).hinge?.waits).toBe(true);
    expect(alone('working', { isWarned: true }).hinge?.waits).toBe(true);
    // By itself it makes nothing anything.
    const first = visit(after, { hinge: 'ready' }, { routine: 'homework' });
    expect(openOn('2031-03-05', first).hinge).toBeNull();
  });

  it.each<[AreaOutcome, string | null]>([
    ['unfinished', '2031-03-02'],
    ['working', '2031-03-08'],
    ['ready', '2031-03-29'],
    ['referred', null],
  ])('13.15 gives each area its own date: %s on %s', (outcome, dueOn) => {
    const others = { overhead: 'unfinished', squat: 'referred' } as const;
    const { hinge } = openOn('2031-03-01', visit(MARCH, { ...others, hinge: outcome }));
    expect(hinge).toMatchObject({ outcome, dueOn, waits: dueOn === null, isDue: false });
  });

  it('13.13 is due from that date on, on the calendar of where the session was', () => {
    const late = visit('2031-03-01T23:30:00-08:00', { hinge: 'working' });
    expect(openOn('2031-03-07', late).hinge).toMatchObject({ on: '2031-03-01', isDue: false });
    expect(openOn('2031-03-08', late).hinge?.isDue).toBe(true);
    expect(openOn('2032-01-01', late).hinge?.isDue).toBe(true);
  });

  it('13.15 takes the later session by true time, across time zones', () => {
    const east = visit('2031-03-02T01:00:00+09:00', { hinge: 'ready' });
    const west = visit('2031-03-01T18:00:00-08:00', { hinge: 'working' });
    expect(openOn('2031-03-03', east, west).hinge?.outcome).toBe('working');
  });

  it('13.8 has no date after a warning sign, in any area of that session', () => {
    const flagged = visit(MARCH, { squat: 'ready', hinge: 'unfinished' }, { isWarned: true });
    const { squat, hinge } = openOn('2031-12-01', flagged);
    for (const area of [squat, hinge]) {
      expect(area).toMatchObject({ waits: true, dueOn: null, isDue: false });
    }
  });

  it('13.14 has no date after new or sharp pain in the area, and keeps those of the others', () => {
    const newPainAt = ['hinge-unloaded'];
    const hurt = visit(MARCH, { squat: 'working', hinge: 'working' }, { newPainAt });
    expect(openOn('2031-12-01', hurt)).toMatchObject({
      squat: { waits: false, isDue: true },
      hinge: { waits: true, dueOn: null, isDue: false },
    });
    const drill = Object.values(book.drills).find(({ area }) => area === 'squat')!.id;
    const inDrill = visit(MARCH, { squat: 'working', hinge: 'working' }, { newPainAt: [drill] });
    expect(openOn('2031-12-01', inDrill)).toMatchObject({
      ...{ squat: { waits: true }, hinge: { waits: false } },
    });
  });

  it('13.15 counts pain at an unknown place for every area of its session', () => {
    for (const id of [ELSEWHERE, 'gone-from-the-book']) {
      const hurt = visit(MARCH, { squat: 'ready' }, { newPainAt: [id] });
      expect(openOn('2031-12-01', hurt).squat?.waits).toBe(true);
    }
  });

  it('is told for each person apart, and for nobody where nobody was named', () => {
    const sessions = [
      visit(MARCH, { hinge: 'ready' }),
      visit(MARCH, { hinge: 'working' }, { person: 'p2' }),
      visit(MARCH, { hinge: 'referred' }, { person: null }),
    ];
    const all = openByPerson(book, sessions, '2031-03-08');
    expect([...all.keys()]).toEqual(['p1', 'p2']);
    expect(all.get('p1')?.hinge?.outcome).toBe('ready');
    expect(all.get('p2')).toEqual(openFor(book, [sessions[1]!], '2031-03-08'));
  });
});

describe('what a session left', () => {
  const outcome = (area: 'hinge' | 'squat', what: AreaOutcome) =>
    ({ type: 'outcome', area, outcome: what, rung: null }) as const;
  const begin = () => new Telling('hinge');
  /** The same from the whole log and from the entries that tell. */
  const left = ({ entries }: { entries: Entry[] }) => {
    const whole = leftBy(entries);
    expect(leftBy(entries.filter(tellsWhatIsLeft))).toEqual(whole);
    return whole;
  };

  it('is told by few of its entries', () => {
    const told = begin().say('lost', { faults: ['knees-forward'] });
    told.add(outcome('hinge', 'working')).add({ type: 'ended', reason: 'stopped' });
    const types = told.entries.filter(tellsWhatIsLeft).map(({ type }) => type);
    expect(types).toEqual(['started', 'outcome', 'ended']);
  });

  it('is the last outcome of each area', () => {
    const told = begin().add(outcome('hinge', 'ready')).add(outcome('squat', 'ready'));
    told.add(outcome('hinge', 'unfinished')).add({ type: 'ended', reason: 'stopped' });
    expect(left(told).areas).toMatchObject([{ outcome: 'unfinished' }, { outcome: 'ready' }]);
  });

  it('13.15 is unfinished where something was taken back and the session never ended', () => {
    const told = begin().say('held').add(outcome('hinge', 'ready'));
    expect(left(told).areas).toMatchObject([{ outcome: 'ready' }]);
    const finding = told.entries.find(({ type }) => type === 'finding')!.id;
    told.add({ type: 'undone', entry: finding, source: told.source() });
    expect(left(told).areas).toMatchObject([{ outcome: 'unfinished' }]);
    told.add(outcome('hinge', 'working'));
    expect(left(told).areas).toMatchObject([{ outcome: 'working' }]);
  });

  it('13.14 names the check of pain that was new or sharp, or whose kind was not said', () => {
    const kinds = (kind: 'known' | 'new' | 'sharp' | 'unanswered' | null, pain: number | null) => {
      const told = begin().say('pain', { pain });
      if (kind !== null) told.add({ type: 'pain-kind', kind, source: null });
      return left(told).newPainAt;
    };
    expect(kinds('new', 3)).toEqual(['hinge-unloaded']);
    expect(kinds('sharp', null)).toEqual(['hinge-unloaded']);
    expect(kinds('unanswered', 3)).toEqual(['hinge-unloaded']);
    expect(kinds(null, 3)).toEqual(['hinge-unloaded']);
    expect(kinds(null, null)).toEqual(['hinge-unloaded']);
    expect(kinds('known', 3)).toEqual([]);
    expect(kinds('new', 0)).toEqual(['hinge-unloaded']);
    expect(kinds(null, 0)).toEqual([]);
  });

  it('13.8 is warned by a sign, also where the session was broken off at it', () => {
    const told = begin().say('held').add(outcome('hinge', 'ready'));
    expect(left(told).isWarned).toBe(false);
    expect(left(told.redFlag('chest-pain')).isWarned).toBe(true);
  });

  it('13.14 forgets pain that was taken back', () => {
    const told = begin().say('pain', { pain: 4 });
    const finding = told.entries.at(-1)!.id;
    told.add({ type: 'pain-kind', kind: 'new', source: null });
    expect(left(told).newPainAt).toEqual(['hinge-unloaded']);
    told.add({ type: 'undone', entry: finding, source: told.source() });
    expect(left(told).newPainAt).toEqual([]);
  });

  it('13.15 does not lose a kind that was said with a result', () => {
    const told = begin().say('held').add({ type: 'pain-kind', kind: 'sharp', source: null });
    expect(leftBy(told.entries.filter(tellsWhatIsLeft)).newPainAt).toEqual([ELSEWHERE]);
  });
});
