import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dateAfter } from '../../../src/domain/people/dateAfter';
import { nextVisitOf } from '../../../src/domain/reporting/nextDate';
import type { AreaOutcome } from '../../../src/domain/areas';
import { book } from './book';

const STARTED = '2031-03-01T09:00:00+00:00';
const AREAS = ['overhead', 'squat', 'hinge'] as const;
const visit = (...outcomes: AreaOutcome[]) =>
  nextVisitOf(
    book,
    outcomes.map((outcome, at) => ({
      area: AREAS[at % 3]!,
      outcome,
      waits: outcome === 'referred',
    })),
    STARTED,
    { endedOnWarning: false, hasHomework: true },
  );

describe('the next date', () => {
  it('13.9 is a week after a session with a working area', () => {
    expect(visit('ready', 'working')).toMatchObject({ date: '2031-03-08', rule: '13.9' });
    expect(visit('working').because).toBe(
      'A week of homework first, then the overhead reach again.',
    );
  });

  it('13.10 is the next day where something is unfinished, whatever the others wait for', () => {
    expect(visit('working', 'unfinished', 'ready')).toMatchObject({
      date: '2031-03-02',
      rule: '13.10',
    });
  });

  it('13.11 is four weeks on where everything held', () => {
    expect(visit('ready', 'ready', 'ready')).toMatchObject({ date: '2031-03-29', rule: '13.11' });
  });

  it('13.12 is none where every area was referred; one that was is left out of the others', () => {
    expect(visit('referred')).toMatchObject({ date: null, rule: '13.12' });
    const { date, because } = visit('working', 'referred', 'referred');
    expect(date).toBe('2031-03-08');
    expect(because).toMatch(/licensed professional has decided, leave out: squat and hinge/);
    expect(visit('ready', 'ready', 'referred').because).toMatch(
      /^The overhead reach and squat held\. .* leave out: hinge\.$/,
    );
    expect(visit('ready', 'ready').because).toBe('Everything held. Test again in four weeks.');
  });

  it('13.8 is none after a warning sign', () => {
    const flagged = nextVisitOf(
      book,
      [{ area: 'squat', outcome: 'ready', waits: false }],
      STARTED,
      { endedOnWarning: true, hasHomework: false },
    );
    expect(flagged).toMatchObject({ date: null, rule: '13.8' });
  });

  it.each([
    ['2031-02-28T23:30:00-08:00', 1, '2031-03-01'],
    ['2032-02-28T23:30:00-08:00', 1, '2032-02-29'],
    ['2031-12-31T00:10:00+13:00', 1, '2032-01-01'],
    ['2031-03-29T23:59:59+01:00', 1, '2031-03-30'],
    ['2031-10-25T12:00:00+02:00', 7, '2031-11-01'],
    ['2031-01-31T08:00:00Z', 28, '2031-02-28'],
  ])('13.13 counts days on the calendar of the place: %s and %i days is %s', (at, days, date) => {
    expect(dateAfter(at, days)).toBe(date);
  });

  it('13.13 is a day later for each day, over every month end, and never by the hour', () => {
    const days = fc.integer({ min: 0, max: 400 });
    const hour = fc.integer({ min: 0, max: 23 }).map((one) => String(one).padStart(2, '0'));
    fc.assert(
      fc.property(days, hour, fc.constantFrom('-11:00', '+00:00', '+14:00'), (from, at, offset) => {
        const start = dateAfter('2031-01-01T00:00:00Z', from)!;
        const next = dateAfter(`${start}T${at}:30:00${offset}`, 1);
        expect(next).toBe(dateAfter('2031-01-01T00:00:00Z', from + 1));
      }),
    );
  });

  it('13.13 is none where the log has no date', () => {
    expect(dateAfter('yesterday', 7)).toBeNull();
  });
});
