import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS, type Entry } from '../../../src/domain/log';
import { ageOn } from '../../../src/domain/people/age';
import { shifted, type InventedClub } from '../../../src/domain/people/inventedClub';
import { someone } from './someone';

const session = (name: string, startedAt: string): Entry[] => [
  {
    ...{ id: `${name}:cli:1`, atSeconds: 0, type: 'started', routine: 'hinge', language: 'en' },
    ...{ way: 'hands-on', startedAt, settings: DEFAULT_SETTINGS },
  },
  { id: `${name}:cli:2`, atSeconds: 90.5, type: 'ended', reason: 'completed' },
];
const CLUB: InventedClub = {
  format: 'sayso-invented-club-1',
  name: 'The Invented Club',
  people: [
    someone('Pebble', { birthYear: 2014, guardianAgreedOn: '2031-03-01' }),
    someone('Acorn'),
  ],
  sessions: [
    session('invented-1', '2031-03-04T15:00:00.000Z'),
    session('invented-2', '2031-04-17T15:40:00.000Z'),
  ],
};
const days = (club: InventedClub) =>
  club.sessions.map(([first]) => (first as Extract<Entry, { type: 'started' }>).startedAt);

describe('the invented club is moved', () => {
  it('so that its latest visit lies one to two weeks ago, on the same weekday and hour', () => {
    const moved = shifted(CLUB, '2026-11-25');
    expect(days(moved)).toEqual(['2026-09-29T15:00:00.000Z', '2026-11-12T15:40:00.000Z']);
    expect(moved.people).toMatchObject([
      { birthYear: 2009, guardianAgreedOn: '2026-09-26' },
      { birthYear: null, guardianAgreedOn: null },
    ]);
  });

  it('on every day, forward too, by whole weeks, and nobody changes in age', () => {
    const day = fc
      .integer({ min: 0, max: 60_000 })
      .map((at) => new Date(Date.UTC(2000, 0, 1) + at * 86_400_000).toISOString().slice(0, 10));
    fc.assert(
      fc.property(day, (today) => {
        const moved = shifted(CLUB, today);
        const [first = '', last = ''] = days(moved).map((at) => at.slice(0, 10));
        const since = (one: string, other: string) =>
          (Date.parse(other) - Date.parse(one)) / 86_400_000;
        expect(since(last, today)).toBeGreaterThanOrEqual(8);
        expect(since(last, today)).toBeLessThanOrEqual(14);
        expect(since(first, last)).toBe(44);
        expect(new Date(last).getUTCDay()).toBe(new Date('2031-04-17').getUTCDay());
        // On the last day of a year a birthday is surely over: one more is right there.
        const more = last.endsWith('-12-31') ? 1 : 0;
        expect(ageOn(moved.people[0]!.birthYear!, last) - more).toBe(ageOn(2014, '2031-04-17'));
      }),
    );
  });

  it('and nothing else of it changes', () => {
    const moved = shifted(CLUB, '2026-11-25');
    expect(moved.sessions.map((each) => each[1])).toEqual(CLUB.sessions.map((each) => each[1]));
    expect(moved.sessions.map((each) => each[0]!.id)).toEqual(
      CLUB.sessions.map((each) => each[0]!.id),
    );
    expect(shifted(moved, '2026-11-25')).toEqual(moved);
    expect(shifted({ ...CLUB, sessions: [] }, '2026-11-25').people).toEqual(CLUB.people);
  });
});
