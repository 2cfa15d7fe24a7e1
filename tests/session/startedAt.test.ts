import fc from 'fast-check';
import { expect, it } from 'vitest';
import { momentAt } from '../../src/session/startedAt';
import { openBench, STARTED } from './bench';

it.each([
  [0, '2026-01-05T09:00:00.000Z'],
  [60, '2026-01-05T10:00:00.000+01:00'],
  [-600, '2026-01-04T23:00:00.000-10:00'],
  [345, '2026-01-05T14:45:00.000+05:45'],
])('a moment %i minutes east of UTC is written as it was there: %s', (offset, written) => {
  expect(momentAt(STARTED, offset)).toBe(written);
});

it('is the same moment, to the millisecond, wherever it was', () => {
  const moment = fc.integer({ min: 0, max: 4_000_000_000_000 });
  fc.assert(
    fc.property(moment, fc.integer({ min: -840, max: 840 }), (at, offset) => {
      expect(Date.parse(momentAt(at, offset))).toBe(at);
    }),
  );
});

it('a session begins on the calendar of its place, and its next date is counted from there', () => {
  const bench = openBench({ utcOffsetMinutes: -600 });
  for (const prompt of ['check/hinge-unloaded', 'check/hinge-bar']) {
    bench.untilAsked(prompt);
    bench.hear('clean');
  }
  bench.seconds(60);
  expect(bench.logged('started')[0]?.startedAt).toBe('2026-01-04T23:00:00.000-10:00');
  expect(bench.of('end')[0]?.nextDate).toBe('2026-02-01');
});
