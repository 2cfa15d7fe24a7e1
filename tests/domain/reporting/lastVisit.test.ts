import { describe, expect, it } from 'vitest';
import { sinceLastVisit } from '../../../src/domain/reporting/lastVisit';
import type { Telling } from '../deciding/logging';
import { begin, book } from './book';
import { saying, toRetest } from './measuring';

const since = (before: Telling, now: Telling) => sinceLastVisit(book, before.entries, now.entries);
const stand = (degrees: number) => saying(begin('overhead').held(3), 'short', degrees);

describe('since the last visit', () => {
  it('12.18 has the outcome of each area of either visit, and the rung', () => {
    const before = begin('readiness').held(4).lost('knees-caved').held(2).held(2);
    while (before.step.do === 'set') before.coach('next');
    before.lost('knees-caved');
    const now = begin('squat').held(2);
    expect(since(before, now).areas).toEqual([
      { area: 'overhead', before: 'ready', now: null, rungBefore: null, rungNow: null },
      { area: 'squat', before: 'working', now: 'ready', rungBefore: 1, rungNow: null },
      { area: 'hinge', before: 'ready', now: null, rungBefore: null, rungNow: null },
    ]);
    expect(since(now, before).areas[0]).toMatchObject({ area: 'squat', before: 'ready' });
  });

  it('12.18 has the same check and side, what stood, and the change of the angle at first', () => {
    const left = saying(begin('overhead'), 'short', 120).held(3);
    const now = saying(saying(begin('overhead'), 'held', 160), 'held', 170).held(2);
    const [one, other, lying] = since(left, now).checks;
    expect(one).toMatchObject({ side: 'left', before: 'failed', now: 'held' });
    expect(one?.change).toMatchObject({ verdict: 'better', degrees: 40, mdc: { degrees: 34 } });
    expect(one?.told).toEqual({
      what: 'Left: 120 at the visit before, 160 degrees by inclinometer at this one.',
      says: 'More range, beyond the 34 degrees that this tool can be out by.',
    });
    expect(other).toMatchObject({ side: 'right', now: 'held', change: null, told: null });
    expect(lying).toMatchObject({ check: 'overhead-active-lying', side: null });
  });

  it('12.18 holds the first angle against the first, not against one after drills', () => {
    const before = saying(toRetest(stand(140)), 'short', 152);
    const [, , , standing] = since(before, stand(149)).checks;
    expect(standing?.change).toMatchObject({ verdict: 'better', degrees: 9 });
  });

  it('12.18 goes by the rules of 12.15: error, eye and tools', () => {
    const verdict = (before: Telling, now: Telling) => since(before, now).checks[3]?.change;
    expect(verdict(stand(140), stand(148))).toMatchObject({ verdict: 'within-error' });
    expect(verdict(stand(149), stand(140))).toMatchObject({ verdict: 'worse' });
    const eye = (degrees: number) => saying(begin('overhead').held(3), 'short', degrees, 'eye');
    expect(verdict(eye(110), eye(150))).toMatchObject({ verdict: 'better', mayBeCalled: false });
    expect(verdict(eye(140), stand(150))).toMatchObject({
      verdict: 'not-comparable',
      why: 'other-tool',
    });
  });

  it('12.18 has no check that only one of the visits had', () => {
    expect(since(begin('hinge').held(2), begin('squat').held(2)).checks).toEqual([]);
  });
});
