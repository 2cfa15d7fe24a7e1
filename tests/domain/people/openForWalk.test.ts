import { describe, expect, it } from 'vitest';
import { areaStates } from '../../../src/domain/deciding/deciding';
import { ELSEWHERE, leftBy, tellsWhatIsLeft } from '../../../src/domain/people/left';
import { openFor } from '../../../src/domain/people/openFor';
import { reportOf } from '../../../src/domain/reporting/report';
import { Walk } from '../deciding/walking';
import { book } from '../reporting/book';

const SESSIONS = 500;
const STARTED_AT = '2031-03-01T09:00:00+00:00';

describe('what is open after a random session', () => {
  it('13.15 is due on the date that its report gives, read from few of its entries', () => {
    const seen = { dated: 0, dateless: 0, pain: 0, elsewhere: 0, undone: 0 };
    for (let seed = 1; seed <= SESSIONS; seed += 1) {
      const walk = new Walk(seed, book);
      for (let turn = 0; turn < 120 && walk.told.step.do !== 'end'; turn += 1) {
        walk.tell();
        if (walk.chance(0.05)) walk.undo();
      }
      const { entries } = walk.told;
      const report = reportOf(book, entries);
      for (const { area, outcome, rung } of areaStates(book, entries))
        walk.told.add({ type: 'outcome', area, outcome, rung });
      const { step } = walk.told;
      walk.told.add({ type: 'ended', reason: step.do === 'end' ? step.reason : 'stopped' });
      const few = walk.told.entries.filter(tellsWhatIsLeft);
      const left = leftBy(few);
      const ended = few.find((entry) => entry.type === 'ended')?.reason ?? null;
      const head = { session: 's', startedAt: STARTED_AT, ended, person: 'p1' };
      const open = openFor(book, [{ head, ...left }], '2031-03-02');
      const dates = Object.values(open).flatMap((area) => area?.dueOn ?? []);
      const first = dates.sort()[0] ?? null;
      seen.pain += Number(left.newPainAt.length > 0);
      seen.undone += Number(few.some(({ type }) => type === 'undone'));
      if (left.newPainAt.includes(ELSEWHERE)) {
        seen.elsewhere += 1;
        expect(first, `seed ${String(seed)}`).toBeNull();
        continue;
      }
      expect(first, `seed ${String(seed)}`).toBe(report.nextDate);
      if (first === null) seen.dateless += 1;
      else seen.dated += 1;
    }
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(0);
  });
});
